import { median } from "simple-statistics"
import type { Range } from "../amounts.ts"
import { type Answer, enough, notEnough, tooFew } from "./answer.ts"

/**
 * The middle of values spread alike to both sides: the median of the means of every two values, each with itself too. For
 * paired values, give their differences. Throws RangeError for a value that is not finite.
 *
 * Source: Hodges & Lehmann 1963, Ann Math Stat 34:598.
 */
export function hodgesLehmann(values: number[]): Answer<number> {
  return tooFew(values) ?? enough(median(walsh(values)))
}

const walsh = (values: number[]) => values.flatMap((a, i) => values.slice(i).map((b) => (a + b) / 2))

/**
 * The 95 % limits of hodgesLehmann: as many of those means in from either end as Wilcoxon's signed rank sum of values spread
 * evenly about 0 stays within. Five values or fewer cannot give them. Throws like hodgesLehmann.
 *
 * Source: Hollander & Wolfe 1999, Nonparametric Statistical Methods, 3.3, from memory; R's wilcox.test works them out alike.
 */
export function hodgesLehmannLimits(values: number[]): Answer<Range> {
  const few = tooFew(values)
  if (few) return few
  const place = signedRankPlace(values.length)
  if (place < 1) return notEnough("Too few values for limits; there must be 6.")
  const inOrder = walsh(values).sort((a, b) => a - b)
  return enough({ low: inOrder[place - 1]!, high: inOrder[inOrder.length - place]! })
}

/** The lowest signed rank sum that at most 1 time in 40 is not exceeded: counted, or beyond 40 values by the normal approximation. */
function signedRankPlace(count: number): number {
  const most = (count * (count + 1)) / 2
  if (count > mostCounted) return Math.floor(most / 2 - normal95 * Math.sqrt((most * (2 * count + 1)) / 12))
  const ways = Array<number>(most + 1).fill(0)
  ways[0] = 1
  for (let rank = 1; rank <= count; rank++) for (let sum = most; sum >= rank; sum--) ways[sum]! += ways[sum - rank]!
  let place = 0
  for (let chance = ways[0]! / 2 ** count; chance < 0.025; chance += ways[place]! / 2 ** count) place++
  return place
}
const mostCounted = 40
/** Φ⁻¹(0.975). Abramowitz & Stegun 1964, table 26.5, from memory. */
const normal95 = 1.959963984540054

/**
 * By how much `to` lies above `from`: the median of all differences between one value of each. Needs three values on either
 * side. Throws and source as hodgesLehmann.
 */
export function hodgesLehmannShift(from: number[], to: number[]): Answer<number> {
  const differences = () => from.flatMap((a) => to.map((b) => b - a))
  return tooFew(from) ?? tooFew(to) ?? enough(median(differences()))
}
