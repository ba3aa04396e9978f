import type { Range } from "../amounts.ts"
import { type Answer, enough } from "../statistics/answer.ts"
import { hodgesLehmann, hodgesLehmannLimits, hodgesLehmannShift } from "../statistics/hodges-lehmann.ts"
import { type Signs, signTest } from "../statistics/sign-test.ts"
import { fewestShared, tooFewOf } from "./limits.ts"

/** By how much bakes differ from their plan, in the middle and within 95 % limits, and on which side of it they lie. */
export type SharedDifference = Signs & { middle: number; limits: Range }

/**
 * The difference from plan that a class has in common: the Hodges-Lehmann middle of its bakes' differences with its limits,
 * and the sign test. Not enough to say of fewer than six bakes. Throws RangeError for a value that is not finite.
 */
export function sharedDifference(differences: number[]): Answer<SharedDifference> {
  if (differences.length < fewestShared) return tooFewOf(differences.length, fewestShared, "bakes that tell it")
  const [middle, limits] = [hodgesLehmann(differences), hodgesLehmannLimits(differences)]
  if (!middle.enough) return middle
  if (!limits.enough) return limits
  return enough({ ...signTest(differences), middle: middle.value, limits: limits.value })
}

/** Nearly all on one side, as chance would have it 1 time in 20 at most, and by at least as much as is worth a word. */
export const isShared = ({ p, middle, limits }: SharedDifference, least: number): boolean =>
  p <= 0.05 && Math.abs(middle) >= least && limits.low * limits.high > 0

/**
 * By how much the bakes with one flour lie above those with another: see hodgesLehmannShift. Not enough to say of fewer than
 * three on either side. Throws RangeError for a value that is not finite.
 */
export const betweenGroups = (from: number[], to: number[]): Answer<number> => hodgesLehmannShift(from, to)
