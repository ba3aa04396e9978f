import type { CountsAs } from "../ingredients/counts-as.ts"
import { broughtBy, type Ingredient } from "../ingredients/ingredient.ts"

/** What one gram of a line brings into a dough, in grams. */
export type Brings = Record<(typeof kinds)[number], number>

/**
 * `flour`, `water` and `salt` are those of baker's percentage; `all…`, `fat` and `sugar` what is in everything but flour.
 * `plainFlour` is without a starter's, with its own protein; `freshFlour` has not fermented yet, `leaven` is starter and
 * parts that have, `prefermented` their flour.
 */
export const kinds = [
  ...(["mass", "flour", "water", "salt", "allWater", "allSalt", "fat", "sugar"] as const),
  ...(["plainFlour", "flourProtein", "freshFlour", "leaven", "prefermented"] as const),
] as const

/** What a line may hold without anybody having published how much. */
export type Content = (typeof contents)[number]
const contents = ["allWater", "allSalt", "fat", "sugar"] as const

const onlyMass = Object.fromEntries(kinds.map((kind) => [kind, kind === "mass" ? 1 : 0])) as Brings

// A ripe starter at 100 % hydration is half flour, half water by mass: common practice, no published source.
const starterFlour = 0.5
const starterWater = 1 - starterFlour

/**
 * What a gram of something brings, and which of its contents are not known and so left out. The water, fat and sugar inside
 * flour count as flour, also where it counts as something else: trade convention. Its salt counts, as self-raising flour has some; the sodium that raises dough,
 * as baking powder's, is no salt.
 */
export function bringsOf(countsAs: CountsAs, ingredient?: Ingredient): { brings: Brings; unknown: Content[] } {
  const inside = ingredient ? broughtBy(ingredient, 1) : {}
  const { salt, protein = Number.NaN } = inside
  const asSuch: Record<CountsAs, Partial<Brings>> = {
    flour: { flour: 1, plainFlour: 1, freshFlour: 1, flourProtein: protein, allSalt: salt ?? 0 },
    starter: {
      leaven: 1,
      flour: starterFlour,
      prefermented: starterFlour,
      water: starterWater,
      allWater: starterWater,
    },
    salt: { salt: 1, allSalt: 1 },
    water: { water: 1, allWater: 1 },
    leaven: {},
    other: {},
  }
  const brings = { ...onlyMass, ...asSuch[countsAs] }
  // Milk that somebody counts as water is still milk by what is in it.
  const isDiluted = countsAs === "water" && ingredient && ingredient.countsAs !== "water"
  if (!isDiluted && countsAs !== "leaven" && countsAs !== "other") return { brings, unknown: [] }
  const isFlour = ingredient?.role === "flour"
  const known = {
    allWater: isFlour ? 0 : inside.water,
    allSalt: ingredient?.role === "leaven" ? 0 : salt,
    fat: isFlour ? 0 : inside.fat,
    sugar: isFlour ? 0 : inside.sugar,
  }
  for (const content of contents) brings[content] = known[content] ?? 0
  return { brings, unknown: contents.filter((content) => known[content] === undefined) }
}
