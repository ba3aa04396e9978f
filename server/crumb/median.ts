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
    // The sorted column left of, at and right of the pixel, handed on from pixel to pixel.
    let [low0, mid0, high0] = [0, 0, 0]
    let [low1, mid1, high1] = [0, 0, 0]
    for (let x = -1; x < width; x++) {
      const column = x + 1 < width ? x + 1 : width - 1
      let a = data[above + column]!
      let b = data[here + column]!
      let c = data[below + column]!
      let swap = a
      if (a > b) {
        a = b
        b = swap
      }
      if (b > c) {
        swap = b
        b = c
        c = swap
        if (a > b) {
          swap = a
          a = b
          b = swap
        }
      }
      if (x < 0) {
        low0 = low1 = a
        mid0 = mid1 = b
        high0 = high1 = c
        continue
      }
      let low = low0 > low1 ? low0 : low1
      if (a > low) low = a
      let high = high0 < high1 ? high0 : high1
      if (c < high) high = c
      const mid = middle(mid0, mid1, b)
      out[here + x] = middle(low, mid, high)
      low0 = low1
      mid0 = mid1
      high0 = high1
      low1 = a
      mid1 = b
      high1 = c
    }
  }
  return { width, height, data: out }
}

function middle(a: number, b: number, c: number) {
  if (a > b) return b > c ? b : a > c ? c : a
  return a > c ? a : b > c ? c : b
}
