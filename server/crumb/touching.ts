import type { Mask } from "./picture.ts"
import { root } from "./root.ts"

/**
 * Parts the marked regions where two cells have run together: a number for each pixel, 0 outside, then 1, 2, … in
 * scanning order. `squared` are the squared distances of `squaredDistances(mask)`.
 *
 * The distance to the nearest wall is a landscape with a peak in each cell. It is flooded from the peaks downward: pixels
 * in order of falling distance, each joining the cells beside it. Where two cells meet, they are one if the way between
 * them drops less than `leastDrop` below the lower peak (persistence); else they stay two for good. The landscape reaches
 * into corners, so cells are 8-connected. The outermost pixels must be unmarked: RangeError otherwise.
 *
 * Source: the watershed by flooding of Vincent and Soille 1991, IEEE Trans. PAMI 13:583–598, and topological persistence,
 * Edelsbrunner, Letscher and Zomorodian 2002 (both from memory); the drop was set on drawn crumbs of known truth.
 */
export function partTouching(mask: Mask, squared: Int32Array, leastDrop = leastDropPx) {
  refuseMarkedEdge(mask)
  const { width } = mask
  const order = byFallingDistance(squared)
  const labels = new Int32Array(mask.width * mask.height)
  const beside = Int32Array.of(-width - 1, -width, -width + 1, -1, 1, width - 1, width, width + 1)
  // Cells as they are found, numbered from 1: which one each has become part of, and its highest squared distance.
  const parent = new Int32Array(order.length + 1)
  const peak = new Int32Array(order.length + 1)
  let cells = 0
  for (let i = 0; i < order.length; i++) {
    const pixel = order[i]!
    let joined = 0
    let joinedAt = 0
    let seen = 0
    for (let side = 0; side < 8; side++) {
      const neighbour = pixel + beside[side]!
      const label = labels[neighbour]!
      if (label === 0 || label === seen) continue
      seen = label
      const other = root(parent, label)
      if (joined === 0) {
        joined = other
        joinedAt = squared[neighbour]!
      } else if (other !== joined) {
        const high = peak[other]! > peak[joined]! ? other : joined
        const low = high === other ? joined : other
        const lowPeakPx = Math.sqrt(peak[low]!)
        if (lowPeakPx - Math.sqrt(squared[pixel]!) < leastDrop(lowPeakPx)) {
          parent[low] = high
          joined = high
        } else if (squared[neighbour]! > joinedAt) {
          joined = other
          joinedAt = squared[neighbour]!
        }
      }
    }
    if (joined === 0) {
      joined = ++cells
      parent[joined] = joined
      peak[joined] = squared[pixel]!
    }
    labels[pixel] = joined
  }
  return { count: renumber(labels, parent, cells), labels }
}

/** In pixels: what measured best on drawn crumbs of known truth (own measurement, as for the whole method). */
const leastDropPx = (lowerPeakPx: number) => Math.max(1.5, 0.25 * lowerPeakPx)

/** The marked pixels, farthest from a wall first; of equally far ones in scanning order. */
function byFallingDistance(squared: Int32Array) {
  let marked = 0
  let largest = 0
  for (let i = 0; i < squared.length; i++) {
    if (squared[i] === 0) continue
    marked++
    if (squared[i]! > largest) largest = squared[i]!
  }
  const next = new Int32Array(largest + 2)
  for (let i = 0; i < squared.length; i++) next[squared[i]!]!++
  let before = 0
  for (let distance = largest; distance > 0; distance--) {
    const here = next[distance]!
    next[distance] = before
    before += here
  }
  const order = new Int32Array(marked)
  for (let i = 0; i < squared.length; i++) if (squared[i] !== 0) order[next[squared[i]!]!++] = i
  return order
}

function renumber(labels: Int32Array, parent: Int32Array, cells: number) {
  const numbers = new Int32Array(cells + 1)
  let count = 0
  for (let i = 0; i < labels.length; i++) {
    if (labels[i] === 0) continue
    const cell = root(parent, labels[i]!)
    if (numbers[cell] === 0) numbers[cell] = ++count
    labels[i] = numbers[cell]!
  }
  return count
}

function refuseMarkedEdge({ width, height, data }: Mask) {
  const marked = (i: number) => data[i] !== 0
  for (let x = 0; x < width; x++) if (marked(x) || marked((height - 1) * width + x)) throw markedEdge
  for (let y = 0; y < height; y++) if (marked(y * width) || marked(y * width + width - 1)) throw markedEdge
}
const markedEdge = new RangeError("The outermost pixels must not be marked")
