import type { Culture } from "../dough/fermentation/growth.ts"
import { workOut } from "../dough/formula/formula.ts"
import { leavenOf } from "../dough/formula/leaven.ts"
import { applyTimes, applyVariant } from "../dough/formula/variants.ts"
import type { WrittenFormula } from "../dough/formula/written.ts"
import type { Ingredient } from "../dough/ingredients/ingredient.ts"
import type { Measures } from "../dough/quantity/reading.ts"
import type { Stage } from "../dough/schedule.ts"

/** A formula as its instructor wrote it: kept whole, as a draft and, frozen, in each revision. */
export type FormulaContent = WrittenFormula & {
  /** Whose cups and spoons its amounts are written in. */
  measures: Measures
  pan: string
  about: string
  stages: Stage[]
}

/** The formula as it is made by its variant of that key: other lines, other times. "" and a key it does not know: as written. */
export function asMade(content: FormulaContent, variant: string): FormulaContent {
  const chosen = wayOf(content, variant)
  if (!chosen) return content
  const { formula } = applyVariant(content, variant)
  return { ...content, ...formula, stages: applyTimes(content.stages, chosen).stages }
}

/** The formula's variant of that key. */
export const wayOf = ({ variants }: FormulaContent, variant: string) => variants.find(({ key }) => key === variant)

/** What of its variant of that key no longer fits the formula, in sentences. */
export function problemsOf(content: FormulaContent, variant: string): string[] {
  const chosen = wayOf(content, variant)
  if (!chosen) return []
  return [...applyVariant(content, variant).problems, ...applyTimes(content.stages, chosen).problems]
}

/** What raises it. Where there is both, baker's yeast outpaces the levain: common practice, no published source. */
export function cultureOf(content: FormulaContent, own: Ingredient[] = []): Culture {
  const leaven = leavenOf(workOut(content, { measures: content.measures, own }))
  return leaven === "baker's yeast" || leaven === "both" ? "baker's yeast" : "sourdough"
}
