import { sayTo } from "../accounts/say.ts"
import { workOut } from "../dough/formula/formula.ts"
import { readPieces } from "../dough/formula/pieces.ts"
import type { Ingredient } from "../dough/ingredients/ingredient.ts"
import type { Stage } from "../dough/schedule.ts"
import type { FormulaContent } from "../formulas/content.ts"
import { dayOf } from "../web/zones.ts"
import { isoDuration } from "./durations.ts"
import { namespaceAt, ownTerm } from "./namespace.ts"
import { aroundName, lineWords, makesWords, partName, placeWords, timeWords } from "./words.ts"

/** A published formula, and the address it can be read at; `house` is where this house can be reached. */
export type Published = {
  title: string
  content: FormulaContent
  ownIngredients: Ingredient[]
  number: number
  publishedAt: Date
  url: string
  house: string
}

// read by programs anywhere, so in the units of science
const say = sayTo(undefined)

/**
 * A formula as a Recipe of schema.org, in JSON-LD. What a Recipe has no words for (parts in parts, ranges, kinds of stage,
 * variants) is beside it as one JSON literal of a term of our own, from which our import has every line back exactly.
 */
export function recipeOf({ title, content, ownIngredients, number, publishedAt, url, house }: Published) {
  const yields = yieldOf(content, ownIngredients)
  return {
    "@context": ["https://schema.org", { oven: namespaceAt(house), [ownTerm]: { "@type": "@json" } }],
    "@type": "Recipe",
    url,
    name: title,
    ...(content.about && { description: content.about }),
    datePublished: dayOf(publishedAt, "UTC"),
    version: number,
    ...(yields && { recipeYield: yields }),
    ...timesOf(content.stages),
    ...(content.pan && { tool: { "@type": "HowToTool", name: content.pan } }),
    recipeIngredient: ingredientsOf(content),
    recipeInstructions: [...content.parts.map((_, at) => weighing(content, at)), ...content.stages.map(stageSection)],
    [ownTerm]: content,
  }
}

/** Every line, with the part it is in where there are several. */
export function ingredientsOf({ parts, finishing }: FormulaContent): string[] {
  const isAlone = parts.length < 2
  return [
    ...parts.flatMap((part, at) =>
      part.lines.map((line) => (isAlone ? lineWords(line) : `${lineWords(line)} (${partName(part, at)})`)),
    ),
    ...finishing.map((line) => `${lineWords(line)} (${aroundName.toLowerCase()})`),
  ]
}

function yieldOf(content: FormulaContent, own: Ingredient[]) {
  const { count } = readPieces(content)
  if (count) return [makesWords(content), { "@type": "QuantitativeValue", value: count, unitText: "pieces" }]
  const { dough } = workOut(content, { measures: content.measures, own })
  if (!dough) return undefined
  const [low, high] = [round(dough.low), round(dough.high)]
  const value = low === high ? { value: low } : { minValue: low, maxValue: high }
  // GRM is the gram of UN/CEFACT Recommendation 20, which schema.org asks for
  return [`${say.massRange(dough)} of dough`, { "@type": "QuantitativeValue", ...value, unitCode: "GRM" }]
}

/** Exact times, which schema.org has no ranges for: the middle of each stage's. */
function timesOf(stages: Stage[]) {
  const first = stages.findIndex(({ kind }) => kind === "bake")
  const sum = (some: Stage[]) => some.reduce((total, { lowMin, highMin }) => total + (lowMin + highMin) / 2, 0)
  const bake = sum(stages.filter(({ kind }) => kind === "bake"))
  const before = sum(first < 0 ? stages : stages.slice(0, first))
  return {
    ...(before && { prepTime: isoDuration(before) }),
    ...(bake && { cookTime: isoDuration(bake) }),
    ...(sum(stages) && { totalTime: isoDuration(sum(stages)) }),
  }
}

function weighing(content: FormulaContent, at: number) {
  const part = content.parts[at]!
  const place = placeWords(part, content)
  const text = [`Weigh ${part.lines.map(lineWords).join("; ")}.`, place && `It ${place}.`].filter(Boolean).join(" ")
  return section(partName(part, at), [step(text)])
}

function stageSection(stage: Stage) {
  return section(stage.name, [
    step(`${timeWords(stage, say)}.`),
    ...(stage.cue ? [step(`Done when ${stage.cue}`)] : []),
    ...(stage.tip ? [{ "@type": "HowToTip", text: stage.tip }] : []),
  ])
}

const section = (name: string, itemListElement: object[]) => ({ "@type": "HowToSection", name, itemListElement })
const step = (text: string) => ({ "@type": "HowToStep", text })
const round = (g: number) => Number(g.toFixed(1))

/** As text that may stand inside a script element: nothing in it can end that. */
export const asDataBlock = (recipe: object) => JSON.stringify(recipe).replaceAll("<", "\\u003c")
