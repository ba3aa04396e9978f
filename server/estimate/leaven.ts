import type { Range } from "../dough/amounts.ts"
import { asInstant } from "../dough/fermentation/bakers-yeast.ts"
import { doughFactor } from "../dough/fermentation/gates.ts"
import type { Leaven } from "../dough/fermentation/leaven.ts"
import { type Figures, workOut } from "../dough/formula/formula.ts"
import { leavenOf, yeastOf } from "../dough/formula/leaven.ts"
import type { Ingredient } from "../dough/ingredients/ingredient.ts"
import type { FormulaContent } from "../formulas/content.ts"

/** What raises a dough, and how fast its salt and sugar let it (see doughFactor); or what the formula leaves out. */
export type Raised = { leaven: Leaven; factor: number } | { why: string; wants: string }

/**
 * What raises this formula. Where there is both, it is the yeast, see cultureOf in formulas/content.ts. A formula in which
 * nobody wrote salt is taken to have the usual; where its baker left the salt out, see `asWritten`, it has none.
 */
export function raisedBy(content: FormulaContent, own: Ingredient[], asWritten = content): Raised {
  const workedOut = (formula: FormulaContent) => workOut(formula, { measures: formula.measures, own })
  const figures = workedOut(content)
  const what = leavenOf(figures)
  if (what === "none")
    return {
      why: "The formula does not say what raises this dough.",
      wants: "a line with levain or yeast, and its amount",
    }
  const culture = what === "sourdough" ? "sourdough" : "baker's yeast"
  const share = culture === "sourdough" ? middle(figures.prefermented) : instantShare(content, figures)
  if (share === undefined || !(share > 0 && share <= 1)) {
    const name = culture === "sourdough" ? "levain" : "yeast"
    return {
      why: [`The formula does not say how much ${name} there is to how much flour.`, problemIn(figures)]
        .join(" ")
        .trim(),
      wants: `the amounts of ${name} and flour`,
    }
  }
  const unsalted = !hasSalt(figures) && !(asWritten !== content && hasSalt(workedOut(asWritten)))
  return { leaven: { culture, share }, factor: factorOf(unsalted ? { ...figures, wholeSalt: undefined } : figures) }
}

const linesOf = ({ parts }: Figures) => parts.flatMap(({ lines }) => lines)
const hasSalt = (figures: Figures) => linesOf(figures).some(({ countsAs }) => countsAs === "salt")
const problemIn = (figures: Figures) =>
  linesOf(figures).find(({ problem }) => problem)?.problem ?? figures.cannot[0] ?? ""

const middle = (range: Range | undefined) => range && (range.low + range.high) / 2

/** All yeast as a share of the flour, as if it were instant. */
function instantShare(content: FormulaContent, { parts }: Figures): number | undefined {
  const shares = parts.flatMap(({ lines }, part) =>
    lines.flatMap((line, at) => {
      if (!line.counted || line.countsAs !== "leaven") return []
      const share = middle(line.share)
      return share === undefined
        ? [Number.NaN]
        : [asInstant(share, yeastOf(line, content.parts[part]!.lines[at]!.ingredient))]
    }),
  )
  const total = shares.reduce((sum, share) => sum + share, 0)
  return Number.isFinite(total) ? total : undefined
}

/** 1 where salt or sugar are not known, and where so much of them is in it that nothing would ferment: that is a slip. */
function factorOf({ wholeSalt, sugar }: Pick<Figures, "wholeSalt" | "sugar">): number {
  const [saltShare, sugarShare] = [middle(wholeSalt) ?? usualSalt, middle(sugar) ?? 0]
  if (!(saltShare <= 1 && sugarShare <= 1)) return 1
  return doughFactor({ saltShare, sugarShare }) || 1
}
const usualSalt = 0.02
