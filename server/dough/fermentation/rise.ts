/**
 * How a dough turns gas into volume. `activity` is the rise that one unit of gas would give if the dough kept all of
 * it: of a full levain culture, or of baker's yeast (see each). `mostRise` is the share of its starting volume that the
 * dough can gain at most; Infinity for a liquid levain in its jar, which keeps gas until it falls.
 */
export type Keeping = { activity: number; mostRise: number }

/**
 * The share of its starting volume that a dough has gained, 0.5 for +50 %: A·(1 − e^(−k·L/A)), a dough that keeps gas
 * ever less well as it grows; k·L where A is Infinity. The form is our own. Throws RangeError for gas below 0.
 */
export function riseFrom(gas: number, { activity, mostRise }: Keeping): number {
  if (!(gas >= 0)) throw new RangeError(`gas must not be below 0: ${gas}`)
  if (mostRise === Number.POSITIVE_INFINITY) return activity * gas
  return -mostRise * Math.expm1((-activity * gas) / mostRise)
}

/**
 * The gas that gives this rise, the inverse of riseFrom; undefined when the rise is more than this dough can hold.
 * Throws RangeError for a rise below 0.
 */
export function gasForRise(rise: number, { activity, mostRise }: Keeping): number | undefined {
  if (!(rise >= 0)) throw new RangeError(`a rise to reach must not be below 0: ${rise}`)
  if (rise >= mostRise) return undefined
  if (mostRise === Number.POSITIVE_INFINITY) return rise / activity
  return (-mostRise / activity) * Math.log1p(-rise / mostRise)
}
