import type Fraction from "fraction.js"
import { attempt, type Cursor, next, skip, spanOf } from "./cursor.ts"
import type { Manner, Sign, Unit } from "./lexicon.ts"
import type { System } from "./measures.ts"
import type { Span, Token } from "./tokens.ts"

/** A number and what it counts. */
export type Term = Span & {
  value: Fraction
  numberAt: Span
  /** As typed, when it is a single number in digits. */
  written?: string
  /** "1/2", "two": without a unit it says nothing. */
  needsUnit: boolean
  /** Told in dozens, so it counts pieces. */
  isDozens?: true
  /** It was written "1-1/2". */
  dashed?: true
  unit?: Unit
  /** Where the unit stands or, when there is none, would stand. */
  unitAt: Span
  said?: string
  system?: System
  size?: string
  sizeAt?: Span
  manner?: Manner
  by?: "weight" | "volume"
  shell?: { kind: "in" | "out"; at: Span }
  /** What one of them holds: "2 packets of 7 g". */
  each?: Figure
  /** A mass that a package was named with: "8 oz package". */
  packed?: true
}

/** One term, or several as in "1 lb 4 oz". */
export type Figure = Span & { terms: Term[] }

/** The figure at the cursor, whose terms may be joined by one of `joiners`. */
export function figureAt(cursor: Cursor, joiners: Sign[] = ["comma", "and"]): Figure | undefined {
  const first = termAt(cursor)
  if (!first) return undefined
  const terms = [first]
  for (let term = termAfter(cursor, first, joiners); term; term = termAfter(cursor, term, joiners)) terms.push(term)
  return { terms, ...spanOf(terms) }
}

const families: string[][] = [
  ["mg", "g", "dag", "kg"],
  ["oz", "lb"],
  ["ml", "cl", "dl", "l"],
  ["tsp", "dsp", "tbsp", "fl oz", "gill", "cup", "pint", "quart", "gallon"],
]

/** Units of the same family, from small to large; undefined when the unit has none. */
export const familyOf = (unit: Unit | undefined) => families.find((units) => units.some((name) => name === unit?.name))

/** The "4 oz" after "1 lb", and a number that lacks its unit. */
const termAfter = (cursor: Cursor, before: Term, joiners: Sign[]): Term | undefined =>
  attempt(cursor, () => {
    const joined = skip(cursor, ...joiners)
    if (next(cursor)?.is !== "number") return undefined
    const unit = unitAhead(cursor)?.unit
    const rank = (of: Unit | undefined) => familyOf(before.unit)?.indexOf(of?.name ?? "") ?? -1
    const isSmaller = rank(unit) >= 0 && rank(unit) < rank(before.unit)
    const lacksUnit = !joined && (!before.unit || !unit)
    return isSmaller || lacksUnit ? termAt(cursor) : undefined
  })

const betweenNumberAndUnit = ["number", "and", "dozen", "manner", "system", "size"]

/** The unit that the number at the cursor has, found without reading the term: that could take exponential time. */
function unitAhead({ tokens, at }: Cursor): { unit: Unit; isPacked: boolean } | undefined {
  const isBetween = ({ is }: Token, index: number) => {
    const then = tokens[at + index + 1]
    return betweenNumberAndUnit.includes(is) || (is === "dash" && then?.is === "number" && isPart(then))
  }
  const found = tokens.slice(at).findIndex((token, index) => !isBetween(token, index))
  const [token, then] = found < 0 ? [] : tokens.slice(at + found)
  if (token?.is !== "unit") return undefined
  return { unit: token.unit, isPacked: token.unit.of !== "pieces" && isPieces(then) }
}

/** A word for something that is counted. */
export const isPieces = (token: Token | undefined) => token?.is === "unit" && token.unit.of === "pieces"

function termAt(cursor: Cursor): Term | undefined {
  const before = qualitiesAt(cursor, beforeNumber)
  const number = numberAt(cursor)
  if (!number) return undefined
  const { start, end } = number
  const term: Term = { unitAt: { start: end, end }, ...before, ...number }
  const each = eachAfter(cursor)
  if (each) return { each, ...term, start, end: Math.max(end, each.end) }
  Object.assign(term, qualitiesAt(cursor, afterNumber))
  term.end = Math.max(end, term.unitAt.end)
  const holds = attempt(cursor, () => (skip(cursor, "of") ? figureAt(cursor) : undefined))
  if (!holds) return timesAfter(cursor, term)
  skip(cursor, "each")
  return { each: holds, ...term, end: holds.end }
}

type Numeral = Span & Pick<Term, "value" | "numberAt" | "written" | "needsUnit" | "isDozens" | "dashed">

