import { applyChanges, type Effect } from "../dough/formula/changes.ts"
import { nameOf } from "../dough/formula/parts.ts"
import { countsAsOf } from "../dough/ingredients/catalogue.ts"
import type { Ingredient } from "../dough/ingredients/ingredient.ts"
import { allergensBrought } from "../formulas/cautions.ts"
import { asMade, type FormulaContent, wayOf } from "../formulas/content.ts"
import type { KeptChange } from "./queries.ts"

/**
 * A change with what it took out and brought in; `old` is what came out, by name, `stage` the stage that was skipped or
 * ran at the time; `leaven` is true where it touches what raises the dough.
 */
export type Change = KeptChange & { effect: Effect; old: string; stage: string | null; leaven: boolean }

type Written = { content: FormulaContent; variant: string; ownIngredients: Ingredient[] }

/**
 * A bake's formula: `content` as its baker really made it, in the way chosen and with every change, `asWritten` without
 * them. Both have all stages; `skipped` are the keys of those that were left out. `brought` warns of allergens that only
 * the changes brought.
 */
export function asBaked({ content: written, variant, ownIngredients: own }: Written, kept: KeptChange[]) {
  const asWritten = asMade(written, variant)
  const standing = kept.filter(({ removedAt }) => removedAt === null)
  const { formula, changes } = applied(asWritten, own, standing)
  return {
    content: { ...asWritten, ...formula },
    asWritten,
    way: wayOf(written, variant)?.name ?? "",
    changes,
    /** Those that were taken back, each as it would be alone. */
    takenBack: kept.filter((change) => !standing.includes(change)).map((change) => alone(asWritten, own, change)),
    skipped: standing.flatMap(({ kind, stageKey }) => (kind === "skipped" && stageKey ? [stageKey] : [])),
    brought: allergensBrought(asWritten, standing.map(({ instead }) => instead).filter(Boolean), own),
  }
}

/** A change as if there were no others. */
export const alone = (asWritten: FormulaContent, own: Ingredient[], change: KeptChange): Change =>
  applied(asWritten, own, [change]).changes[0]!

function applied(asWritten: FormulaContent, own: Ingredient[], kept: KeptChange[]) {
  const { formula, effects } = applyChanges(asWritten, kept.map(inCore), { measures: asWritten.measures, own })
  const partOf = ({ partKey }: KeptChange) => asWritten.parts.find(({ key }) => key === partKey)
  const stageOf = ({ stageKey }: KeptChange) => asWritten.stages.find(({ key }) => key === stageKey)
  return {
    formula,
    changes: kept.map((change, index): Change => {
      const old = change.ingredient || nameOf(partOf(change))
      const theirs = change.ingredient
        ? [change.ingredient]
        : (partOf(change)?.lines ?? []).map((one) => one.ingredient)
      const touched = [change.instead, ...(change.kind === "added" ? [] : theirs)]
      const leaven = touched.some((name) => ["starter", "leaven"].includes(countsAsOf(name, own)))
      return { ...change, effect: effects[index]!, old, stage: stageOf(change)?.name ?? null, leaven }
    }),
  }
}

/** A change as the core knows it. */
export const inCore = ({ outQuantity, outG, quantity, massG, ...change }: KeptChange) => ({
  ...change,
  out: { quantity: outQuantity, g: outG },
  in: { quantity, g: massG },
})
