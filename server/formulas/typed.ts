import { randomBytes } from "node:crypto"
import type { Say } from "../accounts/say.ts"
import type { FormulaContent } from "./content.ts"

const lineFields = ["quantity", "ingredient", "note", "countsAs"] as const
const partFields = ["key", "name", "goesInto", "staysPercent"] as const
const stageFields = ["key", "kind", "name", "lasts", "driven", "reference", "handsOn", "cue", "tip"] as const
const ownFields = ["title", "about", "pieces", "pieceMass", "pan"] as const

export type TypedLine = Record<(typeof lineFields)[number], string>
export type TypedPart = Record<(typeof partFields)[number], string> & { lines: TypedLine[] }
export type TypedStage = Record<(typeof stageFields)[number], string>
/** The form of a formula, every field as the text in it, rows in the order of the page. */
export type TypedFormula = Record<(typeof ownFields)[number], string> & { parts: TypedPart[]; stages: TypedStage[] }

/** Parts and stages keep their key for good, because parts and bakes refer to them by it. */
export const newKey = () => randomBytes(4).toString("hex")
export const newLine = (): TypedLine => empty(lineFields)
export const newPart = (): TypedPart => ({ ...empty(partFields), key: newKey(), lines: [newLine(), newLine()] })
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
  const parts = rows("parts.").map((part) => ({
    ...row(partFields, part),
    lines: rows(`${part}lines.`).map((line) => row(lineFields, line)),
  }))
  const stages = rows("stages.").map((stage) => row(stageFields, stage))
  return { ...row(ownFields, ""), parts: withKeys(parts), stages: withKeys(stages) }
}

/** The form of a kept formula, as `say` tells it to whoever edits it. A time of 0 has not been given yet. */
export function typedOf(title: string, content: FormulaContent, say: Say): TypedFormula {
  const { about, pieces, pieceMass, pan, parts, stages } = content
  return {
    ...{ title, about, pieces, pieceMass, pan, parts },
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
    const used = part.lines.findLastIndex((line) => !isBlank(line)) + 1
    const missing = Math.max(0, 2 - (part.lines.length - used))
    return { ...part, lines: [...part.lines, ...Array.from({ length: missing }, newLine)] }
  })
  return { ...typed, parts }
}

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
