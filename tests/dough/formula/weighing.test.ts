import fc from "fast-check"
import { describe, expect, test } from "vitest"
import { dilutionFor, type Scale, stepG, weigh } from "../../../server/dough/formula/weighing.ts"

const wholeGrams: Scale = { step: 1, unit: "g" }

test.each<[number, Scale, number]>([
  [467.6, wholeGrams, 468],
  [2.5, wholeGrams, 3],
  [27.36, { step: 0.1, unit: "g" }, 27.4],
  [468, { step: 5, unit: "g" }, 470],
  [500, { step: 0.1, unit: "oz" }, 17.6 * 28.349523125],
])("%d g on a scale of %j is %d g", (wanted, scale, shown) => {
  const { g, errorG, errorShare } = weigh(wanted, scale)
  expect(g).toBeCloseTo(shown, 9)
  expect(errorG).toBeCloseTo(shown - wanted, 9)
  expect(errorShare).toBeCloseTo((shown - wanted) / wanted, 9)
})

describe("a scale", () => {
  test("is too coarse when half a step matters", () => {
    expect(weigh(3, wholeGrams)).toMatchObject({ g: 3, tooCoarse: true })
    expect(weigh(0.3, wholeGrams)).toMatchObject({ g: 0, tooCoarse: true })
  })

  test("is fine enough when it does not", () => {
    expect(weigh(5, wholeGrams).tooCoarse).toBe(false)
    expect(weigh(3, { step: 0.1, unit: "g" }).tooCoarse).toBe(false)
  })
})

describe("a pinch of yeast by way of water", () => {
  test("is weighed with whole grams", () => {
    expect(dilutionFor(0.3, wholeGrams, 400)).toEqual({
      ...{ stirG: 3, waterG: 197, useG: 20 },
      gotG: expect.closeTo(0.3, 9),
      waterInItG: expect.closeTo(19.7, 9),
      errorShare: expect.closeTo(0.5 / 3 + 0.5 / 200 + 0.5 / 20, 9),
    })
  })

  test("makes do with the water there is", () => {
    expect(dilutionFor(0.3, wholeGrams, 97)).toMatchObject({ stirG: 5, waterG: 95, useG: 6 })
    expect(dilutionFor(0.3, wholeGrams, 10)).toBeUndefined()
  })

  test("is not offered where the scale does as well by itself", () => {
    expect(dilutionFor(20, wholeGrams, 1000)).toBeUndefined()
  })

  test("always comes to what it says, and surer than without", () => {
    const small = fc.double({ min: 0.02, max: 9, noNaN: true })
    fc.assert(
      fc.property(small, fc.integer({ min: 50, max: 1000 }), (wantedG, waterG) => {
        const dilution = dilutionFor(wantedG, wholeGrams, waterG)
        if (!dilution) return
        const { stirG, useG, gotG, waterInItG, errorShare } = dilution
        expect(gotG).toBeCloseTo((useG * stirG) / (stirG + dilution.waterG), 9)
        expect(gotG + waterInItG).toBeCloseTo(useG, 9)
        expect(dilution.waterG).toBeLessThanOrEqual(waterG)
        expect(Math.abs(gotG - wantedG) / wantedG).toBeLessThanOrEqual(errorShare)
        expect(errorShare).toBeLessThan(Math.abs(weigh(wantedG, wholeGrams).errorShare) + 0.5 / wantedG)
      }),
    )
  })
})

test("nothing and less than nothing are refused", () => {
  expect(() => weigh(0, wholeGrams)).toThrow(RangeError)
  expect(() => stepG({ step: 0, unit: "g" })).toThrow(RangeError)
})
