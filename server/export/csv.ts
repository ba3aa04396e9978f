import { Readable } from "node:stream"
import { stringify } from "csv-stringify/sync"

export type Cell = string | number | boolean | null | undefined
/** A column by its name, which carries the unit, and what a row has there. */
export type Columns<Row> = Record<string, (row: Row) => Cell>

// As RFC 4180 has it. A single line break inside a cell is none that the library looks for.
const form = { record_delimiter: "\r\n", quoted_match: /[\r\n]/ } as const
const byteOrderMark = "\ufeff"

/** A table as CSV, row by row as somebody reads it; the mark at its beginning tells a spreadsheet that it is UTF-8. */
export function csvOf<Row>(columns: Columns<Row>, rows: AsyncIterable<Row[]>, { marked }: { marked: boolean }) {
  return Readable.from(linesOf(columns, rows, marked), { objectMode: false })
}

async function* linesOf<Row>(columns: Columns<Row>, rows: AsyncIterable<Row[]>, marked: boolean) {
  yield (marked ? byteOrderMark : "") + stringify([Object.keys(columns)], form)
  for await (const some of rows) if (some.length) yield recordsOf(columns, some)
}

/** A short table as CSV, marked as UTF-8. */
export const csvAtOnce = <Row>(columns: Columns<Row>, rows: Row[]) =>
  byteOrderMark + stringify([Object.keys(columns)], form) + recordsOf(columns, rows)

const recordsOf = <Row>(columns: Columns<Row>, rows: Row[]) =>
  stringify(
    rows.map((row) => Object.values(columns).map((cellOf) => plain(cellOf(row)))),
    form,
  )

function plain(cell: Cell) {
  if (typeof cell === "string") return harmless(cell)
  if (typeof cell === "boolean") return cell ? "yes" : "no"
  return cell ?? ""
}

/**
 * A spreadsheet runs what begins like a formula, whoever typed it, blanks before it or not: an apostrophe keeps it text
 * (OWASP, CSV injection; the wide signs too). What is nothing but a number stays one, and what has such an apostrophe
 * already gets one more, so that taking one off always gives what was typed.
 */
const harmless = (text: string) => (isRun.test(text) && !isNumber(text) ? `'${text}` : text)
const isRun = /^'*(?:\s*[=+\-@＝＋－＠]|[\t\r\n])/

/** What was typed, of a cell that `harmless` made safe. */
export const asTyped = (cell: string) => (cell.startsWith("'") && isRun.test(cell) ? cell.slice(1) : cell)
const isNumber = (text: string) => /^[+-]?\d+([.,]\d+)?$/.test(text)

/** So many decimals at most; null for what is not known. */
export const rounded = (value: number | null | undefined, digits = 3) =>
  value === null || value === undefined ? null : Number(value.toFixed(digits))
export const percentOf = (share: number | null | undefined) =>
  rounded(share === null ? undefined : share && share * 100, 1)
