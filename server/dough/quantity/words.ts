import { changesNothing, wordsOf } from "../ingredients/words.ts"
import { loneTerm } from "./combine.ts"
import type { Pair } from "./grammar.ts"
import { countedAs } from "./pieces.ts"
import type { Remarks } from "./sift.ts"
import type { Token } from "./tokens.ts"
import { mostCounted } from "./weigh.ts"
import { type Asked, asks, edit, type Kitchen, thingOf } from "./weighed.ts"

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
    named.set(after, [...(named.get(after) ?? []), ...wordsOf(word.text).filter((one) => !changesNothing(one))])
  }
  const [first, ...others] = [...named.values()].filter(({ length }) => length)
  const isOther = others.some((other) => !other.some((word) => first?.includes(word)))
  return isOther ? asks("That names more than one thing. Give each a line of its own, with its own amount.") : undefined
}

/** A question about words that change an amount in a way that only the baker knows: "each", "per loaf", "used". */
export const trickyWords = (words: Token[]) => askAbout(words.filter(isTricky))

const isTricky = (word: Token) => word.is === "odd" || (word.is === "word" && word.tricky === true)

/** A question about words that are neither part of an amount nor of the ingredient's name. */
export function strangeWords(words: Token[], kitchen: Kitchen): Asked | undefined {
  const known = wordsOf(`${thingOf(kitchen)} ${kitchen.ingredient?.name ?? ""}`)
  return askAbout(
    words.filter(({ text }) => {
      return !changesNothing(text.toLowerCase()) && !wordsOf(text).every((word) => known.includes(word))
    }),
  )
}

function askAbout(strange: Token[]): Asked | undefined {
  if (!strange.length) return undefined
  const phrase = strange.map(({ text }) => `"${text}"`).join(", ")
  const without = { label: `without ${phrase}`, edits: strange.map((word) => edit(word, " ")) }
  return asks(`What does ${phrase} mean for the amount? Put remarks into the note.`, [without])
}

/** "3 carrots": a few of something are hardly grams, but what one weighs is not known; nor is the unit of "40min". */
export function uncounted([pair]: Pair[], words: Token[], kitchen: Kitchen): Asked | undefined {
  const [sum, ...others] = pair?.sums ?? []
  const term = sum && !others.length ? loneTerm(sum) : undefined
  const word = term && words.find(({ start }) => start >= term.end && kitchen.text.slice(term.end, start).trim() === "")
  if (!term || !word || term.unit || term.each || countedAs(kitchen)) return undefined
  const isGlued = word.start === term.end
  if (!isGlued && term.value.compare(mostCounted) > 0) return undefined
  const asGrams = { label: "grams", edits: [edit(term.unitAt, " g ")] }
  return asks(`Is that ${term.value.toFraction(true)} pieces, grams or something else? Give the amount in grams.`, [
    asGrams,
  ])
}

/** What is said of the remarks that came with an amount that could be read. */
export function remarksSaid({ notes, notCounted, loose }: Remarks, kitchen: Kitchen): string[] {
  const known = wordsOf(`${thingOf(kitchen)} ${kitchen.ingredient?.name ?? ""}`)
  const matters = (note: string) =>
    /\d/.test(note) || wordsOf(note).some((word) => !changesNothing(word) && !known.includes(word))
  return [
    ...notCounted.map((phrase) => `"${phrase}" is not counted.`),
    ...notes.filter(matters).map((note) => `"${note}" is taken as a note.`),
    ...(loose ? [`"${loose.text}" leaves the amount open; the figure counts.`] : []),
  ]
}
