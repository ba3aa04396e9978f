import { withoutIdleBrackets } from "./brackets.ts"
import { withoutMarkers } from "./markers.ts"
import { withOnes } from "./ones.ts"
import { isOneOf, isTricky, type Kind, type Pass, type Remarks } from "./remarks.ts"
import type { Token } from "./tokens.ts"

/** Takes the remarks out of a line: left are the tokens of its amounts, and words that nobody has explained yet. */
export function sift(tokens: Token[]): { amounts: Token[]; words: Token[]; remarks: Remarks } {
  const remarks: Remarks = { notCounted: [], notes: [] }
  const left = passes.reduce<Token[]>((rest, [pass, ...looksFor]) => {
    const isNeeded = !looksFor.length || rest.some(({ is }) => looksFor.includes(is))
    return isNeeded ? pass(rest, remarks) : rest
  }, tokens.map(inContext))
  const amounts = withOnes(left.filter(({ is }) => is !== "word" && is !== "odd"))
  return { amounts, words: left.filter(({ is }) => is === "word" || is === "odd"), remarks }
}

/** "to glaze" is a remark, and "pour over" no lower end. */
function inContext(token: Token, at: number, all: Token[]): Token {
  if (token.is === "to" && isOneOf(all[at + 1], "word")) return { ...token, is: "remark" }
  return token.is === "atLeast" && isOneOf(all[at - 1], "word") ? { ...token, is: "word" } : token
}

const hasNumber = (tokens: Token[]) => tokens.some(({ is }) => is === "number")
const wordsOf = (tokens: Token[]) =>
  tokens
    .map(({ text }) => text)
    .join(" ")
    .replace(/ (?=[,.;)])|(?<=\() /g, "")
/** Where the stretch from `from` to the next comma, bracket or end of the line ends. */
function endOf(tokens: Token[], from: number) {
  const found = tokens.findIndex(({ is }, at) => at >= from && ["comma", "open", "close"].includes(is))
  return found < 0 ? tokens.length : found
}

/** "at 110-115 °F" is said of the water, and is no amount of it. */
const withoutTemperatures: Pass = (tokens, remarks) => {
  const at = tokens.findIndex(({ is }) => is === "degrees")
  if (at < 0) return tokens
  let from = at
  while (isOneOf(tokens[from - 1], "number", "dash", "to") && from > 0) from--
  remarks.notes.push(wordsOf(tokens.slice(from, at + 1)))
  const rest = [...tokens.slice(0, from), ...tokens.slice(at + 1)]
  if (!hasNumber(rest)) remarks.foreign = "a temperature"
  return withoutTemperatures(rest, remarks)
}

/** Words after a percentage that tell of what kind a thing is. */
export const isStrength = (word: string) =>
  /^(milk|fat|cream|butterfat|yogurt|yoghurt|cocoa|cacao|vinegar|acid|hydration|solids)$/i.test(word)

/** "1 cup 2% milk", "100 g levain (100 % hydration)": the percentage tells which milk or levain, not how much. */
const withoutStrengths: Pass = (tokens, remarks) => {
  const at = tokens.findIndex(
    (token, index) =>
      token.is === "unit" && token.unit.of === "percent" && isStrength(tokens[index + 1]?.text ?? "") && index > 0,
  )
  const others = [...tokens.slice(0, Math.max(at - 1, 0)), ...tokens.slice(at + 1)]
  if (at < 0 || tokens[at - 1]?.is !== "number") return tokens
  if (!hasNumber(others)) remarks.strength = wordsOf(tokens.slice(at - 1, at + 2))
  if (remarks.strength) return tokens
  remarks.notes.push(wordsOf(tokens.slice(at - 1, at + 2)))
  const rest = others.filter((token) => token !== tokens[at + 1] || token.is !== "foreign")
  return withoutStrengths(rest, remarks)
}

