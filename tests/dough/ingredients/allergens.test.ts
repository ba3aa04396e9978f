import { describe, expect, test } from "vitest"
import { allergensNamed, euFourteen, usNine } from "../../../server/dough/ingredients/allergen-lists.ts"
import { allergensOf } from "../../../server/dough/ingredients/allergens.ts"
import { allIngredients } from "../../../server/dough/ingredients/catalogue.ts"
import type { Ingredient } from "../../../server/dough/ingredients/ingredient.ts"

/** "wheat" or, when only perhaps, "wheat?". */
function short(names: string[], own: Ingredient[] = []) {
  const { us, eu, unknown } = allergensOf(names, own)
  const of = (found: typeof us) => found.map(({ allergen, sure }) => (sure ? allergen : `${allergen}?`))
  return { us: of(us), eu: of(eu), unknown }
}

test("a rye loaf has nothing of the US list and gluten of the European one", () => {
  const rye = ["dark rye flour", "water", "salt", "rye sourdough"]
  expect(short(rye)).toEqual({ us: [], eu: ["cereals containing gluten (rye)"], unknown: [] })
})

test("water and salt are known to carry nothing", () => {
  expect(short(["Water", "ice", "fine sea salt", "flaky salt", ""])).toEqual({ us: [], eu: [], unknown: [] })
})

test("an allergen says what it comes from, each name once", () => {
  expect(allergensOf(["butter", "milk", "butter"]).us).toEqual([
    { allergen: "milk", from: ["butter", "milk"], sure: true },
  ])
})

test("a starter perhaps brings wheat, beside flour it surely is there", () => {
  expect(short(["levain"]).us).toEqual(["wheat?"])
  expect(allergensOf(["ripe starter", "bread flour"]).us).toEqual([
    { allergen: "wheat", from: ["ripe starter", "bread flour"], sure: true },
  ])
})

test("what is not known is said to be unknown, whatever its name gives away", () => {
  expect(short(["Mill Lane flour"])).toEqual({
    us: ["wheat?"],
    eu: ["cereals containing gluten (wheat)?"],
    unknown: ["Mill Lane flour"],
  })
  expect(short(["grandmother's secret"])).toEqual({ us: [], eu: [], unknown: ["grandmother's secret"] })
})

describe("of a name that is not known", () => {
  test.each([
    ["salted caramel buttercream", ["milk?"]],
    ["vegan buttercream", []],
    ["gluten-free flour", []],
    ["gluten-free oats from the mill", []],
    ["almond yogurt", ["tree nuts (almond)?"]],
    ["egg replacer", []],
    ["garden peas", []],
    ["poolish", ["wheat?"]],
    ["oat and butter crumble", ["milk?"]],
    ["rye and plain flour", ["wheat?"]],
    ["rye wholemeal flour from the mill", []],
    ["goose eggs", ["egg?"]],
    ["toasted rye bread cubes", ["wheat?"]],
    ["chestnut pieces in syrup", []],
  ])("%j the US list has %j", (name, us) => {
    expect(short([name]).us).toEqual(us)
    expect(short([name]).unknown).toEqual([name])
  })
})

test("one's own ingredient is known with what its class says", () => {
  const own: Ingredient = {
    ...{ slug: "own-1", name: "Mill Lane flour", role: "flour", countsAs: "flour", per100g: {}, portions: [] },
    allergens: { us: ["wheat"], eu: ["cereals containing gluten"] },
    source: "this class",
  }
  expect(short(["mill lane flour"], [own])).toEqual({ us: ["wheat"], eu: ["cereals containing gluten"], unknown: [] })
})

test("every allergen of the catalogue is one of the nine, or of the fourteen", () => {
  for (const { name, allergens } of allIngredients) {
    for (const us of [...allergens.us, ...(allergens.may?.us ?? [])]) {
      expect(usNine, name).toContain(us.replace(/ \(.+\)$/, ""))
    }
    for (const eu of [...allergens.eu, ...(allergens.may?.eu ?? [])]) {
      expect(euFourteen, name).toContain(eu.replace(/ \(.+\)$/, ""))
    }
  }
})

test("an allergen nobody has heard of is refused", () => {
  expect(() => allergensNamed("wheat gluon")).toThrow(RangeError)
})
