import { changesNothing } from "../ingredients/words.ts"
import { isOneOf, isTricky, type Remarks } from "./remarks.ts"
import { isEgg } from "./term.ts"
import type { Token } from "./tokens.ts"
import { mostCounted } from "./weigh.ts"
import { type Asked, areIn, asks, edit, type Kitchen, wordsIn } from "./weighed.ts"

/** What the words of a line name, where the line itself has to say it. */
export const nameIn = (words: Token[]) =>
  words
    .filter(({ text, is }) => is === "word" && !changesNothing(text.toLowerCase()))
    .map(({ text }) => text)
    .join(" ")

/** "1 lb flour to 10 fl oz water" is a ratio, and no amount of either. */
export function twoThings(words: Token[], amounts: Token[]): Asked | undefined {
  const named = new Map<number, string[]>()
  for (const word of words) {
    const after = amounts.filter(({ is, start }) => is === "number" && start < word.start).length
    if (!changesNothing(word.text.toLowerCase())) named.set(after, [...(named.get(after) ?? []), word.text])
  }
  const [first = [], ...others] = named.values()
  const isOther = others.some((other) => !other.some((word) => areIn(word, first.flatMap(wordsIn))))
  return isOther ? asks("That names more than one thing. Give each a line of its own, with its own amount.") : undefined
}

/**
 * A question about words that are neither part of an amount nor of the ingredient's name, or that change the amount in a
 * way only the baker knows: "per loaf", "twice". Alternatives may be described: "25 g fresh or 8 g instant".
 */
export function strangeWords(words: Token[], kitchen: Kitchen, mayDescribe: boolean): Asked | undefined {
  const telling = words.filter((word) => isTricky(word) || !changesNothing(word.text.toLowerCase()))
  const strange = telling.filter(
    (word) => isTricky(word) || isBroken(word, kitchen) || !areIn(word.text, kitchen.words),
  )
  return mayDescribe && !strange.some(isTricky) ? undefined : askAbout(strange)
}

/** It stands right after a digit, as in "1e5 g". */
const isBroken = ({ start }: Token, { text }: Kitchen) => /\d/.test(text.charAt(start - 1))

function askAbout(strange: Token[]): Asked | undefined {
  if (!strange.length) return undefined
  const phrase = strange.map(({ text }) => `“${text}”`).join(", ")
  const without = { label: `without ${phrase}`, edits: strange.map((word) => edit(word, " ")) }
  return asks(`What does ${phrase} mean for the amount? Put remarks into the note.`, [without])
}

/** "3 carrots": a few of something are hardly grams, but what one weighs is not known; nor is the unit of "40min". */
export function uncounted(words: Token[], amounts: Token[], kitchen: Kitchen): Asked | undefined {
  // "3 eggs (2 now, 1 later)" counts eggs, whatever they are called
  const isCounted = kitchen.counted || amounts.some((token) => token.is === "unit" && isEgg(token.unit))
  const number = isCounted ? undefined : amounts.find((token, at) => isFew(token, amounts[at + 1], words, kitchen))
  if (!number) return undefined
  const asGrams = { label: "grams", edits: [edit({ start: number.end, end: number.end }, " g ")] }
  return asks("Is that a count, grams or something else? Give the amount in grams.", [asGrams])
}

const hasMore: Token["is"][] = ["unit", "number", "size", "manner", "system", "dozen"]

/** A small number, or any that a word is glued to, with no unit of its own. */
function isFew(token: Token, then: Token | undefined, words: Token[], { text }: Kitchen) {
  if (token.is !== "number" || isOneOf(then, ...hasMore)) return false
  const word = words.find(({ start }) => start >= token.end && text.slice(token.end, start).trim() === "")
  return word !== undefined && (word.start === token.end || token.value.compare(mostCounted) <= 0)
}

/** What is said of the remarks that came with an amount that could be read. */
export function remarksSaid({ notes, notCounted, loose }: Remarks, { words }: Kitchen): string[] {
  const matters = (note: string) =>
    /\d/.test(note) || wordsIn(note).some((word) => !changesNothing(word) && !areIn(word, words))
  return [
    ...notCounted.map((phrase) => `“${phrase}” is not counted.`),
    ...notes.filter(matters).map((note) => `“${note}” is taken as a note.`),
    ...(loose ? [`“${loose.text}” leaves the amount open; the figure counts.`] : []),
  ]
}
