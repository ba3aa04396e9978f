import * as library from "simple-statistics"
import type { Share } from "../amounts.ts"
import { type Answer, enough, notEnough, tooFew } from "./answer.ts"

/** The middle value, or the mean of the two in the middle. Throws RangeError for a value that is not finite. */
export function median(values: number[]): Answer<number> {
  return tooFew(values) ?? enough(library.median(values))
}

/**
 * The value below which this share of the values lies: linear between the values in order, the lowest at 0 and the highest
 * at 1, which is type 7 of Hyndman & Fan 1996, The American Statistician 50:361. They recommend type 8; type 7 is what
 * spreadsheets and R work out unless told otherwise, so a teacher who takes the class there finds the same quartiles.
 * Throws RangeError for a share outside 0–1 or a value that is not finite.
 */
export function quantile(values: number[], share: Share): Answer<number> {
  if (!(share >= 0 && share <= 1)) throw new RangeError(`a share is between 0 and 1, not ${share}`)
  return tooFew(values) ?? enough(library.quantile(values, share))
}

/** Median absolute deviation from the median, in the values' unit; 0 when more than half are equal. Throws like median. */
export function medianAbsoluteDeviation(values: number[]): Answer<number> {
  return tooFew(values) ?? enough(library.medianAbsoluteDeviation(values))
}

/** A standard deviation that one gross outlier hardly moves: MAD · 1.4826. Throws like median. */
export function robustSigma(values: number[]): Answer<number> {
  return tooFew(values) ?? enough(library.medianAbsoluteDeviation(values) * sigmaPerMad)
}
/** 1/Φ⁻¹(3/4), which makes the MAD of normal values their standard deviation. R, help page of stats::mad. */
export const sigmaPerMad = 1.482602218505602

/**
 * How far each value lies from the median, in the order given: 0.6745·(x − median)/MAD, after Iglewicz & Hoaglin 1993. Not
 * enough to say when the MAD is 0, where any other value would be infinitely far away. Throws like median.
 */
export function modifiedZ(values: number[]): Answer<number[]> {
  const few = tooFew(values)
  if (few) return few
  const mad = library.medianAbsoluteDeviation(values)
  if (mad === 0) return notEnough("More than half of the values are the same, so nothing tells how far is far.")
  const middle = library.median(values)
  return enough(values.map((value) => (zPerMad * (value - middle)) / mad))
}
/** Φ⁻¹(3/4) as printed by Iglewicz & Hoaglin 1993, How to Detect and Handle Outliers (ASQC, vol. 16); from memory. */
const zPerMad = 0.6745

/** A modified z beyond this, up or down, marks an outlier. Iglewicz & Hoaglin 1993, from memory. */
export const outlierZ = 3.5
