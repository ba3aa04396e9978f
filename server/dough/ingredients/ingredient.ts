import type { Range } from "../amounts.ts"
import type { CountsAs } from "./counts-as.ts"

/** What an ingredient does in a dough. */
export type Role = "flour" | "liquid" | "fat" | "sugar" | "salt" | "leaven" | "egg" | "inclusion"

/** Grams in 100 g as bought, without shell or stone; what is missing was never published, and is not zero. */
export type Composition = { water?: number; fat?: number; sugar?: number; protein?: number; salt?: number }

/** What one of a spoon, cup or piece weighs. Spoons and cups are US customary ones (tsp 4.93 ml, tbsp 14.79 ml, cup 236.59 ml). */
export type Portion = { unit: string; g: number; how?: string }

/** A thing a baker weighs, with what is known of it. */
export type Ingredient = {
  /** Stable, and its own name for good: "flour-bread", or "own-12" for one of a class. */
  slug: string
  name: string
  /** Number in the USDA National Nutrient Database for Standard Reference. */
  ndb?: string
  role: Role
  countsAs: CountsAs
  per100g: Composition
  /** `unit` is tsp, tbsp, cup, or a countable word in the singular: "egg", "stick", "packet", "clove". */
  portions: Portion[]
  /** Bulk density range, g/ml, where packing or sifting changes it; undefined when one value is good enough. */
  packing?: Range
  /**
   * US: of the nine major allergens; EU and UK: of the fourteen of Annex II. An empty list is "none listed". What is in
   * some packs and not in others stands under `may`.
   */
  allergens: Listed & { may?: Listed }
  /** Where the figures come from, in words that can be shown. */
  source: string
}

type Listed = { us: string[]; eu: string[] }

/** What `g` grams of it bring into a dough, in grams; what is not known of it stays missing. Throws RangeError below 0 g. */
export function broughtBy({ per100g }: Pick<Ingredient, "per100g">, g: number): Composition {
  if (!(g >= 0 && Number.isFinite(g))) throw new RangeError(`${g} g is not an amount`)
  return Object.fromEntries(Object.entries(per100g).map(([what, of100]) => [what, (of100 * g) / 100]))
}
