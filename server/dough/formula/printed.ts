import type { Range, Share } from "../amounts.ts"
import type { Quantity } from "../quantity/reading.ts"
import { showMass, showRange, showShare } from "../units.ts"
import type { Figures, LineFigures } from "./formula.ts"

/**
 * Whether a percentage printed beside a mass fits it, of all flour or of the fresh flour in its part, whichever its author
 * meant; [] when it does, else one question with the mass that would fit.
 */
export function askAboutPrinted(
  quantity: Quantity,
  { g, share, shareOfPart }: Pick<LineFigures, "g" | "share" | "shareOfPart">,
  figures: Pick<Figures, "flour" | "parts">,
  part: number,
): string[] {
  if (quantity.kind !== "mass" || !quantity.printed || !g) return []
  const { printed } = quantity
  const bases = [
    { share, flour: figures.flour, of: "all flour" },
    { share: shareOfPart, flour: figures.parts[part]!.freshFlour, of: "the fresh flour of its part" },
  ].flatMap(({ share, flour, of }) => (share && flour ? [{ share, flour, of }] : []))
  const [all, ofPart] = bases
  if (!all || bases.some(({ share, flour }) => fits(printed, share, g, flour))) return []
  const base = ofPart && ofPart.flour.low !== all.flour.low ? ofPart : all
  const said = (base === all ? [all] : bases).map(({ share, of }) => `${percents(share)} of ${of}`).join(" and ")
  const would = { low: printed.low * base.flour.low, high: printed.high * base.flour.high }
  return [
    `${percents(printed)} is printed beside it, but ${grams(g)} are ${said}. ${percents(printed)} of ${grams(base.flour)} would be ${grams(would)}: which one holds?`,
  ]
}

const grams = (range: Range) => showRange(range, (g) => showMass(g, "g"))
const percents = (range: Range<Share>) => showRange(range, showShare)

/** Within what rounding the percentage to its last digit, and the grams to theirs, can have done. */
function fits(printed: Range<Share>, share: Range<Share>, g: Range, flour: Range) {
  const slack = lastDigit(printed.low * 100) / 200 + lastDigit(g.low) / 2 / flour.low + 1e-9
  return printed.low - slack <= share.high && printed.high + slack >= share.low
}

/** 0.1 for 15.9, 1 for 110. */
function lastDigit(value: number) {
  const [, decimals = ""] = String(Number(value.toPrecision(12))).split(".")
  return 10 ** -decimals.length
}