/** "plus extra for dusting", "and a little more". */
const withoutExtras: Pass = (tokens, remarks) => {
  const at = tokens.findIndex((token, index) => {
    if (!isOneOf(token, "plus", "and", "remark") || hasNumber(tokens.slice(index))) return false
    return tokens.slice(index + 1, index + 4).some((then) => isOneOf(then, "extra", "loose"))
  })
  if (at < 0) return tokens
  const end = tokens.findIndex((token, index) => index > at && token.is === "close")
  const extras = tokens.slice(at, end < 0 ? undefined : end)
  remarks.notCounted.push(wordsOf(extras))
  return [...tokens.slice(0, at), ...tokens.slice(at + extras.length)]
}

/** "half the flour", "1/3 of the water": a part of something whose amount stands elsewhere. */
const withoutShares: Pass = (tokens, remarks) => {
  const at = tokens.findIndex((token, index) => {
    const the = isOneOf(tokens[index + 1], "of") ? index + 2 : index + 1
    return token.is === "number" && /^the$/i.test(tokens[the]?.text ?? "") && isOneOf(tokens[the + 1], "word")
  })
  const part = tokens[at]
  if (!part) return tokens
  const end = endOf(tokens, at)
  remarks.partOf = { part, of: wordsOf(tokens.slice(at + 1, end)) }
  return [...tokens.slice(0, at + 1), ...tokens.slice(end)]
}

const unsaid = ["of", "the", "total", "all", "whole", "weight", "by", "on", "baker's", "bakers"]

/** "2 % of the total flour" is a baker's percentage; of anything else it is not. */
const withoutBase: Pass = (tokens, remarks) => {
  const percent = tokens.findIndex((token) => token.is === "unit" && token.unit.of === "percent")
  const from = tokens.findIndex(({ is, text }, at) => at > percent && (is === "of" || text.toLowerCase() === "on"))
  const between = tokens.slice(percent + 1, from)
  if (percent < 0 || from < 0 || !between.every((token) => isOneOf(token, "comma", "open", "filler"))) return tokens
  const length = tokens.slice(from + 1).findIndex((token) => isOneOf(token, "comma", "open", "close", "number", "or"))
  const end = length < 0 ? tokens.length : from + 1 + length
  const phrase = tokens.slice(from + 1, end)
  const base = phrase.map(({ text }) => text.toLowerCase()).filter((word) => !unsaid.includes(word))
  if (base.join(" ") !== "flour") remarks.base = wordsOf(phrase)
  return [...tokens.slice(0, percent + 1), ...between, ...tokens.slice(end)]
}

const saysOfAmount: Kind[] = ["size", "system", "manner", "by", "shell", "each", "about", "orMore", "upTo"]
const mayBeAside: Kind[] = [...saysOfAmount, "unit", "word", "filler", "loose", "extra", "of", "and", "a", "remark"]

/** What stands in brackets or after a comma and has no number is a note, unless it says how the amount is meant. */
const withoutAsides: Pass = (tokens, remarks) => {
  for (const [at, token] of tokens.entries()) {
    const starts = isOneOf(token, "comma", "open", "remark")
    if (!starts) continue
    const end = endOf(tokens, at + 1)
    const aside = tokens.slice(at + (token.is === "remark" ? 0 : 1), end)
    if (hasNumber(aside) || !aside.every(({ is }) => mayBeAside.includes(is)) || aside.some(isTricky)) continue
    const closes = token.is === "open" && tokens[end]?.is === "close"
    const kept = aside.filter((one) => saysOfAmount.includes(one.is) || one.is === "loose" || one.text === "L")
    const isNote = !kept.length && aside.some(({ is }) => is !== "filler")
    if (isNote) remarks.notes.push(wordsOf(aside))
    return withoutAsides([...tokens.slice(0, at), ...kept, ...tokens.slice(closes ? end + 1 : end)], remarks)
  }
  return tokens
}

/** What takes which remark out, in this order, and what kinds of token it looks for. */
const passes: [Pass, ...Kind[]][] = [
  [withoutTemperatures, "degrees"],
  [withoutStrengths, "unit"],
  [withoutIdleBrackets, "open", "close"],
  [withoutExtras, "extra", "loose"],
  [withoutShares, "filler"],
  [withoutBase, "of", "remark"],
  [withoutAsides, "comma", "open", "remark"],
  [withoutMarkers],
]
