import type { Piece } from "./area.ts"
import { type Cell, describeCells } from "./cells.ts"
import { squaredDistances } from "./distance.ts"
import { evenLight } from "./even-light.ts"
import { darkWithFloors } from "./floors.ts"
import { fillHoles } from "./holes.ts"
import { median3 } from "./median.ts"
import { leftByMedian3, noiseOf } from "./noise.ts"
import { histogram, otsu } from "./otsu.ts"
import type { Grey, Mask } from "./picture.ts"
import { partTouching } from "./touching.ts"

/** What the steps of the measurement found in the area, for the features, the quality and the drawing. */
export type FoundCells = {
  /** the smoothed picture, and as it would look under even light */
  smoothed: Grey
  even: Grey
  levels: Uint32Array
  cut: NonNullable<ReturnType<typeof otsu>>
  /** dark pixels, with shallow floors and small holes filled */
  dark: Mask
  /** which cell each pixel belongs to, 0 none */
  labels: Int32Array
  cells: Cell[]
  squared: Int32Array
}

export type Steps = {
  tilePx?: number
  /** false leaves the light as it is: only to show what that step is for */
  even?: boolean
  /** cells of fewer pixels are dropped */
  leastPx?: number
  largestHolePx?: number
}

/**
 * The cells in the area, step by step: median 3 × 3, even light, Otsu's threshold, shallow floors kept whole in noise,
 * small holes filled, cells that touch parted, the smallest dropped. `undefined` when there are no two grey levels to tell
 * apart, or everything is dark.
 * Source of the order and the numbers: measured on drawn crumbs of known truth, see `measureCrumb`.
 */
export function findCells({ grey, inside }: Piece, steps: Steps = {}): FoundCells | undefined {
  const { tilePx = 64, even: evenly = true, leastPx = fewestPx, largestHolePx = largestLitPx } = steps
  const smoothed = median3(grey)
  const even = evenly ? evenLight(smoothed, inside, { tilePx }) : smoothed
  const levels = histogram(even, inside)
  const cut = otsu(levels)
  if (!cut) return undefined
  const noise = leftByMedian3 * noiseOf(grey, inside)
  const dark = fillHoles(darkWithFloors(even, inside, { ...cut, noise }), { largestPx: largestHolePx })
  if (!dark.data.includes(1)) return undefined
  const squared = squaredDistances(dark)
  const { labels, count } = partTouching(dark, squared)
  const cells = describeCells(labels, count, inside, leastPx)
  return { smoothed, even, levels, cut, dark, labels, cells, squared }
}

// What cannot be resolved: own measurement on drawn crumbs; specks of noise are smaller still after the median.
export const fewestPx = 6
// A lit floor of a cell, not a piece of crumb that a ring of cells has cut off: our own judgement, a quarter of a tile.
const largestLitPx = 1024
