import { type CountsAs, guessCountsAs } from "./counts-as.ts"
import type { Ingredient } from "./ingredient.ts"
import { knownByName } from "./known-by-name.ts"
import { type Named, nameAndSynonyms, namesInSr28, spelledOut } from "./names.ts"
import { rowsOfSr28 } from "./sr28.ts"
import { changesNothing, wordsOf } from "./words.ts"
import { workedOut } from "./worked-out.ts"

const named: Named[] = [
  ...workedOut(),
  ...rowsOfSr28().map((row) => ({ ...row, ...nameAndSynonyms(namesInSr28[row.slug]!) })),
  ...knownByName(),
]

/** Every ingredient known here, with figures or by name only. */
export const allIngredients: readonly Ingredient[] = named.map(({ synonyms: _, ...ingredient }) => ingredient)

/** Every name that leads somewhere, with the slug it leads to. */
export const allNames: readonly { name: string; slug: string }[] = named.flatMap(({ name, synonyms, slug }) =>
  [name, ...synonyms.flatMap(spelledOut)].map((each) => ({ name: each, slug })),
)

const bySlug = new Map(allIngredients.map((ingredient) => [ingredient.slug, ingredient]))
const slugByKey = new Map(allNames.map(({ name, slug }) => [wordsOf(name).join(" "), slug]))

/**
 * The ingredient of that name, from one's own list first and then from the catalogue; undefined when no name has just
 * these words. Only words that change nothing ("warm", "chopped", "organic") may be over, so "almond milk" is never milk.
 */
export function findIngredient(name: string, own: readonly Ingredient[] = []): Ingredient | undefined {
  const keys = keysFor(wordsOf(name))
  // of two by the same name the first counts
  const ownByKey = new Map(own.toReversed().map((ingredient) => [wordsOf(ingredient.name).join(" "), ingredient]))
  const ownKey = keys.find((key) => ownByKey.has(key))
  if (ownKey) return ownByKey.get(ownKey)
  const key = keys.find((each) => slugByKey.has(each))
  return key ? bySlug.get(slugByKey.get(key)!) : undefined
}

/** What it counts as in a formula: as the list or the catalogue says, else guessed from its name; dusting flour as nothing. */
export function countsAsOf(name: string, own: readonly Ingredient[] = []): CountsAs {
  if (/\bdust/i.test(name)) return "other"
  return findIngredient(name, own)?.countsAs ?? guessCountsAs(name)
}

/** The words as keys, all of them first, then with ever more of the words left out that change nothing. */
function keysFor(words: string[]): string[] {
  const idle = words.filter(changesNothing)
  const some = idle.slice(0, 6)
  const leftOut = Array.from({ length: 2 ** some.length }, (_, bits) => some.filter((_, at) => bits & (1 << at)))
  return [...leftOut.sort((a, b) => a.length - b.length), idle]
    .map((out) => words.filter((word) => !out.includes(word)).join(" "))
    .filter(Boolean)
}
