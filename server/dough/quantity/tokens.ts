import Fraction from "fraction.js"
import { type Lexeme, meaningOf } from "./lexicon.ts"
import { exactNumber, numberPattern } from "./numbers.ts"

/** A stretch of the tidied text. */
export type Span = { start: number; end: number }
export type Token = Lexeme & Span & { text: string }

/** The text in plain letters: "½" is " 1/2", and there is one kind of space, slash, dash, quote and bracket. */
export function plainly(text: string): string {
  if (/^[ -Z^-z|~]*$/.test(text)) return text
  return text
    .replace(/[¼-¾⅐-⅞↉]/g, " $&")
    .normalize("NFKC")
    .replace(/⁄/g, "/")
    .replace(/[\u2010-\u2015\u2212]/g, "-")
    .replace(/[[{]/g, "(")
    .replace(/[\]}]/g, ")")
    .replace(/[“”„«»]/g, '"')
    .replace(/\s/g, " ")
}

/** Plain letters, "8-oz" and "extra-large" as two words, and "egg(s)" as one; as long as it was. */
export const unhyphened = (plain: string) =>
  plain.replace(/\((e?s)\)/g, "$1  ").replace(/(\p{L}\.?|\d)-(?=\p{L})/gu, "$1 ")

/** The line as amounts are read from it. */
export const tidy = (text: string) =>
  unhyphened(plainly(text))
    .replace(/^[ "'‘]+|[ "'’]+$/g, "")
    .replace(/ +/g, " ")

// A letter with digits after it is part of a name, as in "T65", but not in "2x250 g".
const piece = new RegExp(
  String.raw`${numberPattern}|(?:(?![xX]\d)\p{L}[\p{L}\p{M}'’]*\d[\p{L}\d]*|\p{L}[\p{L}\p{M}'’]*)\.?|\.\.+|\S`,
  "gu",
)

/** The numbers, words and signs of a tidied text, each with what it means. `pieces` are words for one of the ingredient. */
export function tokensOf(text: string, pieces: string[] = []): Token[] {
  const found = text.match(piece) ?? []
  const words = found.map(wordIn)
  const tokens: Token[] = []
  let end = 0
  for (let at = 0; at < found.length; ) {
    const whole = found[at]!
    const isNumber = /^[.,]?\d/.test(whole)
    const meant = isNumber ? undefined : meaningOf(words, at)
    const start = text.indexOf(whole, end)
    for (const last = at + (meant?.length ?? 1); at < last; at++)
      end = text.indexOf(found[at]!, end) + found[at]!.length
    const lexeme = isNumber ? numberIn(whole) : (meant?.lexeme ?? unknown(whole, pieces))
    // spread last: V8 adds properties after a spread forty times slower
    tokens.push({ start, end, text: text.slice(start, end), ...lexeme })
  }
  return tokens
}

/** A word without the full stop of its abbreviation; any row of dots is a dash. */
const wordIn = (whole: string) =>
  whole.startsWith("..") ? ".." : /^\p{L}.*\.$/u.test(whole) ? whole.slice(0, -1) : whole

function numberIn(written: string): Lexeme {
  const value = exactNumber(written)
  return value ? { is: "number", value, written } : { is: "number", value: new Fraction(0), written, broken: true }
}

function unknown(text: string, pieces: string[]): Lexeme {
  const word = text.toLowerCase().replace(/\.$/, "")
  const name = pieces.find((one) => [one, `${one}s`, `${one}es`, one.replace(/y$/, "ies")].includes(word))
  if (name) return { is: "unit", unit: { of: "pieces", name } }
  return /^\p{L}/u.test(text) ? { is: "word" } : { is: "odd" }
}
