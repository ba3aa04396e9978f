import type { Range } from "../amounts.ts"

/** The standard normal's two-sided 95 % point. */
const z = 1.959963984540054

/**
 * Between which shares the true one probably lies, with 95 %, when something happened `times` out of `of`: both whole
 * numbers. Unlike the usual ± it stays within 0 and 1 and holds for few. Throws RangeError where `of` is not at least 1, or
 * `times` is not from 0 to `of`.
 * Source: E. B. Wilson 1927, J Am Stat Assoc 22:209–212, without a correction for continuity.
 */
export function wilsonRange(times: number, of: number): Range {
  if (!(Number.isInteger(of) && of >= 1)) throw new RangeError(`${of} is not a number of trials`)
  if (!(Number.isInteger(times) && times >= 0 && times <= of)) throw new RangeError(`${times} of ${of} cannot be`)
  const share = times / of
  const middle = (share + z ** 2 / (2 * of)) / (1 + z ** 2 / of)
  const half = (z / (1 + z ** 2 / of)) * Math.sqrt((share * (1 - share)) / of + z ** 2 / (4 * of ** 2))
  // at the ends the two parts are equal, but for the last digit
  return { low: times === 0 ? 0 : middle - half, high: times === of ? 1 : middle + half }
}
