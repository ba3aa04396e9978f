import { describe, expect, test } from "vitest"
import { yeastGrowthPerHour } from "../../server/dough/fermentation/growth.ts"
import { doughCurve } from "../../server/dough/fermentation/temperature-curve.ts"
import { fToC } from "../../server/dough/units.ts"

const within = (actual: number, printed: number, tolerance: number) =>
  expect(Math.abs(actual - printed)).toBeLessThanOrEqual(tolerance)

/** Rows written down from memory of the table by M. Gänzle in the rec.food.sourdough FAQ no. 37. */
test.each([
  [2, 0.005],
  [4, 0.008],
  [6, 0.013],
  [8, 0.021],
  [10, 0.033],
  [16, 0.114],
  [18, 0.163],
  [20, 0.225],
])("yeast at %d °C grows by %d per hour (Gänzle, Ehmann & Hammes 1998, remembered rows)", (doughC, perHour) => {
  within(yeastGrowthPerHour(doughC), perHour, 0.001)
})

describe("yeast relative to its optimum (M. Gänzle, rec.food.sourdough FAQ no. 39, rounded rules of thumb)", () => {
  test.each([
    [14, 0.25],
    [20, 0.5],
    [32, 0.5],
    [34, 0.25],
  ])("at %d °C about %d", (doughC, share) => {
    within(yeastGrowthPerHour(doughC) / yeastGrowthPerHour(27), share, 0.15)
  })
})

test("the optimum is near 27 °C (Gänzle, Ehmann & Hammes 1998) and 28 °C in rye (Brandt, Hammes & Gänzle 2004)", () => {
  const tenths = Array.from({ length: 400 }, (_, i) => i / 10)
  const bestC = tenths.reduce((best, c) => (yeastGrowthPerHour(c) > yeastGrowthPerHour(best) ? c : best))
  within(bestC, 27, 0.5)
  within(bestC, 28, 1)
})

test("at 35 °C it is as good as stopped (Brandt, Hammes & Gänzle 2004, rye dough)", () => {
  within(yeastGrowthPerHour(35) / yeastGrowthPerHour(27), 0, 0.03)
})

test("from 40 to 75 °F it doubles about every 7 °F (D. Adams, rec.food.sourdough FAQ no. 37)", () => {
  const doublings = Math.log2(yeastGrowthPerHour(fToC(75)) / yeastGrowthPerHour(fToC(40)))
  within(35 / doublings, 7, 0.6)
})

test("a shaped dough takes about 10 h in a refrigerator to 4 °C (T. Cucuzza, lecture, 2024)", () => {
  const startsAt = new Date("2025-03-08T20:00:00Z")
  const endsAt = new Date(+startsAt + 24 * 3_600_000)
  const curve = doughCurve([{ at: startsAt, doughC: 25 }], [{ startsAt, endsAt, surroundingsC: 2.5, cold: true }])
  const cold = curve.find(({ doughC }) => doughC <= 4)!
  within((+cold.at - +startsAt) / 3_600_000, 10, 1.5)
})
