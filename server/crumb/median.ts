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
      const lower = Math.min(a, b)
      const upper = Math.max(a, b)
      const low2 = Math.min(lower, c)
      const mid2 = Math.max(lower, Math.min(upper, c))
      const high2 = Math.max(upper, c)
      if (x >= 0) {
        const low = Math.max(Math.max(low0, low1), low2)
        const mid = middle(mid0, mid1, mid2)
        const high = Math.min(Math.min(high0, high1), high2)
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

const middle = (a: number, b: number, c: number) => Math.max(Math.min(a, b), Math.min(Math.max(a, b), c))
