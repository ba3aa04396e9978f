import { randomBytes } from "node:crypto"
import type { Say } from "../accounts/say.ts"
import { splitLine } from "../dough/quantity/split-line.ts"
import type { FormulaContent } from "./content.ts"

const lineFields = ["quantity", "readAs", "ingredient", "note", "countsAs"] as const
// `pasted` holds lines that are to become rows of the part
const partFields = ["key", "name", "goesInto", "staysPercent", "pasted"] as const
const variantFields = ["key", "name", "about"] as const
const swapFields = ["insteadOf"] as const
const timeFields = ["stageKey", "lasts"] as const
const stageFields = ["key", "kind", "name", "lasts", "driven", "reference", "handsOn", "cue", "tip"] as const
const ownFields = ["title", "about", "measures", "pieces", "pieceMass", "pieceTolerance", "pan"] as const

type Row<Fields extends readonly string[]> = Record<Fields[number], string>
export type TypedLine = Row<typeof lineFields>
export type TypedPart = Row<typeof partFields> & { lines: TypedLine[] }
/** `insteadOf` is "part-key/ingredient", or "part-key/" for the whole part. */
export type TypedSwap = Row<typeof swapFields> & { lines: TypedLine[] }
export type TypedVariant = Row<typeof variantFields> & { swaps: TypedSwap[]; times: Row<typeof timeFields>[] }
export type TypedStage = Row<typeof stageFields>
/** The form of a formula, every field as the text in it, rows in the order of the page. */
export type TypedFormula = Row<typeof ownFields> & {
  parts: TypedPart[]
  finishing: TypedLine[]
  variants: TypedVariant[]
  stages: TypedStage[]
}

/** Written in place of a variant's time for a stage that it does without. */
export const leftOut = "none"

/** Parts and stages keep their key for good, because parts and bakes refer to them by it. */
export const newKey = () => randomBytes(4).toString("hex")
export const newLine = (): TypedLine => empty(lineFields)
export const newPart = (): TypedPart => ({ ...empty(partFields), key: newKey(), lines: [newLine(), newLine()] })
export const newSwap = (): TypedSwap => ({ ...empty(swapFields), lines: [newLine()] })
export const newVariant = (): TypedVariant => ({
  ...empty(variantFields),
  key: newKey(),
  swaps: [newSwap()],
  times: [],
})
export const newStage = (): TypedStage => ({ ...empty(stageFields), key: newKey(), kind: "rest" })

/** What a submitted form holds: fields named like `parts.0.lines.2.quantity`, whatever numbers the rows have. */
export function typedFrom(body: unknown): TypedFormula {
  const fields = new Map(Object.entries((body ?? {}) as Record<string, unknown>))
  const text = (name: string) => String([fields.get(name) ?? ""].flat()[0])
  const row = <Name extends string>(names: readonly Name[], prefix: string) =>
    Object.fromEntries(names.map((name) => [name, text(prefix + name)])) as Record<Name, string>
  const rows = (prefix: string) => {
    const numbers = [...fields.keys()].flatMap((name) =>
      name.startsWith(prefix) ? [/^\d{1,4}(?=\.)/.exec(name.slice(prefix.length))?.[0] ?? []].flat() : [],
    )
    return [...new Set(numbers)].sort((a, b) => Number(a) - Number(b)).map((number) => `${prefix}${number}.`)
  }
  const lines = (prefix: string) => rows(prefix).map((line) => row(lineFields, line))
  const parts = rows("parts.").map((part) => ({ ...row(partFields, part), lines: lines(`${part}lines.`) }))
  const variants = rows("variants.").map((variant) => ({
    ...row(variantFields, variant),
    swaps: rows(`${variant}swaps.`).map((swap) => ({ ...row(swapFields, swap), lines: lines(`${swap}lines.`) })),
    times: rows(`${variant}times.`).map((time) => row(timeFields, time)),
  }))
  const stages = rows("stages.").map((stage) => row(stageFields, stage))
  return {
    ...row(ownFields, ""),
    parts: withKeys(parts),
    finishing: lines("finishing."),
    variants: withKeys(variants),
    stages: withKeys(stages),
  }
}

