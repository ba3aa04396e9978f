import { median } from "simple-statistics"
import { type Answer, enough, tooFew } from "./answer.ts"

/**
 * The middle of values spread alike to both sides: the median of the means of every two values, each with itself too. For
 * paired values, give their differences. Throws RangeError for a value that is not finite.
 *
 * Source: Hodges & Lehmann 1963, Ann Math Stat 34:598.
 */
export function hodgesLehmann(values: number[]): Answer<number> {
  const means = () => values.flatMap((a, i) => values.slice(i).map((b) => (a + b) / 2))
  return tooFew(values) ?? enough(median(means()))
}

/**
 * By how much `to` lies above `from`: the median of all differences between one value of each. Needs three values on either
 * side. Throws and source as hodgesLehmann.
 */
export function hodgesLehmannShift(from: number[], to: number[]): Answer<number> {
  const differences = () => from.flatMap((a) => to.map((b) => b - a))
  return tooFew(from) ?? tooFew(to) ?? enough(median(differences()))
}
