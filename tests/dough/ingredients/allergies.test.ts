import { expect, test } from "vitest"
import { euFourteen, usNine } from "../../../server/dough/ingredients/allergen-lists.ts"
import { allergyKeys, meetAllergies } from "../../../server/dough/ingredients/allergies.ts"
import type { Ingredient } from "../../../server/dough/ingredients/ingredient.ts"

const loaf = ["bread flour", "rye flour", "ripe starter", "water", "salt", "Mill Lane mix"].map((ingredient) => ({
  ...{ ingredient, place: "Final dough" },
}))
const lines = [...loaf, { ingredient: "toasted sesame seeds", place: "the topping" }]
const meet = (keys: string[], words = "", own: Ingredient[] = []) => meetAllergies({ keys, words }, lines, own)
const told = ({ met }: ReturnType<typeof meet>) =>
  met.map(({ allergy, ingredient, how }) => `${how} ${allergy}: ${ingredient}`)

test("sesame is met in the topping, surely, and what nobody knows is named", () => {
  expect(meet(["sesame"])).toEqual({
    met: [{ allergy: "sesame", ingredient: "toasted sesame seeds", place: "the topping", how: "surely" }],
    unknown: [{ ingredient: "Mill Lane mix", place: "Final dough" }],
    unmet: [],
  })
})

test("gluten is in rye and wheat; wheat alone is not in rye, and perhaps in a starter", () => {
  expect(told(meet(["cereals containing gluten"]))).toEqual([
    "surely cereals containing gluten: bread flour",
    "surely cereals containing gluten: rye flour",
    "perhaps cereals containing gluten: ripe starter",
  ])
  expect(told(meet(["wheat"]))).toEqual(["surely wheat: bread flour", "perhaps wheat: ripe starter"])
})

test("what no name gives away is unmet, never absent", () => {
  expect(meet(["mustard"])).toMatchObject({ met: [], unmet: ["mustard"] })
})

test.each([
  ["sesame", "perhaps sesame: toasted sesame seeds"],
  ["I am allergic to tahini", "perhaps I am allergic to tahini: toasted sesame seeds"],
  ["rye", "perhaps rye: rye flour"],
  ["salt", "perhaps salt: salt"],
  ["seeds of any kind", "perhaps seeds of any kind: toasted sesame seeds"],
  ["mill dust", "perhaps mill dust: Mill Lane mix"],
])("%j in one's own words is %j", (words, expected) => {
  expect(told(meet([], words))).toContain(expected)
})

test("of own words nothing is sure, and those that nothing answers to are kept", () => {
  const meeting = meet([], "coeliac; kiwi and passion fruit, no")
  expect(meeting.met.map(({ how }) => how)).not.toContain("surely")
  expect(meeting.met.map(({ allergy }) => allergy)).toContain("coeliac")
  expect(meeting.unmet).toEqual(["kiwi", "passion fruit"])
})

test("an own ingredient that only says cereals may be wheat", () => {
  const own: Ingredient = {
    ...{ slug: "own-1", name: "Mill Lane mix", role: "flour", countsAs: "flour", per100g: {}, portions: [] },
    allergens: { us: [], eu: ["cereals containing gluten"] },
    source: "this class",
  }
  const meeting = meet(["wheat"], "", [own])
  expect(told(meeting)).toContain("perhaps wheat: Mill Lane mix")
  expect(meeting.unknown).toEqual([])
})

test("whoever states nothing meets nothing", () => {
  expect(meet([], " no allergies ")).toEqual({ met: [], unknown: [], unmet: [] })
  expect(meet(["gravel"])).toEqual({ met: [], unknown: [], unmet: [] })
})

test("everything on either list can be stated", () => {
  const named = (one: string) => allergyKeys.some((key) => one.startsWith(key) || key.startsWith(one.slice(0, 4)))
  expect([...usNine, ...euFourteen].filter((one) => !named(one) && one !== "nuts")).toEqual([])
})

test("bee products are looked for in honey", () => {
  const { met } = meetAllergies({ keys: [], words: "bee products" }, [{ ingredient: "clear honey", place: "Soaker" }])
  expect(met).toEqual([{ allergy: "bee products", ingredient: "clear honey", place: "Soaker", how: "perhaps" }])
})
