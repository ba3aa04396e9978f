import { CsvError, parse } from "csv-parse/sync"
import type { WrittenLine, WrittenPart } from "../dough/formula/written.ts"
import { countsAsNames } from "../dough/ingredients/counts-as.ts"
import { measureNames } from "../dough/quantity/measures.ts"
import type { Measures } from "../dough/quantity/reading.ts"
import { type Stage, stageKinds } from "../dough/schedule.ts"
import { asTyped } from "../export/csv.ts"
import type { FormulaContent } from "../formulas/content.ts"
import { newKey } from "../formulas/typed.ts"
import type { Brought } from "./brought.ts"
import { storable } from "./plain.ts"

type Row = Record<string, string>

/** Other people's names for our columns. A unit in the name goes with the amounts. Our own choice. */
const others: [string, RegExp][] = [
  ["amount", /^(?:amount|quantity|qty|weight|mass|grams?|g)\b/],
  ["ingredient", /^(?:ingredients?|item|name|what)$/],
  ["note", /^(?:notes?|remarks?|comments?|preparation)$/],
  ["part", /^(?:part|section|group|stage|for)$/],
]

/** Which sign parts the columns, where the first line has the columns of a formula; undefined for any other text. */
export function delimiterOf(text: string): string | undefined {
  const head = text
    .replace(/^\ufeff/, "")
    .split(/[\r\n]/, 1)[0]!
    .toLowerCase()
  return [",", ";", "\t"].find((sign) => {
    const cells = head.split(sign).map((cell) => cell.replace(/^\s*"|"\s*$/g, "").trim())
    return ["amount", "ingredient"].every((name) => cells.some((cell) => columnOf(cell) === name))
  })
}

/** A table as a formula: ours with all its lines and stages, another's as far as its columns say. Errors are sentences. */
export function readTable(
  text: string,
  delimiter: string,
  measures: Measures,
): Omit<Brought, "source" | "recipes" | "which"> | { problem: string } {
  const records = recordsIn(text, delimiter)
  if ("problem" in records) return records
  const [head = [], ...rows] = records.rows
  const isOurs = head.includes("row") && head.includes("stays in its jar")
  const names = head.map((cell) => (isOurs ? cell : columnOf(cell.toLowerCase().trim())))
  const read = rows.map((cells): Row => {
    const named = cells.map((cell, at) => [names[at] || "", asTyped(storable(cell)).trim()] as const)
    return Object.fromEntries(named.filter(([name]) => name !== ""))
  })
  const used = read.filter((row) => Object.values(row).some((cell) => cell !== ""))
  const unit = isOurs ? "" : (/\b(g|grams?|kg|oz)\b/i.exec(head[names.indexOf("amount")] ?? "")?.[1] ?? "")
  return formulaOf(used, { unit, measures, isOurs })
}

const columnOf = (cell: string) => others.find(([, pattern]) => pattern.test(cell))?.[0] ?? cell

function recordsIn(text: string, delimiter: string): { rows: string[][] } | { problem: string } {
  try {
    const form = { delimiter, bom: true, relax_column_count: true, skip_empty_lines: true, to: 1000 }
    return { rows: parse(text, form) }
  } catch (error) {
    if (!(error instanceof CsvError)) throw error
    return {
      problem: `It begins like a table, but row ${error.lines ?? "?"} cannot be read: a quotation mark is not closed, or stands where none may.`,
    }
  }
}

type Options = { unit: string; measures: Measures; isOurs: boolean }

