import type { Grey } from "./picture.ts"

/**
 * Each pixel's median among itself and its eight neighbours; at the picture's edge the outermost pixels are repeated.
 * Grey levels in and out. Takes single noisy pixels away and leaves edges where they are.
 * Source: Tukey 1977, Exploratory Data Analysis (from memory). The median of nine is the median of three: the largest of
 * the least of the three columns, the median of their medians, the least of their largest (from memory; tested against
 * sorting).
 */
export function median3({ width, height, data }: Grey): Grey {
  const out = new Uint8Array(width * height)
  for (let y = 0; y < height; y++) {
    const here = y * width
    const above = y > 0 ? here - width : here
    const below = y < height - 1 ? here + width : here
    // The sorted column left of the pixel and at it, handed on from pixel to pixel; then the one right of it.
    let low0 = 0
    let mid0 = 0
    let high0 = 0
    let low1 = 0
    let mid1 = 0
    let high1 = 0
    for (let x = -1; x < width; x++) {
      const column = Math.min(x + 1, width - 1)
      const a = data[above + column]!
      const b = data[here + column]!
      const c = data[below + column]!
      const ab = lower(a, b)
      const ba = higher(a, b)
      const low2 = lower(ab, c)
      const mid2 = higher(ab, lower(ba, c))
      const high2 = higher(ba, c)
      if (x >= 0) {
        const low = higher(higher(low0, low1), low2)
        const mid = middle(mid0, mid1, mid2)
        const high = lower(lower(high0, high1), high2)
        out[here + x] = middle(low, mid, high)
      }
      low0 = x < 0 ? low2 : low1
      mid0 = x < 0 ? mid2 : mid1
      high0 = x < 0 ? high2 : high1
      low1 = low2
      mid1 = mid2
      high1 = high2
    }
  }
  return { width, height, data: out }
}

const middle = (a: number, b: number, c: number) => higher(lower(a, b), lower(higher(a, b), c))

// Of small whole numbers, without a branch that noise would make the processor guess wrong half of the time: a third of
// the time of Math.min and Math.max.
const lower = (a: number, b: number) => b + ((a - b) & ((a - b) >> 31))
const higher = (a: number, b: number) => a - ((a - b) & ((a - b) >> 31))
