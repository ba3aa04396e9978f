import type { Ingredient } from "../ingredients/ingredient.ts"
import { showRange, showShare } from "../units.ts"
import { chooseOne } from "./alternatives.ts"
import { parse, type Total } from "./grammar.ts"
import { objectTo } from "./objections.ts"
import { countedAs } from "./pieces.ts"
import type { Choice, Measures, Quantity } from "./reading.ts"
import { isTricky } from "./remarks.ts"
import { sift } from "./sift.ts"
import { type Token, tidy, tokensOf } from "./tokens.ts"
import {
  type Asked,
  asks,
  type Draft,
  type Kitchen,
  type Reading,
  rewritten,
  showG,
  type Weighed,
  wordsIn,
} from "./weighed.ts"
import { nameIn, remarksSaid, strangeWords, twoThings, uncounted } from "./words.ts"

/** What is known of the line an amount stands on. */
export type About = { ingredient?: Ingredient; name?: string; measures?: Measures }

// Longer than any amount with its remarks. Our own limit.
const longest = 120

/**
 * Reads an amount as a baker writes it, of something known as an `ingredient` or only by `name`, in somebody's `measures`
 * (US customary unless given). What the grams rest on is said in `assumptions`; what cannot be read, or could be meant in
 * two ways, comes back as a question. A choice is read by passing its `readAs` in place of the text. Never throws.
 */
export function readQuantity(text: string, { ingredient, name = "", measures = "us" }: About = {}): Quantity {
  if (text.trim() === "") return { kind: "blank" }
  if (text.trim().length > longest) return tooLong
  const kitchen = named({ text: tidy(text), ingredient, name, measures, words: [] }, name)
  const reading = interpret(kitchen)
  const choices = choicesOf(reading.drafts, kitchen)
  return reading.is === "asks" ? { kind: "asks", question: reading.question, choices } : inNumbers(reading, choices)
}

function named(kitchen: Kitchen, name: string): Kitchen {
  const words = wordsIn(`${name} ${kitchen.ingredient?.name ?? ""}`)
  return { ...kitchen, name, words, counted: countedAs(words, kitchen.ingredient) }
}

const tooLong: Quantity = {
  kind: "asks",
  question: "That is too long for an amount; put remarks into the note.",
  choices: [],
}

function inNumbers({ is, low, high, said, ...rest }: Weighed, choices: Choice[]): Quantity {
  const range = { low: low.valueOf(), high: high.valueOf() }
  const { about, openEnded, printed } = rest
  const more = {
    assumptions: said,
    choices,
    ...(about && { about }),
    ...(openEnded && { openEnded }),
    ...(printed && { printed: { low: printed.low.valueOf(), high: printed.high.valueOf() } }),
  }
  return is === "mass" ? { kind: "mass", g: range, ...more } : { kind: "percent", share: range, ...more }
}

/** The reading of a line whose choices have not been tried yet. */
function interpret(kitchen: Kitchen): Reading {
  const pieces = kitchen.ingredient?.portions.map(({ unit }) => unit) ?? []
  const { amounts, words, remarks } = sift(tokensOf(kitchen.text, pieces))
  const objection = objectTo(amounts, remarks, kitchen)
  if (objection) return objection
  const totals = parse(amounts)
  if (!totals) return asks(amounts.filter(({ is }) => is === "dash").length > 1 ? oneRange : notAnAmount)
  const about = kitchen.words.length || !words.length ? kitchen : named(kitchen, nameIn(words))
  const reading = doubtOf(words, amounts, totals, about) ?? chooseOne(totals, words, about)
  if (reading.is === "asks") return reading
  return withinReason({
    ...reading,
    said: [...reading.said, ...remarksSaid(remarks, about)],
    ...((remarks.about || remarks.loose || reading.about) && { about: true }),
    ...(remarks.openEnded && { openEnded: true }),
  })
}

function doubtOf(words: Token[], amounts: Token[], totals: Total[], kitchen: Kitchen): Asked | undefined {
  if (!words.length) return undefined
  if (totals.length > 1 || words.some(isTricky)) return strangeWords(words, kitchen, totals.length > 1)
  return uncounted(words, amounts, kitchen) ?? twoThings(words, amounts) ?? strangeWords(words, kitchen, false)
}

const oneRange = "Give one amount, or one range such as 60–90 g."
const notAnAmount = "This cannot be read as an amount. Write it like 250 g, 1 1/2 cups, 2 eggs or 2 %."

// Beyond these a slip of unit is likelier than a real formula. Our own limits, no published source.
const mostG = 10_000_000
const mostShare = 10

function withinReason(reading: Weighed): Reading {
  if (reading.is === "mass" && reading.high.compare(mostG) > 0)
    return asks("That is more than ten tonnes; check the unit.")
  if (reading.is === "percent" && reading.high.compare(mostShare) > 0)
    return asks("That is more than 1000 % of the flour; check it.")
  return reading
}

const mostChoices = 6

/** The drafts that read without a question; one that still asks is followed into its own. */
function choicesOf(drafts: Draft[], kitchen: Kitchen, deeper = 2): Choice[] {
  const choices = new Map<string, Choice>()
  for (const draft of drafts) {
    if (choices.size >= mostChoices) break
    for (const choice of choicesFrom(draft, kitchen, deeper)) choices.set(choice.readAs, choice)
  }
  return [...choices.values()].slice(0, mostChoices)
}

function choicesFrom(draft: Draft, kitchen: Kitchen, deeper: number): Choice[] {
  const readAs = tidy(rewritten(kitchen.text, draft))
  if (readAs === kitchen.text || readAs.length > longest) return []
  const reading = interpret({ ...kitchen, text: readAs })
  if (reading.is !== "asks") return [{ readAs, label: `${draft.label}: ${shown(reading)}` }]
  return deeper ? choicesOf(reading.drafts, { ...kitchen, text: readAs }, deeper - 1) : []
}

const shown = ({ is, low, high }: Weighed) =>
  is === "mass" ? showG(low, high) : showRange({ low: low.valueOf(), high: high.valueOf() }, showShare)
