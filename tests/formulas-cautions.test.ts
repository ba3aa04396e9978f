import { expect, test } from "vitest"
import { allergensBrought, cautionsFor } from "../server/formulas/cautions.ts"

const linesOf = (ingredients: string[]) => ingredients.map((ingredient) => ({ ingredient }))
const titled = (cautions: ReturnType<typeof cautionsFor>) =>
  Object.fromEntries(cautions.map(({ title, words }) => [title, words]))
const about = (...ingredients: string[]) =>
  titled(cautionsFor({ parts: [{ lines: linesOf(ingredients) }], stages: [] }))

test("warn of dairy left warm, of honey and of lye", () => {
  expect(Object.keys(about("whole milk", "honey", "food lye"))).toEqual([
    "Do not taste raw",
    "Egg and dairy left warm",
    "Honey",
    "Lye burns",
    "Allergens",
  ])
})

test.each([
  ["bread flour", "wheat", "cereals containing gluten (wheat)"],
  ["rye flour", "", "cereals containing gluten (rye)"],
  ["chopped walnuts", "tree nuts (walnut)", "nuts (walnut)"],
  ["pine nuts", "tree nuts (pine nut)", ""],
  ["almond milk", "tree nuts (almond)", "nuts (almond)"],
  ["peanut butter", "peanut", "peanuts"],
  ["buttermilk", "milk", "milk"],
  ["soy flour", "soy", "soybeans"],
  ["tahini", "sesame", "sesame"],
])("%s is %j on the US list and %j on the European, and nothing else", (name, us, eu) => {
  const on = (allergen: string) => (allergen ? `${allergen}, from ${name}` : "none is plain from the names")
  expect(about(name).Allergens).toMatch(`On the US list: ${on(us)}. On the EU and UK list: ${on(eu)}. Only the names`)
})

test("say perhaps of a starter, whose flour is not told", () => {
  expect(about("ripe starter").Allergens).toContain("On the US list: perhaps wheat, from ripe starter.")
})

test("name what is not known", () => {
  expect(about("Mill Lane mix", "hundreds and thousands").Allergens).toContain(
    "Not known here: Mill Lane mix and hundreds and thousands.",
  )
})

test("never say that there are no allergens", () => {
  expect(about("water", "coconut milk").Allergens).toContain("check every pack")
})

test("nothing is said of a formula with nothing in it", () => expect(about()).toEqual({}))

test("look at what goes on top and at what a variant takes instead, too", () => {
  const cautions = cautionsFor({
    parts: [{ lines: linesOf(["water"]) }],
    finishing: linesOf(["sesame seeds"]),
    variants: [{ swaps: [{ lines: linesOf(["whole milk"]) }] }],
    stages: [],
  })
  expect(titled(cautions).Allergens).toContain("On the US list: milk, from whole milk; sesame, from sesame seeds.")
})

test.each([
  [["whole milk"], "On the US list and that of the EU and UK: milk, from whole milk."],
  [["oat flakes"], "On the EU and UK list: cereals containing gluten (oats), from oat flakes."],
  [["Mill Lane mix"], "Not known here: Mill Lane mix; check the pack."],
  [["bread flour", "water"], undefined],
  [[], undefined],
])("of what one baker took instead, %j, only what the formula does not have is said", (names, words) => {
  const formula = { parts: [{ lines: linesOf(["wheat flour", "water", "salt"]) }] }
  expect(allergensBrought(formula, names)?.words).toBe(words)
})
