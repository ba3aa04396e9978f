/**
 * How unequal sizes are: 0 when all are equal, toward 1 when one holds nearly everything. `undefined` without sizes.
 * Source: Gini 1912, as half the mean difference relative to the mean (from memory); for a log-normal law of deviation σ it
 * is 2Φ(σ/√2) − 1.
 */
export function gini(sizes: readonly number[]) {
  const sorted = sizes.toSorted((a, b) => a - b)
  let sum = 0
  let ranked = 0
  for (const [i, size] of sorted.entries()) {
    sum += size
    ranked += (2 * i + 1 - sorted.length) * size
  }
  return sum > 0 ? ranked / (sorted.length * sum) : undefined
}

/** Standard deviation by mean, of the sizes themselves (no small-sample correction). `undefined` without sizes. */
export function coefficientOfVariation(sizes: readonly number[]) {
  const mean = sizes.reduce((sum, size) => sum + size, 0) / sizes.length
  if (!(mean > 0)) return undefined
  return Math.sqrt(sizes.reduce((sum, size) => sum + (size - mean) ** 2, 0) / sizes.length) / mean
}

/** The middle value, or the mean of the middle two. `undefined` without values. */
export function median(values: readonly number[]) {
  const sorted = values.toSorted((a, b) => a - b)
  const [low, high] = [sorted[(sorted.length - 1) >> 1], sorted[sorted.length >> 1]]
  return low === undefined || high === undefined ? undefined : (low + high) / 2
}

/** The value below which half of the weight lies: that of the item in which the half is passed. `undefined` without any. */
export function weightedMedian(items: readonly { value: number; weight: number }[]) {
  const sorted = items.toSorted((a, b) => a.value - b.value)
  const total = sorted.reduce((sum, { weight }) => sum + weight, 0)
  let below = 0
  for (const { value, weight } of sorted) {
    below += weight
    if (below >= total / 2) return value
  }
  return undefined
}

/** Which share of the total the largest items hold; `of` = 0.05 takes the largest 5 %, one at least. */
export function shareOfLargest(sizes: readonly number[], of: number) {
  const sorted = sizes.toSorted((a, b) => b - a)
  const total = sorted.reduce((sum, size) => sum + size, 0)
  const most = sorted.slice(0, Math.max(1, Math.round(of * sorted.length)))
  return total > 0 ? most.reduce((sum, size) => sum + size, 0) / total : undefined
}
