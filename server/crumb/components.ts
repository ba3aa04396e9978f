import type { Mask } from "./picture.ts"
import { root } from "./root.ts"

/** Stretches of equal pixels along the rows, and to which connected region each belongs: 1, 2, … in scanning order. */
export type Runs = {
  count: number
  row: Int32Array
  /** first pixel, and the one after the last */
  start: Int32Array
  end: Int32Array
  region: Int32Array
  regions: number
}

/**
 * The connected regions of the pixels equal to `of`. With `corners` pixels that meet at a corner are connected
 * (8-connectivity), without they are not (4). Two passes over runs with union-find; regions are numbered by their first
 * pixel in scanning order. Exact.
 * Source: Rosenfeld and Pfaltz 1966, J. ACM 13:471–494, the two passes (from memory).
 */
export function connectedRuns(mask: Mask, { of, corners }: { of: 0 | 1; corners: boolean }): Runs {
  const runs = findRuns(mask, of)
  const parent = Int32Array.from({ length: runs.count }, (_, i) => i)
  const reach = corners ? 1 : 0
  let above = 0
  for (let i = 0; i < runs.count; i++) {
    while (runs.row[above]! < runs.row[i]! - 1) above++
    // A run above may also touch the next one here, so the last that overlaps is looked at again.
    while (above < i && runs.row[above]! === runs.row[i]! - 1 && runs.end[above]! + reach <= runs.start[i]!) above++
    for (let j = above; j < i && runs.row[j]! === runs.row[i]! - 1 && runs.start[j]! < runs.end[i]! + reach; j++) {
      const [a, b] = [root(parent, i), root(parent, j)]
      if (a < b) parent[b] = a
      else parent[a] = b
    }
  }
  const region = new Int32Array(runs.count)
  let regions = 0
  for (let i = 0; i < runs.count; i++) region[i] = parent[i] === i ? ++regions : region[root(parent, i)]!
  return { ...runs, region, regions }
}

/** Like `connectedRuns`, as a number for each pixel: 0 outside, then 1, 2, … */
export function components(mask: Mask, { corners = true } = {}) {
  const runs = connectedRuns(mask, { of: 1, corners })
  const labels = new Int32Array(mask.width * mask.height)
  for (let i = 0; i < runs.count; i++) {
    const row = runs.row[i]! * mask.width
    labels.fill(runs.region[i]!, row + runs.start[i]!, row + runs.end[i]!)
  }
  return { count: runs.regions, labels }
}

function findRuns({ width, height, data }: Mask, of: 0 | 1) {
  let room = 4096
  let [row, start, end] = [new Int32Array(room), new Int32Array(room), new Int32Array(room)]
  let count = 0
  for (let y = 0; y < height; y++) {
    const pixels = data.subarray(y * width, (y + 1) * width)
    // looking for the next change is the processor's own fast search
    for (let x = pixels.indexOf(of); x >= 0; x = pixels.indexOf(of, end[count - 1]!)) {
      if (count === room) {
        room *= 2
        ;[row, start, end] = [longer(row, room), longer(start, room), longer(end, room)]
      }
      const other = pixels.indexOf(1 - of, x)
      row[count] = y
      start[count] = x
      end[count++] = other < 0 ? width : other
    }
  }
  return { count, row, start, end }
}

function longer(from: Int32Array, length: number) {
  const to = new Int32Array(length)
  to.set(from)
  return to
}
