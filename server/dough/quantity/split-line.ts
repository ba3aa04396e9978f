import { findIngredient } from "../ingredients/catalogue.ts"
import { changesNothing } from "../ingredients/words.ts"
import { type Chunk, chunksOf, hasUnit, isNote } from "./chunks.ts"
import { countedAs } from "./pieces.ts"
import { isEgg } from "./term.ts"
import { plainly, type Token, tokensOf, unhyphened } from "./tokens.ts"
import { mostCounted } from "./weigh.ts"
import { wordsIn } from "./weighed.ts"

// Longer than any line of a formula: it is left whole, as a note. Our own limit.
const longest = 300

/** A line in the three fields of a form. */
export type SplitLine = { quantity: string; ingredient: string; note: string }

/**
 * Takes a pasted line apart: "1 1/2 cups (190 g) bread flour, sifted" or "Bread flour: 500 g". Each piece stays as it was
 * typed. A second amount goes with the first; what is neither amount nor ingredient is a note. Never throws.
 */
export function splitLine(text: string): SplitLine {
  const line = withoutBullet(text.trim())
  if (line.length > longest) return { quantity: "", ingredient: "", note: line }
  const { plain, from } = letterByLetter(line)
  const tokens = tokensOf(unhyphened(plain))
  const typed = (start: number, end: number) =>
    start < end ? line.slice(from[tokens[start]!.start], from[tokens[end - 1]!.end]).trim() : ""
  return fieldsOf(tokens, typed)
}

const withoutBullet = (line: string) => line.replace(/^(?:[-–—•·*▢□☐○●◦‣▪]\s+|\d{1,2}[.)]\s+(?=[\p{L}\d½¼¾⅓⅔]))+/u, "")

/** The line in plain letters, and where in the line each of them came from. */
function letterByLetter(line: string) {
  const letters = [...line.matchAll(/./gsu)].map(({ 0: letter, index }) => ({ plain: plainly(letter), index }))
  const from = letters.flatMap(({ plain, index }) => Array.from({ length: plain.length }, () => index))
  return { plain: letters.map(({ plain }) => plain).join(""), from: [...from, line.length] }
}

/** A stretch of tokens, from `start` up to but not including `end`. */
type Stretch = { start: number; end: number }
const nothing: Stretch = { start: 0, end: 0 }

function fieldsOf(tokens: Token[], typed: (start: number, end: number) => string): SplitLine {
  const chunks = chunksOf(tokens)
  const either = eitherOf(chunks, tokens)
  const main = either?.whole ?? mainAmount(chunks, tokens) ?? nothing
  const name = either?.name ?? nameBeside(main, chunks, tokens)
  const seconds = either ? [] : secondAmounts(chunks, tokens).filter((one) => !meets(one, main) && !meets(one, name))
  const text = ({ start, end }: Stretch) => typed(start, end)
  const ingredient = text(name)
  const isFew = isFewOf(main, name, tokens, ingredient)
  const first = isFew ? typed(main.start, Math.max(main.end, name.end)) : text(main)
  const quantity = [first, ...seconds.map(text)].join(" ").trim().replaceAll(" ,", ",")
  const notes = between(either ? [main] : [main, name, ...seconds], tokens.length).map(text)
  return { quantity, ingredient, note: notes.map(withoutEdges).filter(Boolean).join(", ") }
}

const meets = (one: Stretch, other: Stretch) => one.start < other.end && other.start < one.end

/** What is left of the line. */
function between(taken: Stretch[], length: number): Stretch[] {
  const inOrder = taken.filter(({ start, end }) => end > start).sort((one, other) => one.start - other.start)
  const starts = [0, ...inOrder.map(({ end }) => end)]
  return starts.map((start, index) => ({ start, end: inOrder[index]?.start ?? length }))
}

