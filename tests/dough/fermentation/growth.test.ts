import { describe, expect, test } from "vitest"
import {
  cardinalShare,
  culturePerHour,
  growthPerHour,
  rate,
  referenceC,
  saccharomycesGrowth,
} from "../../../server/dough/fermentation/growth.ts"

describe("the rate", () => {
  test.each(["sourdough", "baker's yeast"] as const)("of %s is one at the reference temperature", (culture) => {
    expect(rate(referenceC, culture)).toBe(1)
  })

  test("of sourdough is its yeast's growth up to 28 °C, holds to 33 °C, and falls to nothing at 41 °C", () => {
    expect(culturePerHour(21)).toBe(growthPerHour("K. humilis", 21))
    expect(culturePerHour(26.9)).toBeLessThan(culturePerHour(27))
    expect([29, 33].map(culturePerHour)).toEqual([culturePerHour(28), culturePerHour(28)])
    expect(culturePerHour(36)).toBeLessThan(culturePerHour(33))
    expect([rate(41), rate(45)]).toEqual([0, 0])
  })

  test("of sourdough is higher in a hot kitchen than in a cool one", () => {
    expect(rate(32)).toBeGreaterThan(rate(24))
    expect(rate(32)).toBeGreaterThan(1.7 * rate(20))
  })

  test("of baker's yeast goes on rising where sourdough's falls, and ends as well", () => {
    expect(rate(34, "baker's yeast")).toBeGreaterThan(rate(30, "baker's yeast"))
    expect([rate(2, "baker's yeast"), rate(46, "baker's yeast")]).toEqual([0, 0])
  })

  test.each([-6, 61, Number.NaN])("refuses %d °C", (doughC) => {
    expect(() => rate(doughC)).toThrow(RangeError)
    expect(() => rate(doughC, "baker's yeast")).toThrow(RangeError)
  })
})

test("lactobacilli grow at least as fast as the yeast, whatever the temperature, and closest to it near 22 °C", () => {
  const ratio = (c: number) => growthPerHour("L. sanfranciscensis", c) / growthPerHour("K. humilis", c)
  for (let c = 0; c < 36; c += 0.5) expect(ratio(c)).toBeGreaterThan(1)
  expect(ratio(22)).toBeLessThan(ratio(18))
  expect(ratio(22)).toBeLessThan(ratio(26))
})

test("the cardinal model refuses an optimum in the colder half, where it does not hold", () => {
  expect(() => cardinalShare(20, { ...saccharomycesGrowth, bestC: 20 })).toThrow(RangeError)
})
