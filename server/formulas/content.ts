import type { WrittenFormula } from "../dough/formula/formula.ts"
import type { Stage } from "../dough/schedule.ts"

/** A formula as its instructor wrote it: kept whole, as a draft and, frozen, in each revision. */
export type FormulaContent = WrittenFormula & {
  pan: string
  about: string
  stages: Stage[]
}
