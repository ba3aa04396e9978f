import Fraction from "fraction.js"
import type { Token } from "./tokens.ts"

/** Makes every "a", and every pinch and dozen without a number, a 1, and drops the small words that join nothing. */
export function withOnes(tokens: Token[]): Token[] {
  if (!tokens.some(needsCare)) return tokens
  const counted = tokens.flatMap((token, at) => (token.is === "a" ? oneOrNothing(token, tokens, at) : [token]))
  return counted
    .flatMap((token, at) => (isLone(token, counted, at) ? [one(token.start, token.start), token] : [token]))
    .filter((token, at, all) => !isIdle(token, all[at - 1], all[at + 1]))
}

const needsCare = (token: Token) =>
  ["a", "and", "of", "dozen"].includes(token.is) || (token.is === "unit" && isNamed(token.unit.name))

const one = (start: number, end: number): Token => ({ is: "number", value: new Fraction(1), start, end, text: "" })
const isNumber = (token: Token | undefined) => token?.is === "number" || token?.is === "dozen"
/** Words that only describe what is counted. */
export const qualifies = (token: Token | undefined) => ["size", "manner", "system"].some((kind) => kind === token?.is)

/** "a large egg" is 1; "half a cup", "a quarter of a cup" and "half a dozen" have their number. */
function oneOrNothing({ start, end }: Token, tokens: Token[], at: number): Token[] {
  const before = tokens[at - 1]?.is === "of" ? tokens[at - 2] : tokens[at - 1]
  const then = tokens.slice(at + 1).find((token) => !qualifies(token))
  return !isNumber(before) && (then?.is === "unit" || then?.is === "dozen") ? [one(start, end)] : []
}

/** Amounts that are named without a number: "pinch of salt", "handful of seeds". */
const named =
  "pinch dash handful fistful knob drizzle splash glug sprinkle sprinkling dusting dollop rest remainder".split(" ")

/** Whether that unit needs no number. */
export const isNamed = (unit: string) => named.includes(unit)

function isLone(token: Token, tokens: Token[], at: number) {
  if (token.is !== "dozen" && !(token.is === "unit" && isNamed(token.unit.name))) return false
  const before = tokens.slice(0, at).findLast((other) => !qualifies(other))
  return !isNumber(before)
}

function isIdle(token: Token, before: Token | undefined, after: Token | undefined) {
  if (token.is === "and") return after?.is !== "number" || !before
  if (token.is === "of") return !(before?.is === "unit" && before.unit.of === "pieces" && after?.is === "number")
  return false
}
