import { expect, test } from "vitest"
import { cToF, fToC, showMass, showRange, showShare, showTemperature, showVolume } from "../../server/dough/units.ts"

test.each([
  [24.5, "C", "24.5 °C"],
  [24, "C", "24 °C"],
  [fToC(75), "F", "75 °F"],
  [-4.4, "C", "−4.4 °C"],
  [-0.01, "C", "0 °C"],
] as const)("%d °C in °%s is shown as %s", (c, unit, shown) => {
  expect(showTemperature(c, unit)).toBe(shown)
})

test.each([
  [468, "g", "468 g"],
  [467.6, "g", "468 g"],
  [27.36, "g", "27.4 g"],
  [99.97, "g", "100 g"],
  [0.3, "g", "0.3 g"],
  [0.046, "g", "0.046 g"],
  [0, "g", "0 g"],
  [468, "oz", "1 lb 0.5 oz"],
  [453.59237, "oz", "1 lb"],
  [453.5, "oz", "1 lb"],
  [240, "oz", "8.5 oz"],
  [3, "oz", "0.11 oz"],
] as const)("%d g in %s is shown as %s", (g, unit, shown) => {
  expect(showMass(g, unit)).toBe(shown)
})

test.each([
  [0.684, "68.4 %"],
  [0.0197, "1.97 %"],
  [1, "100 %"],
])("a share of %d is shown as %s", (share, shown) => {
  expect(showShare(share)).toBe(shown)
})

test.each([
  [1.005 / 100, "1.01 %"],
  [0.615 * 1.1, "67.7 %"],
  [0.28 + 0.2565, "53.7 %"],
  [-0.00005, "−0.01 %"],
])("the noise of binary sums decides no digit of %d", (share, shown) => {
  expect(showShare(share)).toBe(shown)
})

test.each([
  [0.145, "0.15 g"],
  [100.5, "101 g"],
  [0.0995, "0.1 g"],
  [1.15, "1.2 g"],
] as const)("half of the last digit of %d g goes up", (g, shown) => {
  expect(showMass(g, "g")).toBe(shown)
})

test.each([
  [350, "350 ml"],
  [999.4, "999 ml"],
  [999.6, "1 l"],
  [2212.3, "2.2 l"],
])("%d ml is shown as %s", (ml, shown) => {
  expect(showVolume(ml)).toBe(shown)
})

test("a range is shown once when both ends look alike", () => {
  const grams = (g: number) => showMass(g, "g")
  expect(showRange({ low: 60, high: 90 }, grams)).toBe("60–90 g")
  expect(showRange({ low: 467.6, high: 468.2 }, grams)).toBe("468 g")
  expect(showRange({ low: 400, high: 500 }, (g) => showMass(g, "oz"))).toBe("14.1 oz – 1 lb 1.6 oz")
  expect(showRange({ low: -4, high: 2 }, (c) => showTemperature(c, "C"))).toBe("−4 °C to 2 °C")
})

test("Celsius and Fahrenheit are each other's inverse", () => {
  expect(cToF(fToC(75))).toBeCloseTo(75, 12)
})

test("what is not a number is never shown", () => {
  expect(() => showMass(Number.NaN, "g")).toThrow(RangeError)
  expect(() => showMass(Number.POSITIVE_INFINITY, "oz")).toThrow(RangeError)
})
