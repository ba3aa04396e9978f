import fc from "fast-check"
import { expect, test } from "vitest"
import { asInstant } from "../../../server/dough/fermentation/bakers-yeast.ts"
import { gasMade, gasPerHour, hoursToGas, type Leaven, shareToMake } from "../../../server/dough/fermentation/leaven.ts"

const leavens: Leaven[] = [
  { culture: "sourdough", share: 0.15 },
  { culture: "baker's yeast", share: 0.008 },
]

test.each(leavens)("gas, hours and share of $culture are told from each other", (leaven) => {
  fc.assert(
    fc.property(fc.double({ min: 0.05, max: 20, noNaN: true }), (hours) => {
      const gas = gasMade(leaven, hours)
      expect(hoursToGas(leaven, gas)).toBeCloseTo(hours, 7)
      expect(shareToMake(leaven.culture, gas, hours) / leaven.share).toBeCloseTo(1, 7)
      const slope = (gasMade(leaven, hours + 1e-4) - gasMade(leaven, hours - 1e-4)) / 2e-4
      expect(gasPerHour(leaven, hours) / slope).toBeCloseTo(1, 5)
    }),
  )
})

test("baker's yeast makes gas in proportion to its share and to the time", () => {
  expect(gasMade({ culture: "baker's yeast", share: 0.02 }, 3)).toBeCloseTo(6, 12)
})

test("fresh, active dry and instant yeast are told in one", () => {
  expect(asInstant(0.03, "fresh")).toBeCloseTo(0.0099, 12)
  expect(asInstant(0.012, "active dry")).toBeCloseTo(0.0099, 12)
  expect(asInstant(0.01, "instant")).toBe(0.01)
})

test.each(leavens)("a share of $culture outside 0 to 1 is refused, and time before the start", (leaven) => {
  expect(() => gasMade({ ...leaven, share: 0 }, 1)).toThrow(RangeError)
  expect(() => gasMade({ ...leaven, share: 1.2 }, 1)).toThrow(RangeError)
  expect(() => gasMade(leaven, -1)).toThrow(RangeError)
})