const withoutEdges = (note: string) => {
  const trimmed = note.replace(/^[\s,;:.=([{–—-]+|[\s,;:=([{–—-]+$/g, "")
  if (/^of$/i.test(trimmed)) return ""
  return /[([{]/.test(trimmed) ? trimmed : trimmed.replace(/[)\]}]+/g, "").trim()
}

/** The first amount, or words such as "to taste"; "00 flour 500 g" has its amount at the end. */
function mainAmount(chunks: Chunk[], tokens: Token[]): Stretch | undefined {
  const amounts = chunks.filter(({ is }) => is === "amount")
  const [first, second] = amounts
  const has = (chunk: Chunk | undefined) => chunk && hasUnit(tokens.slice(chunk.start, chunk.end))
  const isNumbered = chunks[1]?.is === "words" && chunks[2] === second && first === chunks[0]
  const named = chunks[0]?.is === "words" || isNumbered
  const main = (named && !has(first) ? amounts.find(has) : undefined) ?? first
  if (!main) return chunks.find(({ start }) => tokens[start]?.is === "loose")
  return { start: main.start, end: ofWhat(tokens, main) }
}

/** "2 %, of the whole dough": what a percentage is of goes with it. */
function ofWhat(tokens: Token[], { start, end }: Chunk) {
  const isPercent = tokens.slice(start, end).some((token) => token.is === "unit" && token.unit.of === "percent")
  const of = tokens[end]?.is === "comma" ? end + 1 : end
  if (!isPercent || tokens[of]?.is !== "of") return end
  const next = tokens.findIndex(({ is }, at) => at > of && ["comma", "open", "close"].includes(is))
  return next < 0 ? tokens.length : next
}

/** All that stands before the amount or, when nothing does, the first words after it. */
function nameBeside(main: Stretch, chunks: Chunk[], tokens: Token[]): Stretch {
  const ends = chunks.find(({ is, start }) => is === "joint" || (start > 0 && isNote(tokens[start])))
  const before = Math.min(main.end > 0 ? main.start : tokens.length, ends?.start ?? tokens.length)
  if (before > 0) return { start: 0, end: before }
  const after = chunks.find(({ is, start }) => is === "words" && start >= main.end && !isNote(tokens[start]))
  if (!after) return nothing
  return { start: after.start + (tokens[after.start]?.is === "of" ? 1 : 0), end: after.end }
}

/** Other amounts by weight, volume or percentage, with what joins them and what is said of them. */
function secondAmounts(chunks: Chunk[], tokens: Token[]): Stretch[] {
  return chunks.flatMap((chunk, index) => {
    if (chunk.is !== "amount" || !hasUnit(tokens.slice(chunk.start, chunk.end))) return []
    const joints = chunks.slice(0, index).reverse()
    const joined = joints.findIndex(({ is }) => is !== "joint")
    const first = chunks[index - (joined < 0 ? index : joined)] ?? chunk
    const words = chunks[index + 1]?.is === "words" ? 1 : 0
    const last = chunks[index + 1 + words]
    const closes = last && tokens[last.start]?.is === "close" && tokens[first.start]?.is === "open"
    return [{ start: first.start, end: closes ? last.end : (chunks[index + words]?.end ?? chunk.end) }]
  })
}

/** "25 g fresh or 8 g instant yeast", "1 egg + 1 yolk", "1 lb flour to 10 fl oz water": what is between belongs to it. */
function eitherOf(chunks: Chunk[], tokens: Token[]): { whole: Stretch; name: Stretch } | undefined {
  const signOf = (chunk: Chunk | undefined) => (chunk?.is === "joint" ? tokens[chunk.start]!.is : "word")
  const first = chunks.findIndex(({ is }) => is === "amount")
  const words = first < 0 ? undefined : chunks.slice(first).find(({ is }) => is === "words")
  const isEggs = words && tokens.slice(words.start, words.end).some((token) => token.is === "unit" && isEgg(token.unit))
  const joins = ["or", "to", "ratio", ...(isEggs ? ["plus", "and", "minus"] : [])]
  const at = chunks.findLastIndex(({ is }, index) => is === "amount" && joins.includes(signOf(chunks[index - 1])))
  if (!words || at <= first || chunks[at]!.start < words.start) return undefined
  const last = chunks[at + 1]?.is === "words" ? chunks[at + 1] : undefined
  const closes = signOf(chunks[last ? at + 2 : at + 1]) === "close"
  const whole = { start: chunks[first]!.start, end: (last?.end ?? chunks[at]!.end) + (closes ? 1 : 0) }
  if (["to", "ratio"].includes(signOf(chunks[at - 1]))) return { whole, name: nothing }
  const isKind = tokens
    .slice(words.start, words.end)
    .every(({ text }) => kinds.test(text) || changesNothing(text.toLowerCase()))
  return { whole, name: last && isKind ? { start: last.end - 1, end: last.end } : words }
}

const kinds = /^(instant|dry|dried|compressed|osmotolerant)$/i

/** "3 carrots", "40minSalt": what may be no grams keeps its word, and is asked about. */
function isFewOf(main: Stretch, name: Stretch, tokens: Token[], ingredient: string) {
  const [number, ...others] = tokens.slice(main.start, main.end)
  if (number?.is !== "number" || others.length || !ingredient) return false
  const isGlued = tokens[name.start]?.start === number.end
  if (!isGlued && number.value.compare(mostCounted) > 0) return false
  return !countedAs(wordsIn(ingredient), findIngredient(ingredient))
}
