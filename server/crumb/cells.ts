import type { Mask } from "./picture.ts"

/** One cell, in pixels of the piece it was found in. */
export type Cell = {
  areaPx: number
  /** its centre of area; the first pixel's centre is 0.5, 0.5 */
  x: number
  y: number
  /** long by short axis of the ellipse with the same second moments, 1 for a circle */
  axisRatio: number
  /** the long axis, in radians from level, from −π/2 to π/2; a positive one falls to the right */
  turn: number
  /** how many of its pixels lie at the area's edge: 0 for a whole cell; of a cut one only a part is seen */
  edgePx: number
}

/**
 * The cells of at least `leastPx` pixels, numbered anew, with the area, place and shape of each. Smaller ones are taken out
 * of `labels`, in place. `inside` is the area: The outermost pixels must belong to
 * no cell.
 * Second moments are those of the pixels' squares, not of their centres (hence the twelfth).
 */
export function describeCells(labels: Int32Array, count: number, inside: Mask, leastPx: number): Cell[] {
  const sums = sumUp(labels, count, inside)
  const number = new Int32Array(count + 1)
  const cells: Cell[] = []
  for (let label = 1; label <= count; label++) {
    if (sums[label * 7]! < leastPx) continue
    cells.push(describe(sums.subarray(label * 7, label * 7 + 7)))
    number[label] = cells.length
  }
  for (let i = 0; i < labels.length; i++) if (labels[i] !== 0) labels[i] = number[labels[i]!]!
  return cells
}

/** For each label: pixels, sums of x, y, x², y², x·y, and how many pixels lie at the area's edge. */
function sumUp(labels: Int32Array, count: number, { width, height, data }: Mask) {
  const sums = new Float64Array((count + 1) * 7)
  for (let y = 0, i = 0; y < height; y++) {
    for (let x = 0; x < width; x++, i++) {
      const label = labels[i]!
      if (label === 0) continue
      const at = label * 7
      sums[at]! += 1
      sums[at + 1]! += x
      sums[at + 2]! += y
      sums[at + 3]! += x * x
      sums[at + 4]! += y * y
      sums[at + 5]! += x * y
      if ((data[i - 1]! & data[i + 1]! & data[i - width]! & data[i + width]!) === 0) sums[at + 6]! += 1
    }
  }
  return sums
}

function describe(sums: Float64Array): Cell {
  const [areaPx, sumX, sumY, sumXX, sumYY, sumXY, atEdge] = sums as unknown as [
    number,
    number,
    number,
    number,
    number,
    number,
    number,
  ]
  const [x, y] = [sumX / areaPx, sumY / areaPx]
  const xx = sumXX / areaPx - x * x + 1 / 12
  const yy = sumYY / areaPx - y * y + 1 / 12
  const xy = sumXY / areaPx - x * y
  const half = (xx + yy) / 2
  const off = Math.hypot((xx - yy) / 2, xy)
  return {
    areaPx,
    x: x + 0.5,
    y: y + 0.5,
    axisRatio: Math.sqrt((half + off) / (half - off)),
    turn: Math.atan2(2 * xy, xx - yy) / 2,
    edgePx: atEdge,
  }
}
