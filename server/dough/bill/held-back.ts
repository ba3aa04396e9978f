import type { LineFigures } from "../formula/formula.ts"
import type { WrittenLine } from "../formula/written.ts"

/** Water of which the last is kept out until the dough is felt: what goes in at first and what may follow, g. */
export type HeldBack = { nowG: number; laterG: number }

/**
 * A range of water is held back: its least goes in, the rest waits. So is any other range whose line says so. undefined for
 * one amount, and for a range that only comes from another line's. Common practice, no published source.
 */
export function heldBack(
  written: Pick<WrittenLine, "quantity" | "note">,
  { quantity, countsAs, g }: Pick<LineFigures, "quantity" | "countsAs" | "g">,
): HeldBack | undefined {
  if (!g || !(g.low > 0) || !(g.high > g.low) || !isOwnRange(quantity)) return undefined
  return countsAs === "water" || saysHeldBack(written) ? { nowG: g.low, laterG: g.high - g.low } : undefined
}

/** Whether a line says that something of it is held back. */
export const saysHeldBack = ({ quantity, note }: Pick<WrittenLine, "quantity" | "note">): boolean =>
  /\bh[oe]ld(ing)?\b.*\bback\b|\bkeep\b.*\bback\b|\breserve\b/i.test(`${quantity} ${note}`)

function isOwnRange(quantity: LineFigures["quantity"]) {
  if (quantity.kind === "mass") return quantity.g.high > quantity.g.low
  return quantity.kind === "percent" && quantity.share.high > quantity.share.low
}
