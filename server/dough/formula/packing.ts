import { inRings, lattices, type Spot, stackedRows } from "./layouts.ts"
import { positive } from "./positive.ts"

/**
 * Round pieces laid out in a pan: at least `count` fit, as `spots` show; a cleverer layout may hold one or two more. A spot is a
 * piece's middle, in mm from the middle of the pan. `caution` is what to keep in mind, in words.
 */
export type Layout = { count: number; spots: Spot[]; caution: string }

const caution =
  "Pieces spread as they proof, more where the dough is slack: the gap must be what they grow by, or they bake together."

/**
 * Pieces `pieceMm` across in a round pan `panMm` across inside, `gapMm` apart and half of that from its wall. Takes the best
 * of rings inside one another and of hexagonal and square lattices. Throws RangeError for a size not above 0, a gap below
 * 0, or more than 40 pieces side by side.
 */
export function fitInRound(panMm: number, pieceMm: number, gapMm: number): Layout {
  const across = spaceFor(pieceMm, gapMm)
  const radius = inPieces(panMm, across) / 2
  return fullest([...inRings(radius), ...lattices(radius)], across)
}

/** The same in a rectangular pan: in rows, straight or staggered, along its length or its width. Throws like fitInRound. */
export function fitInRectangle(lengthMm: number, widthMm: number, pieceMm: number, gapMm: number): Layout {
  const across = spaceFor(pieceMm, gapMm)
  const [length, width] = [inPieces(lengthMm, across), inPieces(widthMm, across)]
  const turned = stackedRows(width, length).map((spots) => spots.map(({ x, y }) => ({ x: y, y: x })))
  return fullest([...stackedRows(length, width), ...turned], across)
}

/** A piece with half of the gap all around: the layouts take this as 1. */
function spaceFor(pieceMm: number, gapMm: number) {
  if (!(gapMm >= 0 && Number.isFinite(gapMm))) throw new RangeError(`${gapMm} mm is not a gap`)
  return positive(pieceMm, "a piece") + gapMm
}

// A baker's tray of the smallest pieces. Our own limit.
const mostSideBySide = 40

function inPieces(panMm: number, across: number) {
  const pieces = positive(panMm, "a pan") / across
  if (pieces > mostSideBySide) throw new RangeError(`${pieces} pieces side by side are more than ${mostSideBySide}`)
  return pieces
}

function fullest(layouts: Spot[][], across: number): Layout {
  const most = layouts.reduce((best, layout) => (layout.length > best.length ? layout : best), [])
  return { count: most.length, spots: most.map(({ x, y }) => ({ x: x * across, y: y * across })), caution }
}
