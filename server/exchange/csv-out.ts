import type { LineFigures } from "../dough/formula/formula.ts"
import { workOut } from "../dough/formula/formula.ts"
import type { WrittenLine } from "../dough/formula/written.ts"
import type { Ingredient } from "../dough/ingredients/ingredient.ts"
import type { Stage } from "../dough/schedule.ts"
import { type Columns, csvAtOnce, percentOf, rounded } from "../export/csv.ts"
import type { FormulaContent } from "../formulas/content.ts"
import { partName } from "./words.ts"

type Row = {
  is: "line" | "finishing" | "stage"
  part?: string
  goesInto?: string
  stays?: string
  line?: WrittenLine
  figures?: LineFigures
  stage?: Stage
}

/**
 * A formula as a table: one row a line and one a stage, amounts as typed with the grams they are taken for beside them.
 * Its name, and whose cups are meant, stand in every row. Variants have no place in it.
 */
export function tableOf(title: string, content: FormulaContent, own: Ingredient[]): string {
  const columns: Columns<Row> = {
    formula: () => title,
    "cups and spoons": () => content.measures,
    row: ({ is }) => is,
    ...columnsOfLines,
    ...columnsOfStages,
  }
  return csvAtOnce(columns, rowsOf(content, own))
}

const columnsOfLines: Columns<Row> = {
  part: ({ part }) => part,
  "goes into": ({ goesInto }) => goesInto,
  "stays in its jar": ({ stays }) => stays,
  amount: ({ line }) => line?.quantity,
  "taken as": ({ line }) => line?.readAs,
  ingredient: ({ line }) => line?.ingredient,
  note: ({ line }) => line?.note,
  "counts as": ({ line }) => line?.countsAs,
  "least g": ({ figures }) => rounded(figures?.g?.low),
  "most g": ({ figures }) => rounded(figures?.g?.high),
  "least % of flour": ({ figures }) => percentOf(figures?.share?.low),
  "most % of flour": ({ figures }) => percentOf(figures?.share?.high),
}

const columnsOfStages: Columns<Row> = {
  stage: ({ stage }) => stage?.name,
  kind: ({ stage }) => stage?.kind,
  "least min": ({ stage }) => stage?.lowMin,
  "most min": ({ stage }) => stage?.highMin,
  "hands-on min": ({ stage }) => stage?.handsOnMin,
  "dough at °C": ({ stage }) => stage?.referenceC,
  "warmer is quicker": ({ stage }) => stage?.drivenByTemperature,
  "done when": ({ stage }) => stage?.cue,
  tip: ({ stage }) => stage?.tip,
}

function rowsOf(content: FormulaContent, own: Ingredient[]): Row[] {
  const figures = workOut(content, { measures: content.measures, own })
  const names = namesOf(content)
  const lines = content.parts.flatMap((part, at) =>
    part.lines.map((line, index): Row => {
      const into = content.parts.findIndex(({ key }) => key === part.goesInto)
      const place = { part: names[at], goesInto: names[into] ?? "", stays: part.staysPercent }
      return { is: "line", ...place, line, figures: figures.parts[at]?.lines[index] }
    }),
  )
  const around = content.finishing.map((line, at): Row => ({ is: "finishing", line, figures: figures.finishing[at] }))
  return [...lines, ...around, ...content.stages.map((stage): Row => ({ is: "stage", stage }))]
}

/** A name for each part that no other has, so that a row says which one it is in. */
function namesOf({ parts }: FormulaContent): string[] {
  const taken = new Set<string>()
  return parts.map((part, at) => {
    const wanted = partName(part, at)
    let name = wanted
    for (let number = 2; taken.has(name); number++) name = `${wanted} (${number})`
    taken.add(name)
    return name
  })
}
