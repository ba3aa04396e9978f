import { attempt, type Cursor, next, skip, spanOf } from "./cursor.ts"
import { type Figure, figureAt, isPieces, type Term } from "./term.ts"
import type { Span, Token } from "./tokens.ts"

/** "60–90 g", or a single figure. */
export type Stretch = Span & { low: Figure; high?: Figure }
export type Part = { sign: "plus" | "minus" | "and"; stretch: Stretch }
/** "804 g + 100 g", or a single stretch. */
export type Sum = Span & { parts: Part[]; each?: true }
/** One amount, perhaps told in two ways: "375 g / 13 oz". */
export type Pair = Span & { sums: Sum[] }
/** Usually one pair; "1 cup (120 g) plus 2 tbsp (15 g)" has two. */
export type Total = Span & { pairs: { sign: Part["sign"]; pair: Pair }[] }

/** The alternatives of a line, usually one; undefined when the tokens do not make an amount. */
export function parse(tokens: Token[]): Total[] | undefined {
  const cursor = { tokens, at: 0 }
  const totals: Total[] = []
  do {
    const total = totalAt(cursor)
    if (!total) return undefined
    totals.push(total)
    if (next(cursor, 1)?.is === "or") skip(cursor, "comma", "slash")
  } while (skip(cursor, "or"))
  return cursor.at === tokens.length ? totals : undefined
}

function totalAt(cursor: Cursor): Total | undefined {
  const pairs: Total["pairs"] = []
  let sign: Part["sign"] | undefined = "plus"
  while (sign) {
    const pair = pairAt(cursor)
    if (!pair) return undefined
    pairs.push({ sign, pair })
    sign = signAt(cursor)
  }
  return { pairs, ...spanOf(pairs.map(({ pair }) => pair)) }
}

function signAt(cursor: Cursor): Part["sign"] | undefined {
  const sign = next(cursor)?.is
  if (sign !== "plus" && sign !== "minus" && sign !== "and") return undefined
  cursor.at++
  return sign
}

function pairAt(cursor: Cursor): Pair | undefined {
  const from = cursor.at
  const first = sumAt(cursor)
  if (!first) return undefined
  const sums = [first]
  for (let others = partnersAt(cursor); others; others = partnersAt(cursor)) sums.push(...others)
  // from token to token, so that a closing bracket belongs to it
  return { sums: shareOut(sums.map((sum) => lendToParts(sum, first))), ...spanOf(cursor.tokens.slice(from, cursor.at)) }
}

/** The same amount in other words: "/ 13 oz", "(9 oz/255 g)". */
const partnersAt = (cursor: Cursor): Sum[] | undefined =>
  attempt(cursor, () => {
    if (skip(cursor, "open")) return inBrackets(cursor)
    skip(cursor, "slash", "equals", "comma")
    const sum = sumAt(cursor)
    return sum && [sum]
  })

function inBrackets(cursor: Cursor): Sum[] | undefined {
  const sums: Sum[] = []
  do {
    skip(cursor, "equals")
    const sum = sumAt(cursor)
    if (!sum) return undefined
    sums.push(sum)
  } while (skip(cursor, "slash", "equals", "comma"))
  if (!skip(cursor, "close")) return undefined
  // "1/4 oz (7 g) packet"
  if (isPieces(next(cursor))) cursor.at++
  return sums
}

/** "3 eggs (2 now, 1 later)": bare numbers that add up are of what was counted. */
function lendToParts(sum: Sum, counted: Sum): Sum {
  const figure = onlyFigure(counted)
  if (sum === counted || sum.parts.length < 2 || figure?.terms[0]?.unit?.of !== "pieces") return sum
  const parts = sum.parts.map(({ sign, stretch }) => ({
    sign,
    stretch: { ...stretch, low: lend(stretch.low, figure) },
  }))
  return { ...sum, parts }
}

