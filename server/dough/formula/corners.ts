import type { Range } from "../amounts.ts"

// 2^8 combinations of a large formula take a few milliseconds. Our own limit.
const mostRanges = 8

/**
 * Works something out at every combination of range ends. Beyond eight ranges the narrowest stay at their middle and are
 * counted in `setAside`; `weight` says how much a range's width matters beside the others. What is not given is NaN.
 */
export function atCorners<Result>(
  ranges: (Range | undefined)[],
  weight: (index: number) => number,
  work: (values: number[]) => Result,
): { results: Result[]; setAside: number } {
  const effect = (index: number) => (ranges[index]!.high - ranges[index]!.low) * weight(index)
  const open = ranges.flatMap((range, index) => (range && range.low < range.high ? [index] : []))
  const varied = open.toSorted((a, b) => effect(b) - effect(a)).slice(0, mostRanges)
  const middle = ranges.map((range) => (range ? (range.low + range.high) / 2 : Number.NaN))
  const results = Array.from({ length: 2 ** varied.length }, (_, corner) => {
    const values = [...middle]
    for (const [bit, index] of varied.entries()) {
      const { low, high } = ranges[index]!
      values[index] = corner & (1 << bit) ? high : low
    }
    return work(values)
  })
  return { results, setAside: open.length - varied.length }
}

// Rounding makes one value come out a hair apart at two corners; that is no range.
const roundingNoise = 1e-12

/** The lowest and the highest of a figure over all corners; undefined where it is not known at one of them. */
export function rangeOver(values: (number | undefined)[]): Range | undefined {
  let [low, high] = [Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY]
  for (const value of values) {
    if (value === undefined) return undefined
    low = Math.min(low, value)
    high = Math.max(high, value)
  }
  return high - low <= roundingNoise * Math.abs(high) ? { low, high: low } : { low, high }
}
