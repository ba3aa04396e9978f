/**
 * The chance that Student's t with this many degrees of freedom, a whole number, lies as far from 0 as `t` or farther,
 * either way. Throws RangeError for degrees of freedom that are not a whole number above 0, or a t that is no number.
 *
 * Source: the finite sums of Abramowitz & Stegun 1964, 26.7.3 and 26.7.4, from memory, not checked against the page; tested
 * against another library.
 */
export function studentTails(t: number, freedom: number): number {
  if (!Number.isInteger(freedom) || freedom < 1) throw new RangeError(`${freedom} degrees of freedom`)
  if (Number.isNaN(t)) throw new RangeError("t is not a number")
  const angle = Math.atan(Math.abs(t) / Math.sqrt(freedom))
  const odd = freedom % 2 === 1
  let term = odd ? Math.cos(angle) : 1
  let sum = freedom === 1 ? 0 : term
  for (let power = odd ? 3 : 2; power <= freedom - 2; power += 2) {
    term *= ((power - 1) / power) * Math.cos(angle) ** 2
    sum += term
  }
  const within = odd ? (2 / Math.PI) * (angle + Math.sin(angle) * sum) : Math.sin(angle) * sum
  return 1 - within
}
