import { type Figures, workOut } from "../dough/formula/formula.ts"
import type { Ingredient } from "../dough/ingredients/ingredient.ts"
import type { FormulaContent } from "../formulas/content.ts"

/** What a dough was made of, as shares of all its flour where they are known; flours by name, the most of all first. */
export type Mix = {
  flours: { name: string; share?: number }[]
  prefermented?: number
  hydration?: number
  salt?: number
  fat?: number
  sugar?: number
}

export function mixOf(content: FormulaContent, own: Ingredient[]): Mix {
  const figures = workOut(content, { measures: content.measures, own })
  return {
    flours: floursOf(figures, content),
    prefermented: middle(figures.prefermented),
    hydration: middle(figures.wholeHydration ?? figures.hydration),
    salt: middle(figures.wholeSalt ?? figures.salt),
    fat: middle(figures.fat),
    sugar: middle(figures.sugar),
  }
}

function floursOf({ parts }: Figures, content: FormulaContent) {
  const shares = new Map<string, number>()
  for (const [part, { lines }] of parts.entries())
    for (const [at, { countsAs, counted, ingredient, share }] of lines.entries()) {
      const name = ingredient?.name ?? content.parts[part]!.lines[at]!.ingredient
      if (counted && countsAs === "flour") shares.set(name, (shares.get(name) ?? 0) + (middle(share) ?? Number.NaN))
    }
  const flours = [...shares].map(([name, share]) => (Number.isNaN(share) ? { name } : { name, share }))
  return flours.sort((a, b) => (b.share ?? 0) - (a.share ?? 0))
}

const middle = (range: { low: number; high: number } | undefined) => range && (range.low + range.high) / 2

/** The flours that make up the dough: each at least a tenth of all, our own judgement; all of them where shares are unknown. */
export function mainFlours({ flours }: Mix): string[] {
  const main = flours.filter(({ share }) => share === undefined || share >= leastShare)
  return main.map(({ name }) => name)
}
const leastShare = 0.1
