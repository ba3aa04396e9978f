/** The value, when it is a finite number above 0; otherwise throws RangeError saying what it should have been. */
export function positive(value: number, what = "an amount"): number {
  if (!(value > 0 && Number.isFinite(value))) throw new RangeError(`${value} is not ${what} above 0`)
  return value
}
