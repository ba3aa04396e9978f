import Fraction from "fraction.js"
import type { Token } from "./tokens.ts"

/** Makes every "a" and every pinch without a number a 1, and drops the small words that join nothing. */
export function withOnes(tokens: Token[]): Token[] {
  const counted = tokens.flatMap((token, at) => (token.is === "a" ? oneOrNothing(token, tokens, at) : [token]))
  return counted
    .flatMap((token, at) => (isLonePinch(token, counted, at) ? [one(token.start, token.start), token] : [token]))
    .filter((token, at, all) => !isIdle(token, all[at - 1], all[at + 1]))
}

const one = (start: number, end: number): Token => ({ is: "number", value: new Fraction(1), start, end, text: "" })
const isNumber = (token: Token | undefined) => token?.is === "number" || token?.is === "dozen"
/** Words that only describe what is counted. */
export const qualifies = (token: Token | undefined) => ["size", "manner", "system"].some((kind) => kind === token?.is)

/** "a large egg" is 1; "half a cup" and "a dozen" have their number. */
function oneOrNothing({ start, end }: Token, tokens: Token[], at: number): Token[] {
  const then = tokens.slice(at + 1).find((token) => !qualifies(token))
  if (then?.is === "dozen") return [one(start, end)]
  return isNumber(then) || isNumber(tokens[at - 1]) || then?.is !== "unit" ? [] : [one(start, end)]
}

/** Amounts that are named without a number: "pinch of salt", "handful of seeds". */
const named =
  "pinch dash handful fistful knob drizzle splash glug sprinkle sprinkling dusting dollop rest remainder".split(" ")

export const isNamed = (unit: string) => named.includes(unit)

function isLonePinch(token: Token, tokens: Token[], at: number) {
  if (token.is !== "unit" || !isNamed(token.unit.name)) return false
  const before = tokens.slice(0, at).findLast((other) => !qualifies(other))
  return !isNumber(before)
}

function isIdle(token: Token, before: Token | undefined, after: Token | undefined) {
  if (token.is === "and") return after?.is !== "number" || !before
  if (token.is === "of") return !(before?.is === "unit" && before.unit.of === "pieces" && after?.is === "number")
  return false
}