/** "2 cans (400 g each)": what one of them holds is no second way to tell the amount. */
function shareOut([counted, told, ...rest]: Sum[]): Sum[] {
  const holds = told?.each && onlyFigure(told)
  const term = holds && counted && onlyFigure(counted)?.terms[0]
  if (!counted || !told) return counted ? [counted] : []
  if (!term || !holds || (term.unit && term.unit.of !== "pieces")) return [counted, told, ...rest]
  const span = spanOf([counted, told])
  const low = { terms: [{ ...term, each: holds, ...span }], ...span }
  return [{ parts: [{ sign: "plus", stretch: { low, ...span } }], ...span }, ...rest]
}

/** The figure of a sum that has neither parts nor ends nor terms. */
function onlyFigure({ parts: [only, ...others] }: Sum): Figure | undefined {
  return others.length || only?.stretch.high || only?.stretch.low.terms.length !== 1 ? undefined : only.stretch.low
}

function sumAt(cursor: Cursor): Sum | undefined {
  const first = stretchAt(cursor)
  if (!first) return undefined
  const parts: Part[] = [{ sign: "plus", stretch: first }]
  for (let part = partAt(cursor); part; part = partAt(cursor)) parts.push(part)
  const each = skip(cursor, "each")
  return { parts: lendAlong(parts), ...spanOf(parts.map(({ stretch }) => stretch)), ...(each && { each }) }
}

const partAt = (cursor: Cursor): Part | undefined =>
  attempt(cursor, () => {
    skip(cursor, "comma")
    const sign = signAt(cursor)
    const stretch = sign && stretchAt(cursor)
    return stretch && { sign, stretch }
  })

function stretchAt(cursor: Cursor): Stretch | undefined {
  const low = addedUpAt(cursor) ?? figureAt(cursor)
  if (!low) return undefined
  const high =
    attempt(cursor, () => (skip(cursor, "to", "dash") ? figureAt(cursor) : undefined)) ?? orAt(cursor, low.terms)
  if (!high) return { low, start: low.start, end: low.end }
  return { low: lend(low, high), high: lend(high, low), start: low.start, end: high.end }
}

/** In "1 cup + 2 tbsp to 1 1/2 cups" the range begins with what is added up. */
const addedUpAt = (cursor: Cursor): Figure | undefined =>
  attempt(cursor, () => {
    if (!cursor.tokens.some(({ is }) => is === "plus")) return undefined
    const figure = figureAt(cursor, ["plus"])
    const isRange = next(cursor)?.is === "to" || next(cursor)?.is === "dash"
    return figure && figure.terms.length > 1 && isRange ? figure : undefined
  })

/** "1 or 2 eggs" is a range; "25 g or 8 g" is not. */
const orAt = (cursor: Cursor, [low]: Term[]): Figure | undefined =>
  attempt(cursor, () => {
    if (low?.unit || low?.each || !skip(cursor, "or")) return undefined
    const high = figureAt(cursor)
    return high?.terms.length === 1 && high.terms[0]?.unit ? high : undefined
  })

/** "60–90 g": a lone number without a unit takes the other end's, and whatever comes with it. */
function lend(figure: Figure, lender: Figure): Figure {
  const [only, ...more] = figure.terms
  const [from, ...others] = lender.terms
  if (!only || !from || more.length || others.length || only.unit || only.each) return figure
  if (!from.unit && !from.each && from.start < only.start) return figure
  const { value, numberAt, written, needsUnit, dashed, start, end } = only
  return { ...figure, terms: [{ ...from, value, numberAt, written, needsUnit, dashed, start, end }] }
}

/** "1/4 + 1/3 cup", "a cup and a half": what has no unit takes the next one's, or else the last one's. */
function lendAlong(parts: Part[]): Part[] {
  const lenders = parts.map(({ stretch }) => stretch.low).filter(({ terms }) => terms[0]?.unit)
  return parts.map(({ sign, stretch }) => {
    const lender = lenders.find(({ start }) => start > stretch.start) ?? lenders.at(-1)
    return { sign, stretch: lender && !stretch.high ? { ...stretch, low: lend(stretch.low, lender) } : stretch }
  })
}
