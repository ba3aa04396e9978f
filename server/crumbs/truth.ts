import { isInside } from "./corners.ts"
import type { Measured } from "./numbers.ts"
import type { HandCount } from "./queries.ts"

type Frame = HandCount["frame"]
/** What the measurement finds where somebody counted; null where the frame reaches out of the measured area. */
type Held = { counted: number; measured: number | null }

/** A cell is in a frame when its middle is, for eye and measurement alike: then cells at the edges do not tip the count. */
export function cellsIn({ cells, area, widthPx, heightPx }: Measured, { x, y, width, height }: Frame): number | null {
  const corners = [
    { x, y },
    { x: x + width, y },
    { x: x + width, y: y + height },
    { x, y: y + height },
  ]
  if (!corners.every((corner) => isInside(corner, area))) return null
  const has = (at: number, from: number, size: number, px: number) => at >= from * px && at < (from + size) * px
  return cells.filter(([cx, cy]) => has(cx, x, width, widthPx) && has(cy, y, height, heightPx)).length
}

// Fewer frames say nothing of a spread. Our own judgement.
const fewestFrames = 3

/**
 * How far the measurement is from what people counted, over all frames in which both are known: `bias` is the mean of
 * (measured − counted) by counted, `spread` their standard deviation (with n − 1), both shares. `undefined` without frames;
 * frames in which nobody saw a cell are left out.
 */
function agreementOf(held: Held[]) {
  const known = held.flatMap(({ counted, measured }) =>
    measured === null || counted === 0 ? [] : [(measured - counted) / counted],
  )
  if (known.length === 0) return undefined
  const bias = known.reduce((sum, one) => sum + one, 0) / known.length
  const spread =
    known.length < fewestFrames
      ? undefined
      : Math.sqrt(known.reduce((sum, one) => sum + (one - bias) ** 2, 0) / (known.length - 1))
  return { frames: known.length, bias, spread }
}

/** One sentence for a page. */
export function agreementWords(held: Held[]) {
  const agreement = agreementOf(held)
  if (!agreement) return "No frame can be held against a measurement yet."
  const { frames, bias, spread } = agreement
  const of = frames === 1 ? "In the one frame that can be compared" : `Over ${frames} frames`
  const middle =
    Math.abs(bias) < 0.005
      ? "the measurement finds as many cells as people"
      : `the measurement finds ${Math.abs(Math.round(bias * 100))} % ${bias < 0 ? "fewer" : "more"} cells than people`
  if (spread === undefined) return `${of} ${middle}. ${fewestFrames} frames or more would tell how much that varies.`
  return `${of} ${middle} on average; from frame to frame that varies by ±${Math.round(spread * 100)} % (one standard deviation).`
}
