import type { Range } from "../amounts.ts"
import { findIngredient } from "../ingredients/catalogue.ts"
import { readQuantity } from "../quantity/read.ts"
import type { Figures, LineFigures } from "./formula.ts"
import { type Known, readLine } from "./lines.ts"
import type { WrittenFormula, WrittenLine } from "./written.ts"

/** An amount with its unit, grams or a share of all flour; `low === high` for a single one. */
export type Amount = Range & { unit: "g" | "share" }
/** An amount as typed, and the grams it was taken for; null is read from what was typed. */
export type Typed = { quantity: string; g: number | null }

/** What was typed as an amount of an ingredient, a percentage being of `flour`, g; undefined when it cannot be read. Never throws. */
export function amountOf({ quantity, g }: Typed, name: string, known: Known, flour?: Range): Amount | undefined {
  if (g !== null) return { unit: "g", low: g, high: g }
  const { measures, own } = known
  const read = readQuantity(quantity, { ingredient: findIngredient(name, own), name, measures })
  if (read.kind === "mass") return { unit: "g", ...read.g }
  if (read.kind !== "percent") return undefined
  const { low, high } = read.share
  return flour ? { unit: "g", low: low * flour.low, high: high * flour.high } : { unit: "share", low, high }
}

/** The amounts of lines together; undefined when one has none or their units differ. Never throws. */
export function amountIn(lines: WrittenLine[], known: Known): Amount | undefined {
  const amounts = lines.map((line) => {
    const { quantity } = readLine(line, known)
    if (quantity.kind === "mass") return { unit: "g" as const, ...quantity.g }
    return quantity.kind === "percent" ? { unit: "share" as const, ...quantity.share } : undefined
  })
  return amounts.reduce((sum, one) => sum && one && plus(sum, one))
}

function plus(one: Amount, other: Amount): Amount | undefined {
  return one.unit === other.unit ? { unit: one.unit, low: one.low + other.low, high: one.high + other.high } : undefined
}

/** What is left of an amount once another of the same unit is taken from it: "too much" when even the most of it is less. */
export function minus(from: Amount, taken: Amount): Amount | "too much" {
  const left = from.high - taken.low
  // the noise of binary sums makes nothing too much
  if (left < -1e-9 * from.high) return "too much"
  return { unit: from.unit, low: tidy(from.low - taken.high, from.high), high: tidy(left, from.high) }
}
const tidy = (value: number, beside: number) => (value < 1e-9 * beside ? 0 : value)

/** An amount as a baker writes it, to the last digit that counts: "37.5 g", "60–90 g", "2 %". */
export function written({ unit, low, high }: Amount): string {
  const [from, to] = [low, high].map((value) => plain(unit === "g" ? value : value * 100))
  return `${from === to ? from : `${from}–${to}`} ${unit === "g" ? "g" : "%"}`
}
/** Twelve digits, never an exponent, and not the three decimals that could be thousands. */
function plain(value: number) {
  const digits = value < 1e-6 ? "0" : String(Number(value.toPrecision(12)))
  return /\.\d{3}$/.test(digits) ? `${digits}0` : digits
}

/**
 * The formula with each percentage as the grams it asks for: who weighs by a formula weighs grams, and more flour later
 * does not make the salt more. `scaled` is false where it gives no masses; such lines stay as they are.
 */
export function inGrams(formula: WrittenFormula, figures: Figures): { formula: WrittenFormula; scaled: boolean } {
  let scaled = true
  const weighed = (line: WrittenLine, { quantity, g, counted }: LineFigures): WrittenLine => {
    if (quantity.kind !== "percent" || !counted) return line
    if (!g) scaled = false
    return g ? { ...line, readAs: written({ unit: "g", ...g }) } : line
  }
  const all = (lines: WrittenLine[], of: LineFigures[]) => lines.map((line, index) => weighed(line, of[index]!))
  const parts = formula.parts.map((part, index) => ({ ...part, lines: all(part.lines, figures.parts[index]!.lines) }))
  return { formula: { ...formula, parts, finishing: all(formula.finishing, figures.finishing) }, scaled }
}
