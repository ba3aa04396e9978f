import { fitInRectangle, fitInRound, type Layout } from "../dough/formula/packing.ts"
import type { Pan } from "../dough/formula/pans.ts"
import type { Fit } from "./forms.ts"

/** A pan's bottom from above with its pieces, in units of the drawing: `width` × `height`, middles of circles in it. */
export type Drawing = {
  outline: Pan["outline"]
  width: number
  height: number
  pieces: { x: number; y: number }[]
  radius: number
}

const longest = 320

/** Pieces on the bottom of a pan, as many as fit; undefined where they are too small for it. */
export function layOut({ pan, pieceMm, gapMm }: Fit): Layout | undefined {
  try {
    return pan.outline === "round"
      ? fitInRound(pan.bottomMm, pieceMm, gapMm)
      : fitInRectangle(...pan.bottomMm, pieceMm, gapMm)
  } catch (error) {
    if (error instanceof RangeError) return undefined
    throw error
  }
}

/** The layout as it is drawn, its longer side 320 units. */
export function drawLayout({ pan, pieceMm }: Fit, { spots }: Layout): Drawing {
  const [length, width] = pan.outline === "round" ? [pan.bottomMm, pan.bottomMm] : pan.bottomMm
  const unit = longest / Math.max(length, width)
  return {
    outline: pan.outline,
    width: length * unit,
    height: width * unit,
    pieces: spots.map(({ x, y }) => ({ x: (length / 2 + x) * unit, y: (width / 2 + y) * unit })),
    radius: (pieceMm / 2) * unit,
  }
}
