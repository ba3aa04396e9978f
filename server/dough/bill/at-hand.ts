import { findIngredient } from "../ingredients/catalogue.ts"
import type { Ingredient } from "../ingredients/ingredient.ts"
import { changesNothing, wordsOf } from "../ingredients/words.ts"
import { splitLine } from "../quantity/split-line.ts"
import type { Thing } from "./shopping.ts"
import { thingOf } from "./things.ts"

/**
 * Of those things the ones that somebody has, told in their own words: "strong white, 2 kg wholemeal spelt; rye". Each piece is
 * read as a thing, or as a flour of that name; of a name that no list knows ("Mill Lane strong white") all the thing's words
 * must be in it. Never throws.
 */
export function atHand(told: string, things: Thing[], own: readonly Ingredient[] = []): Set<string> {
  const pieces = told
    .split(/[,;\n+&]|\band\b/)
    .map((piece) => splitLine(piece).ingredient || piece)
    .filter((piece) => piece.trim())
  const had = things.filter((thing) => pieces.some((piece) => isIt(piece, thing, own)))
  return new Set(had.map(({ id }) => id))
}

function isIt(piece: string, { id, fors }: Thing, own: readonly Ingredient[]): boolean {
  const names = [piece, `${piece} flour`]
  const known = names.filter((name) => findIngredient(name, own))
  if (known.length) return known.some((name) => thingOf(name, own) === id)
  const theirs = new Set(names.flatMap(wordsOf))
  return fors.some(({ written }) => {
    const words = wordsOf(written.ingredient).filter((word) => !changesNothing(word))
    return words.length > 0 && words.every((word) => theirs.has(word))
  })
}
