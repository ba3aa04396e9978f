import { describe, expect, test } from "vitest"
import {
  cardinalShare,
  growthPerHour,
  rate,
  referenceC,
  saccharomycesGrowth,
  yeastGrowthPerHour,
} from "../../../server/dough/fermentation/growth.ts"

describe("the rate", () => {
  test.each(["sourdough", "baker's yeast"] as const)("of %s is one at the reference temperature", (culture) => {
    expect(rate(referenceC, culture)).toBe(1)
  })

  test("of sourdough peaks at 27 °C and is nothing from 36 °C", () => {
    expect(yeastGrowthPerHour(26.9)).toBeLessThan(yeastGrowthPerHour(27))
    expect(yeastGrowthPerHour(27.1)).toBeLessThan(yeastGrowthPerHour(27))
    expect([rate(36), rate(45)]).toEqual([0, 0])
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
  const ratio = (c: number) => growthPerHour("L. sanfranciscensis", c) / yeastGrowthPerHour(c)
  for (let c = 0; c < 36; c += 0.5) expect(ratio(c)).toBeGreaterThan(1)
  expect(ratio(22)).toBeLessThan(ratio(18))
  expect(ratio(22)).toBeLessThan(ratio(26))
})

test("the cardinal model refuses an optimum in the colder half, where it does not hold", () => {
  expect(() => cardinalShare(20, { ...saccharomycesGrowth, bestC: 20 })).toThrow(RangeError)
})
