import { fedOtherwise } from "../dough/bill/fed-levain.ts"
import type { Ratio } from "../dough/fermentation/sourdough-rise.ts"
import { type Figures, workOut } from "../dough/formula/formula.ts"
import { scaleTo } from "../dough/formula/scaling.ts"
import type { FormulaContent } from "../formulas/content.ts"
import type { OwnDay } from "../plans/day.ts"

/**
 * The formula as one person makes it on their own day. `fed` is a feeding of the levain that is not the formula's: followed
 * in the amounts, or left to the person where they do not allow it. `pieces` is how many that makes, and what each weighs.
 */
export type OwnFormula = {
  content: FormulaContent
  figures: Figures
  fed: { ratio: Ratio; followed: boolean } | null
  pieces: Figures["pieces"] | null
}

/** In their variant, with their feeding, for as many pieces as they bake. */
export function ownFormula({ content: written, bakeDay, wishes, question }: OwnDay, massUnit: "g" | "oz"): OwnFormula {
  const known = { measures: written.measures, own: bakeDay.ownIngredients, massUnit }
  const asWritten = workOut(written, known)
  const ratio = question.levain && isOther(question.levain) ? question.levain.fed : undefined
  const changed = ratio && fedOtherwise(written, asWritten, ratio)
  const content = changed ?? written
  const figures = changed ? workOut(changed, known) : asWritten
  const fed = ratio ? { ratio, followed: changed !== undefined } : null
  const { pieces } = figures
  if (!pieces || !wishes.pieces || wishes.pieces === pieces.count)
    return { content, figures, fed, pieces: pieces ?? null }
  const scaled = scaleTo(content, { by: "times", times: wishes.pieces / pieces.count }, known)
  if ("cannot" in scaled) return { content, figures, fed, pieces }
  return { content, figures: scaled.figures, fed, pieces: { ...pieces, count: wishes.pieces } }
}

const isOther = ({ written, fed }: { written: Ratio; fed: Ratio }) =>
  (["flour", "water"] as const).some((what) => apart(written[what] / written.starter, fed[what] / fed.starter))
// 1 : 3.67 : 3.67 is what somebody means by 1 : 3.7 : 3.7. Our own limit.
const apart = (one: number, other: number) => Math.abs(one - other) > 0.02 * Math.max(one, other)
