import type { Range } from "../amounts.ts"
import { wilsonRange } from "../statistics/wilson.ts"
import type { Pull } from "./verdict.ts"

/** What the model said of one bake, as probabilities, and what an instructor who saw the bread said of it. */
export type Correction = { said: Record<Pull, number>; call: Pull }

/**
 * Verdicts that were about as sure of themselves, probabilities from `from` up to `to`. `stated` is what they said on
 * average, `share` how often they were right, with its 95 % range; undefined below `leastInBin`.
 */
export type CertaintyBin = {
  from: number
  to: number
  count: number
  right: number
  stated?: number
  held?: { share: number; range: Range; against: "as said" | "less often" | "more often" }
}
export type Calibration = { count: number; right: number; enough: boolean; bins: CertaintyBin[] }

/** Around 60, 80 and 90 %; below one half the model itself said "between two". Our own choice. */
const edges = [1 / 3, 0.5, 0.7, 0.85, 1]
/** With fewer, the range spans more than half of all that could be: nothing is said. Our own judgement. */
export const leastInBin = 5
/** Below so many corrections in all nothing is said of the whole: its range, too, would span half of all that could be. Our own judgement. */
export const leastInAll = 8

/** Which of the three the model thought most likely, and with which probability; the first of equals. */
export function mostLikely(said: Record<Pull, number>): { call: Pull; stated: number } {
  const calls = ["under", "well", "over"] as const
  const call = calls.reduce((best, one) => (said[one] > said[best] ? one : best))
  return { call, stated: said[call] }
}

/** Whether the model's most likely call was the instructor's. */
export const wasRight = ({ said, call }: Correction): boolean => mostLikely(said).call === call

/**
 * How often the model was right, by how sure it said it was: its most likely call against the instructor's, an agreement
 * counting like a correction. "as said" where the mean stated probability lies within the 95 % range of the share that
 * held (Wilson 1927). Throws RangeError where a verdict's highest probability is not between one third and 1.
 */
export function calibrationOf(corrections: Correction[]): Calibration {
  const judged = corrections.map((one) => ({ stated: statedBy(one), right: wasRight(one) }))
  const bins = edges.slice(0, -1).map((from, index): CertaintyBin => {
    const to = edges[index + 1]!
    const within = judged.filter(({ stated }) => binOf(stated) === index)
    const right = within.filter((one) => one.right).length
    return { from, to, count: within.length, right, ...heldIn(within, right) }
  })
  const right = judged.filter((one) => one.right).length
  return { count: judged.length, right, enough: judged.length >= leastInAll, bins }
}

/** The last edge that a probability reaches; the ends belong to the first and the last bin. */
const binOf = (stated: number) =>
  Math.max(
    0,
    edges.slice(0, -1).findLastIndex((from) => stated >= from),
  )

// three thirds, kept as decimals, may come back a little below one third
const rounding = 1e-6

function statedBy({ said }: Correction) {
  const { stated } = mostLikely(said)
  if (!(stated >= 1 / 3 - rounding && stated <= 1 + rounding))
    throw new RangeError(`${stated} cannot be the highest of three probabilities`)
  return stated
}

function heldIn(within: { stated: number }[], right: number): Pick<CertaintyBin, "stated" | "held"> {
  const count = within.length
  if (count === 0) return {}
  const stated = within.reduce((sum, one) => sum + one.stated, 0) / count
  if (count < leastInBin) return { stated }
  const range = wilsonRange(right, count)
  const against = stated > range.high ? "less often" : stated < range.low ? "more often" : "as said"
  return { stated, held: { share: right / count, range, against } }
}
