import type { Say } from "../accounts/say.ts"
import { bases } from "../dough/formula/bases.ts"
import { type Figures, workOut } from "../dough/formula/formula.ts"
import type { Ingredient } from "../dough/ingredients/ingredient.ts"
import type { FormulaContent } from "../formulas/content.ts"

const masses = ["dough", "flour"] as const
const shares = ["hydration", "wholeHydration", "salt", "prefermented"] as const
type Compared = { asWritten: FormulaContent; content: FormulaContent; ownIngredients: Ingredient[] }
type Moved = { name: string; formula: string; yours: string }

/**
 * The totals of a bake that its changes moved, beside the formula's own, and what cannot be worked out any more. A figure
 * that looks the same in both is not among them.
 */
export function movedIn({ asWritten, content, ownIngredients: own }: Compared, say: Say, massUnit: "g" | "oz") {
  const of = (one: FormulaContent) => workOut(one, { measures: one.measures, own, massUnit })
  const [before, after] = [of(asWritten), of(content)]
  const moved = [...masses, ...shares].flatMap((kind): Moved[] => {
    const [formula, yours] = [shownIn(before, kind, say), shownIn(after, kind, say)]
    if (formula === yours) return []
    return [{ name: bases[kind].name, formula: formula ?? "not known", yours: yours ?? "not known" }]
  })
  return {
    moved: withoutTwin(moved),
    cannot: after.cannot.filter((sentence) => !before.cannot.includes(sentence)),
    lessSalt: isLess(after.salt, before.salt),
    noLeaven: hasLeaven(before) && !hasLeaven(after),
  }
}

function shownIn(figures: Figures, kind: (typeof masses)[number] | (typeof shares)[number], say: Say) {
  const value = figures[kind]
  if (!value) return undefined
  return kind === "dough" || kind === "flour" ? say.massRange(value) : say.percentRange(value)
}

/** Where nothing but water brings water, both hydrations say the same. */
function withoutTwin(moved: Moved[]) {
  const [written, whole] = [bases.hydration.name, bases.wholeHydration.name].map((name) =>
    moved.find((one) => one.name === name),
  )
  const same = written && whole && written.formula === whole.formula && written.yours === whole.yours
  return same ? moved.filter((one) => one !== whole) : moved
}

const isLess = (one: Figures["salt"], other: Figures["salt"]) => !!one && !!other && one.high < other.low * tooLittle
// A fifth less is more than a scale is off. Our own judgement.
const tooLittle = 0.8
const hasLeaven = ({ parts }: Figures) =>
  parts.some(({ lines }) =>
    lines.some(({ countsAs, counted, g }) => counted && g?.high !== 0 && ["starter", "leaven"].includes(countsAs)),
  )
