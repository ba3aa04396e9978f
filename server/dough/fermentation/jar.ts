import type { Share } from "../amounts.ts"

/**
 * Two marks on a straight-sided jar, in mm above its floor, and how surely each is read: one standard deviation, mm.
 */
export type JarMarks = { startMm: number; nowMm: number; readingErrorMm?: number }

/**
 * A rise with one standard deviation: 0.5 ± 0.03 is +50 % ± 3. `markSd` is what the upper mark alone makes of it, and
 * what the start mark makes of the whole volume: that error all readings from one start mark have in common.
 */
export type MeasuredRise = { rise: Share; sd: Share; markSd: Share }

/**
 * The share of its starting volume that a sample has gained in a jar with straight sides, below 0 when it has fallen,
 * with its standard error from both marks (propagation of errors, first order). Throws RangeError for marks or an error
 * that are not above 0.
 */
export function riseOfMarks({ startMm, nowMm, readingErrorMm = usualReadingErrorMm }: JarMarks): MeasuredRise {
  if (!(startMm > 0 && nowMm > 0)) throw new RangeError(`marks must lie above the floor: ${startMm} and ${nowMm} mm`)
  if (!(readingErrorMm > 0)) throw new RangeError(`a reading error must be above 0, not ${readingErrorMm} mm`)
  const ratio = nowMm / startMm
  const markSd = readingErrorMm / startMm
  return { rise: ratio - 1, sd: markSd * Math.hypot(1, ratio), markSd }
}

/** A domed, sticky surface is not read better than this. Our own judgement, no published source. */
const usualReadingErrorMm = 3
