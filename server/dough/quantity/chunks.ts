import { isNamed, qualifies } from "./ones.ts"
import { isStrength } from "./sift.ts"
import { isEgg } from "./term.ts"
import type { Token } from "./tokens.ts"

/** A stretch of tokens, from `start` up to but not including `end`. */
export type Chunk = { is: "amount" | "words" | "joint"; start: number; end: number }

/** The amounts of a line, the words between them and what joins them. */
export function chunksOf(tokens: Token[]): Chunk[] {
  const chunks: Chunk[] = []
  for (let start = 0; start < tokens.length; start = chunks.at(-1)!.end) {
    const amount = amountEnd(tokens, start)
    if (amount > start) chunks.push({ is: "amount", start, end: amount })
    else if (isJoint(tokens, start)) chunks.push({ is: "joint", start, end: start + 1 })
    else chunks.push({ is: "words", start, end: wordsEnd(tokens, start) })
  }
  return chunks
}

function wordsEnd(tokens: Token[], start: number) {
  let end = start + 1
  while (end < tokens.length && !isJoint(tokens, end) && amountEnd(tokens, end) === end && !isNote(tokens[end])) end++
  return end
}

const comma: Token = { is: "comma", start: 0, end: 0, text: "" }
const always = ["comma", "open", "close", "dash", "plus", "equals", "ratio"]
const beforeAmounts = ["and", "or", "to", "slash", "minus", "times"]

const joints = [...always, ...beforeAmounts, "manner", "size"]

/** "and" joins two amounts, but belongs to the name in "nuts and raisins". */
function isJoint(tokens: Token[], at: number) {
  const { is } = tokens[at]!
  return always.includes(is) || (beforeAmounts.includes(is) && amountEnd(tokens, at + 1) > at + 1)
}

/** Words that end the name: "at 30 °C", "for dusting", "to taste". */
export const isNote = (token: Token | undefined) => token?.is === "remark" || token?.is === "loose"

const leads = ["about", "atLeast", "upTo", "manner", "system", "size"]

/** Where the amount that starts here ends; where it starts, when none does. */
function amountEnd(tokens: Token[], start: number): number {
  let at = start
  while (isOneOf(tokens[at], leads)) at++
  if (!beginsAmount(tokens, at)) return start
  for (at++; at < tokens.length && belongs(tokens, start, at); at++);
  return joinedEnd(tokens, at) ?? at
}

const isOneOf = (token: Token | undefined, kinds: string[]) => token !== undefined && kinds.includes(token.is)
/** The token after what only describes: "large", "US", "heaped". */
const pastQualities = (tokens: Token[], at: number) => tokens.slice(at).find((token) => !qualifies(token))

function beginsAmount(tokens: Token[], at: number) {
  const [token, then, after] = tokens.slice(at, at + 3)
  if (token?.is === "a") return isOneOf(pastQualities(tokens, at + 1), ["unit", "number", "dozen"])
  if (token?.is === "unit") return isNamed(token.unit.name) && isOneOf(tokens[at - 1] ?? comma, joints)
  const isStrengthOf = then?.is === "unit" && then.unit.of === "percent" && isStrength(after?.text ?? "")
  return isOneOf(token, ["number", "dozen"]) && then?.is !== "degrees" && !isStrengthOf
}

/** Whether the token goes on with the amount that started at `start`. Eggs do not: they are the thing itself. */
function belongs(tokens: Token[], start: number, at: number): boolean {
  const [token, before, then] = [tokens[at]!, tokens[at - 1]!, tokens[at + 1]]
  switch (token.is) {
    case "number":
    case "a":
      return beginsAmount(tokens, at)
    case "unit":
      return !isEgg(token.unit)
    case "manner":
      return ["packed", "loose"].includes(token.manner) || isOneOf(then, ["unit", "number"])
    case "size":
      return !hasUnit(tokens.slice(start, at))
    case "system":
      return then?.is === "unit"
    case "of":
      return isOneOf(then, ["number", "a"])
    case "plus":
      return before.is === "number" && then?.is === "unit"
    default:
      return isOneOf(token, ["by", "shell", "each", "dozen", "hash", "orMore", "about"])
  }
}

/** An amount by weight, volume or percentage, not a bare number or a count. */
export const hasUnit = (tokens: Token[]) => tokens.some((token) => token.is === "unit" && token.unit.of !== "pieces")

/** The end of what is joined to an amount that ends here: "+ 1 tbsp", "(460 g)", "to 2 cups"; undefined when nothing is. */
function joinedEnd(tokens: Token[], at: number): number | undefined {
  const joint = tokens[at]
  const from = joint?.is === "comma" && isOneOf(tokens[at + 1], beforeAmounts) ? at + 2 : at + 1
  if (!isOneOf(joint, [...always, ...beforeAmounts]) || joint?.is === "close") return undefined
  const end = amountEnd(tokens, from)
  if (end === from || (joint?.is === "comma" && !hasUnit(tokens.slice(from, end)))) return undefined
  if (joint?.is !== "open") return end
  return tokens[end]?.is === "close" ? (joinedEnd(tokens, end + 1) ?? afterBracket(tokens, end + 1)) : undefined
}

/** "1 (8 oz) package". */
function afterBracket(tokens: Token[], at: number) {
  const token = tokens[at]
  return token?.is === "unit" && !isEgg(token.unit) ? at + 1 : at
}
