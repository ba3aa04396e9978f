import type { Grey, Mask } from "./picture.ts"

/**
 * The standard deviation of a picture's noise, in grey levels: of each second pixel inside how far it differs from what its
 * eight neighbours let expect, which is nothing on a plane or a slope. The middle of those differences is taken, since
 * edges make some of them large. 0 where too little is inside to tell.
 * Source: the mask is that of Immerkær 1996, Computer Vision and Image Understanding 64:300–302, whose norm is 6; the median
 * of absolute values by 0.6745 is a normal law's deviation (both from memory; tested on noise of known size).
 */
export function noiseOf({ width, height, data }: Grey, inside: Mask): number {
  const counts = new Uint32Array(largestDifference + 1)
  let all = 0
  for (let y = 1; y < height - 1; y += 2) {
    for (let x = 1, i = y * width + 1; x < width - 1; x += 2, i += 2) {
      if ((inside.data[i]! & inside.data[i - width - 1]! & inside.data[i + width + 1]!) === 0) continue
      const corners = data[i - width - 1]! + data[i - width + 1]! + data[i + width - 1]! + data[i + width + 1]!
      const sides = data[i - width]! + data[i - 1]! + data[i + 1]! + data[i + width]!
      counts[Math.abs(corners - 2 * sides + 4 * data[i]!)]!++
      all++
    }
  }
  let below = 0
  for (let difference = 0; difference <= largestDifference; difference++) {
    below += counts[difference]!
    // a difference stands for all that are rounded to it
    if (all > 0 && below >= all / 2) {
      const share = (all / 2 - (below - counts[difference]!)) / counts[difference]!
      return Math.max(0, difference - 0.5 + share) / (0.6745 * 6)
    }
  }
  return 0
}
const largestDifference = 8 * 255

/**
 * How much of white noise the median of nine leaves, as a share of its deviation.
 * Source: the standard deviation of the median of nine normal values, 0.408 (tables of order statistics, from memory; tested
 * by drawing).
 */
export const leftByMedian3 = 0.408
