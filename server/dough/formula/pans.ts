import type { Range, Share } from "../amounts.ts"
import { positive } from "./positive.ts"

/**
 * A pan by its inside, in millimetres: how far across at the rim (`top`) and at the `bottom`, length and width of a
 * rectangular one. Without `heightMm` it has a base but no volume.
 */
export type Pan =
  | { outline: "round"; topMm: number; bottomMm: number; heightMm?: number }
  | { outline: "rectangle"; topMm: Side; bottomMm: Side; heightMm?: number }

type Side = readonly [length: number, width: number]

/**
 * Brim volume, ml. Prismoidal rule h/6·(A top + 4·A middle + A bottom), exact for every pan here: textbook geometry.
 * Throws RangeError for a pan without height, or a measure that is not above 0.
 */
export function volumeMl(pan: Pan): number {
  if (pan.heightMm === undefined) throw new RangeError("a pan without a height has no volume")
  const mm3 = (positive(pan.heightMm) / 6) * (areaAt(pan, 1) + 4 * areaAt(pan, 0.5) + areaAt(pan, 0))
  return mm3 / 1000
}

/** The area of the bottom, mm², by which flat breads are compared. Throws RangeError for a measure that is not above 0. */
export const baseAreaMm2 = (pan: Pan): number => areaAt(pan, 0)

/** Inside area at a height from 0 at the bottom to 1 at the rim. */
function areaAt({ outline, topMm, bottomMm }: Pan, height: number) {
  const at = (top: number, bottom: number) => positive(bottom) + (positive(top) - bottom) * height
  if (outline === "round") return (Math.PI / 4) * at(topMm, bottomMm) ** 2
  return at(topMm[0], bottomMm[0]) * at(topMm[1], bottomMm[1])
}

/** How full the dough fills a pan, as a share of its brim volume, when a gram of it takes up `mlPerG`. */
export type Filling = { full: Share; mlPerG: number }

/**
 * Dough as it goes into a tin that it is to fill to the rim or just above: half to three fifths full, still with a little
 * gas in it. Common practice, no published source.
 */
export const shapedForTin: { full: Range<Share>; mlPerG: number; source: string } = {
  full: { low: 0.5, high: 0.6 },
  mlPerG: 1.2,
  source: "common practice, no published source",
}

/** The dough that fills a pan so far, g. Throws RangeError for a share or volume that is not above 0, and like volumeMl. */
export function doughForPanG(pan: Pan, { full, mlPerG }: Filling): number {
  return (volumeMl(pan) * positive(full)) / positive(mlPerG)
}

/** How full a pan is with so much dough, as a share of its brim volume; above 1 it runs over. Throws like doughForPanG. */
export function fullWith(pan: Pan, doughG: number, mlPerG: number): Share {
  return (positive(doughG) * positive(mlPerG)) / volumeMl(pan)
}