/** The form of a kept formula, as `say` tells it to whoever edits it. A time of 0 has not been given yet. */
export function typedOf(title: string, content: FormulaContent, say: Say): TypedFormula {
  const { stages, variants, parts, ...rest } = content
  return {
    ...rest,
    title,
    parts: parts.map((part) => ({ ...part, pasted: "" })),
    variants: variants.map((variant) => ({
      ...variant,
      swaps: variant.swaps.map(({ part, insteadOf, lines }) => ({ insteadOf: `${part}/${insteadOf}`, lines })),
      times: variant.times.map(({ stageKey, lowMin, highMin }) => ({
        stageKey,
        lasts: highMin ? say.minutesRange(lowMin, highMin) : leftOut,
      })),
    })),
    stages: stages.map(
      ({ key, kind, name, lowMin, highMin, drivenByTemperature, referenceC, handsOnMin, cue, tip }) => ({
        ...{ key, kind, name, cue, tip },
        lasts: highMin ? say.minutesRange(lowMin, highMin) : "",
        driven: drivenByTemperature ? "yes" : "",
        reference: referenceC === undefined ? "" : say.temperature(referenceC),
        handsOn: handsOnMin ? say.minutes(handsOnMin) : "",
      }),
    ),
  }
}

/** The same by field name, as views look typed values up. */
export function byField(typed: TypedFormula): Record<string, string> {
  const names = (prefix: string, value: unknown): [string, string][] =>
    typeof value === "string"
      ? [[prefix, value]]
      : Object.entries(value as object).flatMap(([name, inner]) => names(prefix ? `${prefix}.${name}` : name, inner))
  return Object.fromEntries(names("", typed))
}

/** Two spare lines at the end of each part to write into. */
export function withSpareLines(typed: TypedFormula): TypedFormula {
  const parts = typed.parts.map((part) => {
    const missing = Math.max(0, 2 - (part.lines.length - usedLines(part.lines)))
    return { ...part, lines: [...part.lines, ...Array.from({ length: missing }, newLine)] }
  })
  return { ...typed, parts }
}

/** With what was pasted into a part as lines of it, after those that are used. */
export function withPastedLines(typed: TypedFormula): TypedFormula {
  const parts = typed.parts.map((part) => {
    const pasted = part.pasted.split("\n").filter((text) => text.trim())
    const lines = pasted.map((text) => ({ ...newLine(), ...splitLine(text) }))
    return { ...part, pasted: "", lines: part.lines.toSpliced(usedLines(part.lines), 0, ...lines) }
  })
  return { ...typed, parts }
}

/** With a time for every stage in every variant, "" where the variant takes as long as the formula. */
export function withTimesOfStages(typed: TypedFormula): TypedFormula {
  const times = (given: TypedVariant["times"]) =>
    typed.stages.map(({ key }) => given.find(({ stageKey }) => stageKey === key) ?? { stageKey: key, lasts: "" })
  return { ...typed, variants: typed.variants.map((variant) => ({ ...variant, times: times(variant.times) })) }
}

const usedLines = (lines: TypedLine[]) => lines.findLastIndex((line) => !isBlank(line)) + 1

export const isBlank = ({ quantity, ingredient, note }: { quantity: string; ingredient: string; note: string }) =>
  `${quantity}${ingredient}${note}`.trim() === ""

const empty = <Name extends string>(names: readonly Name[]) =>
  Object.fromEntries(names.map((name) => [name, ""])) as Record<Name, string>

/** A row without a key, or with one that another has already, is a new one. */
function withKeys<Row extends { key: string }>(rows: Row[]): Row[] {
  const seen = new Set<string>()
  return rows.map((row) => {
    const key = /^[\w-]{1,40}$/.test(row.key) && !seen.has(row.key) ? row.key : newKey()
    seen.add(key)
    return { ...row, key }
  })
}
