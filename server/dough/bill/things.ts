import { findIngredient } from "../ingredients/catalogue.ts"
import type { Ingredient } from "../ingredients/ingredient.ts"
import { changesNothing, wordsOf } from "../ingredients/words.ts"

/**
 * What a name is on a shopping list, so that two spellings of one thing are one: the catalogue's slug, or the words of a name
 * that no list knows. Where the catalogue keeps several things under one slug ("herb or spice", "cheese") the words tell
 * them apart. Yolks and whites are eggs. "" for no name. Never throws.
 */
export function thingOf(name: string, own: readonly Ingredient[] = []): string {
  const ingredient = findIngredient(name, own)
  const words = wordsOf(name).filter((word) => !changesNothing(word))
  if (!ingredient) return (words.length ? words : wordsOf(name)).join(" ")
  if (eggs.has(ingredient.slug)) return "egg"
  return isOneThing(ingredient) ? ingredient.slug : `${ingredient.slug}: ${words.join(" ")}`
}

const eggs = new Set(["egg-whole", "egg-yolk", "egg-white"])

const isOneThing = ({ slug, per100g }: Ingredient) =>
  slug.startsWith("own-") || Object.keys(per100g).length > 0 || singles.has(slug)

// Known by name only, and one thing in every shop all the same. Our own judgement.
const singles = new Set(
  `flour-spelt flour-triticale flour-lupin flour-chestnut starch-wheat seitan cashews pistachios macadamias brazil-nuts
  pine-nuts black-walnut walnut-oil peanut-oil butter-plant egg-wash seeds nuts`.split(/\s+/),
)

/** Whether it comes from the tap, frozen or not. */
export function isTapWater(name: string, countsAs: string, own: readonly Ingredient[] = []): boolean {
  const ingredient = findIngredient(name, own)
  return ingredient ? tap.has(ingredient.slug) : countsAs === "water"
}
const tap = new Set(["water", "ice", "water-tap", "water-municipal"])
