import { z } from "zod"
import { countsAsNames } from "../dough/ingredients/counts-as.ts"
import { measureNames } from "../dough/quantity/measures.ts"
import type { Measures } from "../dough/quantity/reading.ts"
import { stageKinds } from "../dough/schedule.ts"
import type { FormulaContent } from "../formulas/content.ts"

const text = (what: string, most = 200) => z.string().max(most).describe(what)
const key = z.string().regex(/^[\w-]{1,40}$/)
const keys = <T extends object>(names: T) => Object.keys(names) as [keyof T & string, ...(keyof T & string)[]]
const minutes = z.number().min(0).max(20_160)

const line = z.object({
  quantity: text("The amount exactly as written.", 120),
  readAs: text("The wording it is taken as, where it could mean two things.", 120).default(""),
  ingredient: text("What of."),
  note: text("What the writer adds.").default(""),
  countsAs: z
    .enum(["", ...keys(countsAsNames)])
    .default("")
    .describe("What it counts as in the totals; empty is by its name."),
})

const part = z.object({
  key: key.describe("Its key in this formula."),
  name: text("Its name."),
  goesInto: z.union([key, z.literal("")]).describe("The key of the part it is used in; empty for a final dough."),
  staysPercent: text("What stays in its jar: a percentage, or a mass with its unit.", 60).default(""),
  lines: z.array(line).max(200),
})

const variant = z.object({
  key: key.describe("Its key in this formula."),
  name: text("Its name.", 120),
  about: text("What it does.", 1000).default(""),
  swaps: z
    .array(
      z.object({
        part: z.union([key, z.literal("")]).describe("The key of the part."),
        insteadOf: text("The ingredient whose place the lines take; empty for the whole part."),
        lines: z.array(line).max(200),
      }),
    )
    .max(50),
  times: z
    .array(z.object({ stageKey: key, lowMin: minutes, highMin: minutes }))
    .max(100)
    .default([]),
})

const stage = z.object({
  key: key.describe("Its key in this formula."),
  kind: z.enum(stageKinds),
  name: text("Its name."),
  lowMin: minutes.describe("The shortest it takes, minutes; 0 to 0 where no time was given."),
  highMin: minutes.describe("The longest it takes, minutes."),
  referenceC: z.number().min(-5).max(50).optional().describe("The dough temperature the times are meant for, °C."),
  drivenByTemperature: z.boolean().describe("Whether a warmer dough takes less time."),
  handsOnMin: minutes.default(0).describe("Work in it, minutes."),
  cue: text("What ends it.", 1000).default(""),
  tip: text("A tip.", 1000).default(""),
})

/** A whole formula as our own files carry it. */
export const formulaShape = z
  .object({
    about: text("What its writer says of it.", 2000).default(""),
    measures: z
      .enum(keys(measureNames) as [Measures, ...Measures[]])
      .describe("Whose cups and spoons it is written in."),
    pieces: text("How many pieces it makes, as written.", 60).default(""),
    pieceMass: text("The mass of one, as written.", 60).default(""),
    pieceTolerance: text("How far one may be off, as written.", 60).default(""),
    pan: text("Pan or basket.").default(""),
    parts: z.array(part).max(30).describe("Mixes made on their own."),
    finishing: z.array(line).max(100).default([]).describe("What goes on or around the dough."),
    variants: z.array(variant).max(30).default([]).describe("Other ways to make it."),
    stages: z.array(stage).max(100).describe("What is done, in order."),
  })
  .describe("A formula in baker's percentage, in the words of whoever wrote it.")

/** The formula in a value from a file, or what keeps it from being one, in a sentence. */
export function contentIn(value: unknown): { content: FormulaContent } | { problem: string } {
  const { data, error } = formulaShape.safeParse(value)
  if (!data) {
    const [issue] = error.issues
    return { problem: `“${issue!.path.join(".") || "formula"}”: ${issue!.message}` }
  }
  const repeated = [data.parts, data.stages, data.variants].some(
    (rows) => new Set(rows.map((row) => row.key)).size < rows.length,
  )
  return repeated ? { problem: "Two of its parts, stages or variants have the same key." } : { content: data }
}
