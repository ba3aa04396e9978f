import { countsAsOf } from "../dough/ingredients/catalogue.ts"
import type { Ingredient } from "../dough/ingredients/ingredient.ts"
import { raisedBy } from "../estimate/leaven.ts"
import type { FormulaContent } from "../formulas/content.ts"

type Part = FormulaContent["parts"][number]
type Line = Part["lines"][number]

/**
 * The formula with as much leaven as makes this share of its flour: every amount of the levain grows alike, and what it brings
 * more is taken from the same ingredients of the part it goes into, so that flour and water stay what they were. Yeast, or
 * starter that stands in the dough itself, grows alone. undefined where an amount is not in plain grams, or too little is left.
 */
export function withLeavenShare(
  content: FormulaContent,
  was: number,
  now: number,
  own: Ingredient[],
): FormulaContent | undefined {
  let times = now / was
  let changed: FormulaContent | undefined
  // the levain's own flour changes what it is a share of, a little: twice more is near enough
  for (let round = 0; round < 3; round++) {
    changed = grown(content, times, own)
    const raised = changed && raisedBy(changed, own)
    if (!raised || !("leaven" in raised)) return undefined
    times *= now / raised.leaven.share
  }
  return changed
}

function grown(content: FormulaContent, times: number, own: Ingredient[]): FormulaContent | undefined {
  const levain = content.parts.find(({ goesInto, lines }) => goesInto !== "" && lines.some((line) => raises(line, own)))
  const into = levain && content.parts.find(({ key }) => key === levain.goesInto)
  const growing = levain
    ? levain.lines
    : content.parts.flatMap(({ lines }) => lines.filter((line) => raises(line, own)))
  const by = new Map(growing.map((line) => [line, scaled(line, times)]))
  if (!growing.length || [...by.values()].includes(undefined)) return undefined
  const kept = levain ? 1 - Number(levain.staysPercent.replace(",", ".") || 0) / 100 : 1
  const taken = into && levain ? takenFrom(into, levain, by, kept) : new Map<Line, Line>()
  if (!taken) return undefined
  const parts = content.parts.map((part) => ({
    ...part,
    lines: part.lines.map((line) => by.get(line) ?? taken.get(line) ?? line),
  }))
  return { ...content, parts }
}

const raises = ({ ingredient, countsAs }: Line, own: Ingredient[]) =>
  ["starter", "leaven"].includes(countsAs || countsAsOf(ingredient, own))

const plainGrams = /^\s*(\d+(?:[.,]\d+)?)(?:\s*[–-]\s*(\d+(?:[.,]\d+)?))?\s*g\s*$/

/** An amount in plain grams, its ends each changed; undefined for any other amount, or less than nothing. */
function changedBy(line: Line, change: (g: number) => number): Line | undefined {
  const [, low, high] = plainGrams.exec(line.readAs ? "" : line.quantity) ?? []
  if (low === undefined) return undefined
  const ends = [low, high].flatMap((text) =>
    text === undefined ? [] : [rounded(change(Number(text.replace(",", "."))))],
  )
  return ends.every((g) => g > 0) ? { ...line, quantity: `${ends.join("–")} g` } : undefined
}
const rounded = (g: number) => (g < 20 ? Math.round(g * 10) / 10 : Math.round(g))
const scaled = (line: Line, times: number) => changedBy(line, (g) => g * times)

const gramsOf = ({ quantity }: Line) => Number(plainGrams.exec(quantity)?.[1]?.replace(",", ".") ?? 0)

/** The lines of the same ingredient, each with so much less; undefined where one cannot give it. */
function takenFrom(
  into: Part,
  levain: Part,
  by: Map<Line, Line | undefined>,
  kept: number,
): Map<Line, Line> | undefined {
  const taken = new Map<Line, Line>()
  for (const line of levain.lines) {
    const same = into.lines.find(
      ({ ingredient }) => ingredient.trim().toLowerCase() === line.ingredient.trim().toLowerCase(),
    )
    if (!same) continue
    const moreG = (gramsOf(by.get(line)!) - gramsOf(line)) * kept
    const less = changedBy(taken.get(same) ?? same, (g) => g - moreG)
    if (!less) return undefined
    taken.set(same, less)
  }
  return taken
}