/** "1", "1/2", "1 1/2", "1-1/2", "two thirds", "one and a half", "2 dozen". */
function numberAt(cursor: Cursor): Numeral | undefined {
  const first = takeNumber(cursor)
  if (!first) return undefined
  const { value, written, start, end } = first
  const mixed = isWhole(first) ? attempt(cursor, () => mixedAfter(cursor, first)) : undefined
  const numberAt = { start, end }
  const number: Numeral = mixed ?? { value, written, needsUnit: isPart(first) || !written, numberAt, start, end }
  const dozen = next(cursor)
  if (dozen?.is !== "dozen") return number
  cursor.at++
  const at = spanOf([number, dozen])
  return { value: number.value.mul(12), needsUnit: false, isDozens: true, numberAt: at, ...at }
}

type NumberToken = Extract<Token, { is: "number" }>
const isWhole = ({ value, written }: NumberToken) => value.d === 1n && !written?.includes("/")
const isPart = ({ value, written }: NumberToken) => value.n < value.d && (!written || written.includes("/"))

function takeNumber(cursor: Cursor): NumberToken | undefined {
  const token = next(cursor)
  if (token?.is !== "number") return undefined
  cursor.at++
  return token
}

function mixedAfter(cursor: Cursor, whole: NumberToken): Numeral | undefined {
  const dashed = skip(cursor, "dash")
  const joined = dashed || skip(cursor, "and")
  const part = takeNumber(cursor)
  const isOne = part && isPart(part) && (!part.written || whole.written)
  if (!isOne || (dashed && !part.written)) return undefined
  const value = joined || part.written ? whole.value.add(part.value) : whole.value.mul(part.value)
  const numberAt = spanOf([whole, part])
  return { value, needsUnit: true, numberAt, ...numberAt, ...(dashed && { dashed }) }
}

/** What each of them holds, right after the number: "2 x 250 g", "2 8 oz packages", "1 (8 oz) package". */
const eachAfter = (cursor: Cursor): Figure | undefined =>
  attempt(cursor, () => {
    if (skip(cursor, "times") || (next(cursor)?.is === "number" && unitAhead(cursor)?.isPacked)) return figureAt(cursor)
    if (next(cursor)?.is !== "open") return undefined
    const bracket = cursor.tokens.findIndex(({ is }, at) => at > cursor.at && (is === "close" || is === "open"))
    if (cursor.tokens[bracket]?.is !== "close" || !isPieces(cursor.tokens[bracket + 1])) return undefined
    cursor.at++
    const figure = figureAt(cursor)
    if (cursor.at !== bracket) return undefined
    cursor.at += 2
    return figure
  })

/** "250 g x 2". */
function timesAfter(cursor: Cursor, term: Term): Term {
  const count = attempt(cursor, () => (term.unit && skip(cursor, "times") ? takeNumber(cursor) : undefined))
  if (!count) return term
  const numberAt = { start: count.start, end: count.end }
  const each = { terms: [term], start: term.start, end: term.end }
  const { value, written } = count
  return { value, written, needsUnit: false, numberAt, unitAt: numberAt, each, ...spanOf([term, numberAt]) }
}

const beforeNumber: Token["is"][] = ["manner", "system", "size"]
const afterNumber: Token["is"][] = [...beforeNumber, "unit", "by", "shell"]

function qualitiesAt(cursor: Cursor, allowed: Token["is"][]): Partial<Term> {
  const found: Partial<Term> = {}
  for (let token = next(cursor); token; token = next(cursor)) {
    if (!allowed.includes(token.is) || !add(found, token, next(cursor, 1))) break
    cursor.at++
  }
  return found
}

function add(found: Partial<Term>, token: Token, following: Token | undefined): boolean {
  if (token.is === "manner") found.manner = token.manner
  if (token.is === "system") found.system = token.system
  if (token.is === "size") sized(found, token.size, token)
  if (token.is === "by") found.by = token.by
  if (token.is === "shell") found.shell = { kind: token.shell, at: { start: token.start, end: token.end } }
  if (token.is !== "unit") return true
  if (token.text === "L" && [found.unit, following?.is === "unit" ? following.unit : undefined].some(isEgg)) {
    sized(found, "L", token)
    return true
  }
  return addUnit(found, token)
}

const sized = (found: Partial<Term>, size: string, { start, end }: Span) =>
  Object.assign(found, { size, sizeAt: { start, end } })

/** Eggs and their parts. */
export const isEgg = (unit: Unit | undefined) => ["egg", "yolk", "white"].some((name) => name === unit?.name)

function addUnit(found: Partial<Term>, { unit, start, end, said, system }: Extract<Token, { is: "unit" }>): boolean {
  if (found.unit && (found.unit.of === "pieces" || unit.of !== "pieces")) return false
  if (found.unit) found.packed = true
  else Object.assign(found, { unit, unitAt: { start, end }, said, ...(system && { system }) })
  return true
}
