import fc from "fast-check"
import { expect, test } from "vitest"
import { findIngredient } from "../../../server/dough/ingredients/catalogue.ts"
import { gramsPerOunce, gramsPerPound, millilitresOf } from "../../../server/dough/quantity/measures.ts"
import { readQuantity } from "../../../server/dough/quantity/read.ts"
import { cToF, fToC } from "../../../server/dough/units.ts"

const water = findIngredient("water")
const flour = findIngredient("bread flour")
const gramsIn = (text: string, ingredient = water) => {
  const quantity = readQuantity(text, { ingredient, measures: "us" })
  return quantity.kind === "mass" ? quantity.g.low : Number.NaN
}
// thousandths, as a scale or a jug shows at most
const amounts = fc.integer({ min: 1, max: 9_999_999 }).map((thousandths) => thousandths / 1000)

const holds = <Value>(some: fc.Arbitrary<Value>, back: (value: Value) => number, told: (value: Value) => number) =>
  fc.assert(
    fc.property(some, (value) => {
      expect(back(value)).toBeCloseTo(told(value), 6)
    }),
  )

test.each([
  ["kg", 1000],
  ["oz", gramsPerOunce],
  ["lb", gramsPerPound],
] as const)("an amount of grams told in %s and read again is the same amount", (unit, g) => {
  holds(
    amounts,
    (grams) => gramsIn(`${(grams / g).toFixed(15)} ${unit}`, flour),
    (grams) => grams,
  )
})

test.each(["cup", "tbsp", "tsp"] as const)(
  "water poured by the US %s and weighed fills as many of them again",
  (unit) => {
    const ml = Number(millilitresOf(unit, "us"))
    const quarters = fc.integer({ min: 1, max: 400 }).map((count) => count / 4)
    holds(
      quarters,
      (count) => gramsIn(`${count} ${unit}`) / ml,
      (count) => count,
    )
  },
)

test("a temperature told in °F and read again is the same temperature", () => {
  holds(
    fc.double({ min: -40, max: 120, noNaN: true }),
    (c) => fToC(cToF(c)),
    (c) => c,
  )
})

test("60–90 g of water are about 2–3 fl oz: common practice, no published source", () => {
  expect(Math.abs(gramsIn("2 fl oz") - 60)).toBeLessThan(3)
  expect(Math.abs(gramsIn("3 fl oz") - 90)).toBeLessThan(3)
})

test.each(["oat milk", "coconut milk, full fat", "coconut cream", "almond drink", "rice milk"])(
  "ounces of %s are asked about, although it is known with what it is made of",
  (name) => {
    const quantity = readQuantity("9 oz", { ingredient: findIngredient(name), name })
    expect(quantity).toMatchObject({ kind: "asks", question: expect.stringContaining("fluid ounces") })
  },
)

test.each(["milk chocolate", "coconut", "rolled oats", "dried milk"])("ounces of %s are a weight", (name) => {
  expect(readQuantity("9 oz", { ingredient: findIngredient(name), name }).kind).toBe("mass")
})
