import { expect, test } from "vitest"
import { waysOut } from "../../../server/dough/bill/coarse.ts"
import { findIngredient } from "../../../server/dough/ingredients/catalogue.ts"

const grams = (step: number) => ({ step, unit: "g" as const })
const of = (name: string, g: number, waterG = 0) => ({ g, waterG, ingredient: findIngredient(name) })

test("yeast that a scale in grams cannot weigh is stirred into some of the water", () => {
  const { dissolve, tenth } = waysOut(of("instant yeast", 0.4, 300), grams(1))
  expect(dissolve!.gotG).toBeCloseTo(0.4, 1)
  expect(dissolve!.errorShare).toBeLessThan(0.2)
  expect(tenth).toBeUndefined()
})

test("without water ten times as much is weighed and a tenth of it taken", () => {
  const { dissolve, tenth } = waysOut(of("cinnamon", 0.4), grams(1))
  expect(dissolve).toBeUndefined()
  expect(tenth).toMatchObject({ weighG: 4 })
  // half a gram of four, and heaps that are not alike
  expect(tenth!.errorShare).toBeCloseTo(0.125 + 0.15, 9)
})

test("a spoon is named only where the catalogue knows what it holds, and in the person's own measures", () => {
  expect(waysOut(of("instant yeast", 0.8), grams(1)).spoon).toMatchObject({ count: "1/4", unit: "tsp" })
  expect(waysOut(of("cinnamon", 0.8), grams(1)).spoon).toBeUndefined()
  expect(waysOut(of("instant yeast", 0.1), grams(1)).spoon).toBeUndefined() // an eighth is four times that
  const metric = waysOut({ ...of("instant yeast", 0.8), measures: "metric" }, grams(1)).spoon
  expect(metric!.g / waysOut(of("instant yeast", 0.8), grams(1)).spoon!.g).toBeCloseTo(5 / 4.92892159375, 9)
})

test("a scale that is fine enough needs no other way", () => {
  expect(waysOut(of("salt", 20, 500), grams(0.1))).toMatchObject({})
  expect(waysOut(of("salt", 20, 500), grams(0.1)).dissolve).toBeUndefined()
  expect(() => waysOut(of("salt", 0), grams(1))).toThrow(RangeError)
})
