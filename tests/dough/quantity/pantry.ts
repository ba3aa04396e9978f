import { expect } from "vitest"
import type { Ingredient, Portion, Role } from "../../../server/dough/ingredients/ingredient.ts"
import { type About, readQuantity } from "../../../server/dough/quantity/read.ts"
import type { Quantity } from "../../../server/dough/quantity/reading.ts"

/** An ingredient as the catalogue has them; portions as "cup 137; egg 50 large". */
export function thing(name: string, role: Role, portions: string, more: Partial<Ingredient> = {}): Ingredient {
  const source = `USDA SR28${more.ndb ? `, NDB ${more.ndb}` : ""}`
  const told = portions.split("; ").filter(Boolean).map(portion)
  const allergens = { us: [], eu: [] }
  return { slug: name, name, role, countsAs: "other", per100g: {}, portions: told, allergens, source, ...more }
}

function portion(text: string): Portion {
  const [, unit = "", g = "", how] = /^(\D+) ([\d.]+)(?: (.+))?$/.exec(text) ?? []
  return { unit, g: Number(g), ...(how && { how }) }
}

// Weights: USDA SR28, WEIGHT table. The packing of bread flour is for these tests alone.
export const breadFlour = thing("bread flour", "flour", "cup 137", {
  ndb: "20083",
  packing: { low: 115 / 236.5882365, high: 150 / 236.5882365 },
})
export const wholeWheat = thing("whole wheat flour", "flour", "cup 120", { ndb: "20080" })
export const milk = thing("whole milk", "liquid", "cup 244; tbsp 15", { ndb: "01077" })
export const water = thing("water", "liquid", "cup 236.5882365; tbsp 14.78676478125; tsp 4.92892159375")
export const dryMilk = thing("nonfat dry milk", "inclusion", "cup 120", { ndb: "01091" })
export const butter = thing("butter", "fat", "cup 227; tbsp 14.2; stick 113; pat 5", { ndb: "01145" })
export const oliveOil = thing("olive oil", "fat", "cup 216; tbsp 13.5; tsp 4.5", { ndb: "04053" })
export const honey = thing("honey", "sugar", "cup 339; tbsp 21", { ndb: "19296" })
export const sugar = thing("sugar", "sugar", "cup 200; tsp 4.2", { ndb: "19335" })
export const brownSugar = thing("brown sugar", "sugar", "cup 220 packed; cup 145 unpacked; tsp 4.6 packed", {
  ndb: "19334",
})
export const icingSugar = thing("powdered sugar", "sugar", "cup 120 unsifted; cup 100 sifted", { ndb: "19336" })
export const salt = thing("salt", "salt", "tsp 6; tbsp 18; cup 292", { ndb: "02047" })
export const dryYeast = thing("active dry yeast", "leaven", "tsp 4; tbsp 12; packet 7.2", { ndb: "18375" })
export const instantYeast = thing("instant yeast", "leaven", "")
export const freshYeast = thing("fresh yeast", "leaven", "cake 17", { ndb: "18374" })
export const eggs = thing(
  "egg",
  "egg",
  "egg 50 large; egg 38 small; egg 44 medium; egg 56 extra large; egg 63 jumbo; cup 243",
  {
    ndb: "01123",
  },
)
export const banana = thing("banana", "inclusion", "cup 225 mashed; banana 118 medium; banana 136 large", {
  ndb: "09040",
})

export const larder = [
  ...[breadFlour, wholeWheat, milk, water, dryMilk, butter, oliveOil, honey, sugar, brownSugar, icingSugar, salt],
  ...[dryYeast, instantYeast, freshYeast, eggs, banana],
]

/** How an amount of it is asked for, by its own name. */
export const of = (ingredient: Ingredient, measures: About["measures"] = "us"): About => ({
  ingredient,
  name: ingredient.name,
  measures,
})

export const mass = (low: number, high = low) =>
  expect.objectContaining({ kind: "mass", g: { low: expect.closeTo(low, 9), high: expect.closeTo(high, 9) } })
export const percent = (low: number, high = low) =>
  expect.objectContaining({ kind: "percent", share: { low: expect.closeTo(low, 12), high: expect.closeTo(high, 12) } })

/** The question, or the whole reading where there is none. */
export const asked = (quantity: Quantity) => (quantity.kind === "asks" ? quantity.question : quantity)
/** What stands to choose from, as it would be read. */
export const choices = (quantity: Quantity) =>
  quantity.kind === "blank" ? [] : quantity.choices.map(({ readAs }) => readAs)
export const assumptions = (quantity: Quantity) => ("assumptions" in quantity ? quantity.assumptions : undefined)

/** The grams of an amount that is understood as one figure. */
export function grams(text: string, about?: About): number {
  const quantity = readQuantity(text, about)
  if (quantity.kind !== "mass") throw new Error(`${text}: ${JSON.stringify(quantity)}`)
  expect(quantity.g.low).toBe(quantity.g.high)
  return quantity.g.low
}
