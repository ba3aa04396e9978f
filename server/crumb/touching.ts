import type { Mask } from "./picture.ts"

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
  const cell = new Int32Array(mask.width * mask.height)
  const basins = growing()
  const beside = [-width - 1, -width, -width + 1, -1, 1, width - 1, width, width + 1]
  for (let i = 0; i < order.length; i++) {
    const pixel = order[i]!
    let joined = 0
    let joinedAt = 0
    for (let side = 0; side < 8; side++) {
      const neighbour = pixel + beside[side]!
      if (cell[neighbour] === 0) continue
      const other = basins.root(cell[neighbour]!)
      if (joined === 0) {
        joined = other
        joinedAt = squared[neighbour]!
      } else if (other !== joined) {
        const [high, low] = basins.peak(other) > basins.peak(joined) ? [other, joined] : [joined, other]
        const lowPeak = Math.sqrt(basins.peak(low))
        if (lowPeak - Math.sqrt(squared[pixel]!) < leastDrop(lowPeak)) {
          basins.join(low, high)
          joined = high
          joinedAt = Math.max(joinedAt, squared[neighbour]!)
        } else if (squared[neighbour]! > joinedAt) {
          joined = other
          joinedAt = squared[neighbour]!
        }
      }
    }
    cell[pixel] = joined === 0 ? basins.add(squared[pixel]!) : joined
  }
  return { count: renumber(cell, basins), labels: cell }
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

/** Cells as they are found, each with its peak, and which have become one. */
function growing() {
  let parent = new Int32Array(1024)
  let peaks = new Int32Array(1024)
  let count = 0
  return {
    add(peak: number) {
      if (++count === parent.length) {
        const [olderParent, olderPeaks] = [parent, peaks]
        parent = new Int32Array(2 * count)
        peaks = new Int32Array(2 * count)
        parent.set(olderParent)
        peaks.set(olderPeaks)
      }
      parent[count] = count
      peaks[count] = peak
      return count
    },
    root(of: number) {
      let at = of
      while (parent[at] !== at) {
        parent[at] = parent[parent[at]!]!
        at = parent[at]!
      }
      return at
    },
    join(low: number, high: number) {
      parent[low] = high
    },
    peak: (of: number) => peaks[of]!,
    size: () => count + 1,
  }
}

function renumber(cell: Int32Array, basins: ReturnType<typeof growing>) {
  const numbers = new Int32Array(basins.size())
  let count = 0
  for (let i = 0; i < cell.length; i++) {
    if (cell[i] === 0) continue
    const root = basins.root(cell[i]!)
    if (numbers[root] === 0) numbers[root] = ++count
    cell[i] = numbers[root]!
  }
  return count
}

function refuseMarkedEdge({ width, height, data }: Mask) {
  const marked = (i: number) => data[i] !== 0
  for (let x = 0; x < width; x++) if (marked(x) || marked((height - 1) * width + x)) throw markedEdge
  for (let y = 0; y < height; y++) if (marked(y * width) || marked(y * width + width - 1)) throw markedEdge
}
const markedEdge = new RangeError("The outermost pixels must not be marked")