function formulaOf(rows: Row[], { unit, measures, isOurs }: Options) {
  const is = (row: Row) => row.row || (row.stage && !row.ingredient ? "stage" : "line")
  const lines = rows.filter((row) => is(row) === "line")
  const around = rows.filter((row) => is(row) === "finishing")
  const staged = rows.filter((row) => is(row) === "stage")
  const parts = partsOf(lines, unit)
  const cups = rows[0]?.["cups and spoons"] ?? ""
  const content: FormulaContent = {
    ...{ about: "", pieces: "", pieceMass: "", pieceTolerance: "", pan: "" },
    measures: Object.hasOwn(measureNames, cups) ? (cups as Measures) : measures,
    parts,
    finishing: around.map((row) => lineIn(row, unit)),
    variants: [],
    stages: staged.map(stageIn),
  }
  const told = staged.map((row) => ({
    text: [row.stage, row.tip].filter(Boolean).join(": "),
    because: stageKinds.some((kind) => kind === row.kind) ? "written beside it" : "nothing in the table tells",
    assumes: [],
    asks: Number(row["most min"]) > 0 ? [] : ["How long does it take?"],
  }))
  return {
    kind: "table" as const,
    title: rows[0]?.formula ?? "",
    content,
    came: {
      parts: parts.map(({ name }) => lines.filter((row) => nameIn(row) === name).map(wordsOf)),
      finishing: around.map(wordsOf),
      stages: told,
      places: parts.map(() => (isOurs ? "it says so" : "taken as the dough itself")),
    },
    left: rows.flatMap((row) => unknownIn(row, isOurs)),
    remarks: [],
  }
}

const nameIn = ({ part = "" }: Row) => part || "Final dough"

/** Rows of one name are one part, wherever they stand. Where nothing says what goes into what, the last is the dough. */
function partsOf(lines: Row[], unit: string): WrittenPart[] {
  const names = [...new Set(lines.map(nameIn))]
  const keys = new Map(names.map((name) => [name, newKey()]))
  const saysWhere = lines.some((row) => row["goes into"] !== undefined)
  return names.map((name) => {
    const own = lines.filter((row) => nameIn(row) === name)
    const into = saysWhere ? (own[0]?.["goes into"] ?? "") : name === names.at(-1) ? "" : names.at(-1)!
    const stays = own[0]?.["stays in its jar"] ?? ""
    return {
      key: keys.get(name)!,
      name,
      goesInto: keys.get(into) ?? "",
      staysPercent: stays,
      lines: own.map((row) => lineIn(row, unit)),
    }
  })
}

function lineIn(row: Row, unit: string): WrittenLine {
  const { amount = "", ingredient = "", note = "" } = row
  const counts = row["counts as"] ?? ""
  return {
    quantity: unit && /^[\d.,]+$/.test(amount) ? `${amount} ${unit}` : amount,
    readAs: row["taken as"] ?? "",
    ...{ ingredient, note },
    countsAs: Object.hasOwn(countsAsNames, counts) ? (counts as WrittenLine["countsAs"]) : "",
  }
}

function stageIn(row: Row): Stage {
  const number = (name: string) =>
    /^-?\d+(?:\.\d+)?(?:e-?\d+)?$/.test(row[name] ?? "") ? Number(row[name]) : undefined
  const lowMin = Math.max(0, number("least min") ?? 0)
  const referenceC = number("dough at °C")
  return {
    key: newKey(),
    kind: stageKinds.find((kind) => kind === row.kind) ?? "rest",
    name: row.stage ?? "",
    ...{ lowMin, highMin: Math.max(lowMin, number("most min") ?? lowMin) },
    ...(referenceC === undefined ? {} : { referenceC }),
    drivenByTemperature: row["warmer is quicker"] === "yes",
    handsOnMin: Math.max(0, number("hands-on min") ?? 0),
    ...{ cue: row["done when"] ?? "", tip: row.tip ?? "" },
  }
}

const wordsOf = ({ amount, ingredient, note }: Row) =>
  [[amount, ingredient].filter(Boolean).join(" "), note].filter(Boolean).join(", ")

const known = new Set(["amount", "ingredient", "note", "part", "stage", "kind", "row", "tip", "formula"])
/** What stands in columns that mean nothing here, word for word. */
const unknownIn = (row: Row, isOurs: boolean) =>
  isOurs
    ? []
    : Object.entries(row).flatMap(([name, cell]) =>
        cell && !known.has(name) ? [`${row.ingredient ?? ""}, ${name}: ${cell}`] : [],
      )
