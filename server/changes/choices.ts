import { type Figures, workOut } from "../dough/formula/formula.ts"
import { sameWords } from "../dough/formula/lines.ts"
import { nameOf } from "../dough/formula/parts.ts"
import type { Amount } from "../dough/formula/weighed-out.ts"
import type { Ingredient } from "../dough/ingredients/ingredient.ts"
import type { FormulaContent } from "../formulas/content.ts"

/** Something of a formula that can be left out or swapped: a line of a part or, with `ingredient` "", a whole part. */
export type Choice = { value: string; partKey: string; ingredient: string; name: string; amount?: Amount }
/** What a part has to choose from. */
export type Group = { key: string; name: string; choices: Choice[] }

/** The formula's own lines, by part; lines of a part with the same name are one. A part that goes into another comes as a whole, too. */
export function choicesIn(content: FormulaContent, own: Ingredient[]): Group[] {
  const figures = workOut(content, { measures: content.measures, own })
  return content.parts.map((part, index) => ({
    key: part.key,
    name: nameOf(part),
    choices: [...linesOf(content, figures, index), ...(part.goesInto ? [wholePart(content, figures, index)] : [])],
  }))
}

function linesOf({ parts }: FormulaContent, figures: Figures, index: number): Choice[] {
  const { key, lines } = parts[index]!
  const counted = lines.filter((_, at) => figures.parts[index]!.lines[at]!.counted)
  const names = counted.map(({ ingredient }) => ingredient.trim()).filter(Boolean)
  const once = names.filter((name, at) => names.findIndex((other) => sameWords(name, other)) === at)
  return once.map((name) => {
    const amounts = lines.flatMap(({ ingredient }, at) =>
      sameWords(ingredient, name) ? [figures.parts[index]!.lines[at]!.g] : [],
    )
    const amount = amounts.reduce((sum, g) => sum && g && { low: sum.low + g.low, high: sum.high + g.high })
    const choice = { value: `${key}/${name}`, partKey: key, ingredient: name, name }
    return amount ? { ...choice, amount: { unit: "g", ...amount } } : choice
  })
}

function wholePart({ parts }: FormulaContent, figures: Figures, index: number): Choice {
  const { key } = parts[index]!
  const { used } = figures.parts[index]!
  const choice = { value: `${key}/`, partKey: key, ingredient: "", name: nameOf(parts[index]) }
  return used ? { ...choice, amount: { unit: "g", ...used } } : choice
}

/** What a formula is made of, by name, the flours and waters of its dough first: what is added is mostly one of them. */
export function namesIn(groups: Group[]): string[] {
  const names = groups.toReversed().flatMap(({ choices }) => choices.flatMap(({ ingredient }) => ingredient || []))
  return names.filter((name, at) => names.findIndex((other) => sameWords(name, other)) === at)
}
