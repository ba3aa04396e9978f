import { expect, test } from "vitest"
import type { DayPlan } from "../server/dough/day/day.ts"
import type { Ingredient } from "../server/dough/ingredients/ingredient.ts"
import type { Stage } from "../server/dough/schedule.ts"
import { allergensBrought, cautionsFor } from "../server/formulas/cautions.ts"

const linesOf = (ingredients: string[]) => ingredients.map((ingredient) => ({ ingredient }))
const titled = (cautions: ReturnType<typeof cautionsFor>) =>
  Object.fromEntries(cautions.map(({ title, words }) => [title, words]))
const about = (...ingredients: string[]) =>
  titled(cautionsFor({ parts: [{ lines: linesOf(ingredients) }], stages: [] }))

test("warn of dairy left warm, of honey and of lye, and say where rules are to be asked", () => {
  expect(Object.keys(about("whole milk", "honey", "food lye"))).toEqual([
    "Do not taste raw",
    "Egg and milk left warm",
    "Honey",
    "Lye burns",
    "Allergens",
    "Selling it, giving it away",
  ])
})

const stage = (kind: Stage["kind"], highMin: number, referenceC?: number): Stage => ({
  ...{ key: `${kind}${highMin}`, kind, name: kind, lowMin: highMin, highMin, drivenByTemperature: false },
  ...{ handsOnMin: 0, cue: "", tip: "" },
  ...(referenceC === undefined ? {} : { referenceC }),
})
const brioche = { parts: [{ lines: linesOf(["bread flour", "egg", "whole milk"]) }] }
const stages = [stage("mix", 20), stage("bulk", 180, 25), stage("proof", 100, 34), stage("bake", 30)]
const warm = (told: Parameters<typeof cautionsFor>[0], minding = {}) =>
  titled(cautionsFor(told, minding))["Egg and milk left warm"]

test("egg and milk dough: how long it stands warm until the oven, beside the numbers of others and whose they are", () => {
  const words = warm({ ...brioche, stages })
  expect(words).toContain(
    "As written it stands up to 5 h above 5 °C (41 °F), 5 h of it above 21 °C (70 °F) and 1 h 40 min above 32 °C (90 °F).",
  )
  expect(words).toContain("at home, 2 hours out of the cold in all, 1 hour above 32 °C (USDA FSIS)")
  expect(words).toContain("4 hours, or 6 if it begins cold and never passes 21 °C (FDA Food Code 3-501.19)")
  expect(words).toContain("your local rules")
})

test("the hours of a levain do not count for milk that goes in later, but for milk in the levain they do", () => {
  const levain = { ...stage("rest", 600, 24), name: "Levain ripens" }
  expect(warm({ ...brioche, stages: [levain, ...stages] })).toContain("up to 5 h above 5 °C")
  const parts = [{ lines: linesOf(["milk", "ripe starter"]), goesInto: "dough" }, ...brioche.parts]
  expect(warm({ parts, stages: [levain, ...stages] })).toContain("up to 15 h above 5 °C")
})

test("in a day of one's own, the hours are those of that day", () => {
  const at = (hour: number) => new Date(Date.UTC(2026, 10, 26, hour))
  const planned = stages.map((one, hour) => ({ stage: one, startsAt: at(8 + hour), endsAt: at(9 + hour) }))
  const curve = [8, 11].map((hour) => ({ at: at(hour), doughC: 20, known: "assumed" as const }))
  const plan = { stages: planned, curve } as unknown as DayPlan
  expect(warm({ ...brioche, stages }, { plan })).toContain(
    "In this day it stands 3 h above 5 °C (41 °F), none of it above 21 °C (70 °F) and none above 32 °C (90 °F).",
  )
})

test.each([
  ["custard", true],
  ["sliced ham", true],
  ["boiled potatoes", true],
  ["roast vegetables", true],
  ["garlic oil", true],
  ["grated cheddar", true],
  ["cream of tartar", false],
  ["coconut cream", false],
  ["toasted sesame seeds", false],
  ["bread flour", false],
])("%s may have to be kept cold: %j, and it is never classed", (name, expected) => {
  const words = about(name)["May have to be kept cold"]
  expect(words !== undefined).toBe(expected)
  if (words) expect(words).toContain("follow your local rules")
})

test("herbs count where oil goes on top with them", () => {
  const focaccia = (finishing: string[]) =>
    titled(cautionsFor({ parts: [{ lines: linesOf(["bread flour"]) }], finishing: linesOf(finishing), stages: [] }))
  expect(focaccia(["rosemary", "olive oil"])["May have to be kept cold"]).toContain("Rosemary")
  expect(focaccia(["rosemary"])["May have to be kept cold"]).toBeUndefined()
})

test("with egg, its wash is spoken of", () => {
  expect(about("egg")["Do not taste raw"]).toContain("Brush egg on before the bread goes in")
  expect(about("bread flour")["Do not taste raw"]).not.toContain("egg")
})

test.each([
  ["us", "On the US list: wheat, from bread flour. May be missing", "cottage-food law"],
  ["eu", "On the EU and UK list: cereals containing gluten (wheat), from bread flour. May be missing", "food business"],
] as const)("a class with the list of %s hears of that one, and of the law there", (list, allergens, law) => {
  const cautions = titled(cautionsFor({ parts: [{ lines: linesOf(["bread flour"]) }], stages: [] }, { list }))
  expect(cautions.Allergens).toContain(allergens)
  expect(cautions["Selling it, giving it away"]).toContain(law)
})

test("own ingredients are named as what may be missing", () => {
  const own: Ingredient = {
    ...{ slug: "own-1", name: "Mill Lane mix", role: "flour", countsAs: "flour", per100g: {}, portions: [] },
    allergens: { us: ["wheat"], eu: [] },
    source: "this class",
  }
  const parts = [{ lines: linesOf(["mill lane mix", "water"]) }]
  expect(titled(cautionsFor({ parts, stages: [] }, { own: [own] })).Allergens).toContain(
    "May be missing: own ingredients, such as mill lane mix, which is taken as this class wrote it.",
  )
})

test("each caution has a short form, for paper", () => {
  const all = cautionsFor({ ...brioche, finishing: linesOf(["honey", "lye", "ham"]), stages })
  expect(all.map(({ short }) => short.length).filter((length) => length === 0 || length > 200)).toEqual([])
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
  expect(about(name).Allergens).toMatch(`On the US list: ${on(us)}. On the EU and UK list: ${on(eu)}. May be missing`)
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
