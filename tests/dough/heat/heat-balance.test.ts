import fc from "fast-check"
import { expect, test } from "vitest"
import {
  doughSpreadC,
  heatShares,
  kneadingRiseC,
  mixedDoughC,
  neededWaterC,
} from "../../../server/dough/heat/heat-balance.ts"
import { specificHeatOf, specificHeatOfMix, specificHeats } from "../../../server/dough/heat/specific-heat.ts"
import {
  baseC,
  frictionC,
  frictionOfRise,
  multiplierWaterC,
  waterFromBaseC,
} from "../../../server/dough/heat/water-temperature.ts"

const flour = { name: "flour", mass: 500, kJPerKgK: specificHeats.flour, tempC: 20 }
const levain = { name: "levain", mass: 100, kJPerKgK: 3, tempC: 26 }
const loaf = { waterMass: 325, additions: [flour, levain], riseC: 2 }

test("water and flour alike, and no kneading: the dough is what they are", () => {
  expect(mixedDoughC({ waterMass: 300, additions: [flour], riseC: 0 }, 20)).toBeCloseTo(20, 12)
  expect(neededWaterC({ waterMass: 300, additions: [flour], riseC: 0 }, 20)).toBeCloseTo(20, 12)
})

test("a hand reckoning: 500 g flour at 20 °C, 325 g water, 24 °C wanted, 2 °C from kneading", () => {
  // 500·1.84·(22 − 20) = 1840, over 325·4.185 = 1360.1, makes 1.353 above 22
  expect(neededWaterC({ ...loaf, additions: [flour] }, 24)).toBeCloseTo(23.353, 3)
})

const degrees = fc.double({ min: -20, max: 45, noNaN: true })
test("water, dough and kneading rise are the same relation read three ways", () => {
  fc.assert(
    fc.property(degrees, degrees, fc.double({ min: 50, max: 900, noNaN: true }), (waterC, flourC, waterMass) => {
      const mix = { waterMass, additions: [{ ...flour, tempC: flourC }, levain], riseC: 1.5 }
      const doughC = mixedDoughC(mix, waterC)
      expect(neededWaterC(mix, doughC)).toBeCloseTo(waterC, 8)
      expect(kneadingRiseC({ ...mix, waterC, doughC })).toBeCloseTo(1.5, 8)
    }),
  )
})

test("the shares of the heat are the slopes of the dough's temperature, and add up to all of it", () => {
  const { water, additions } = heatShares(loaf)
  expect(mixedDoughC(loaf, 21) - mixedDoughC(loaf, 20)).toBeCloseTo(water, 10)
  expect(water + additions.reduce((sum, one) => sum + one, 0)).toBeCloseTo(1, 12)
})

test("a dough is never surer than its kneading, nor much less sure when that is known", () => {
  expect(doughSpreadC(loaf, 1)).toBeGreaterThan(1)
  expect(doughSpreadC(loaf, 0)).toBeLessThan(0.5)
})

test("without water, or with a temperature that is none, there is no answer", () => {
  expect(() => neededWaterC({ ...loaf, waterMass: 0 }, 24)).toThrow(RangeError)
  expect(() => neededWaterC({ ...loaf, additions: [{ ...flour, tempC: Number.NaN }] }, 24)).toThrow(RangeError)
})

test("mixing by mass agrees with mixing by composition", () => {
  const byMass = specificHeatOfMix([
    { mass: 60, kJPerKgK: specificHeatOf({ water: 100 })! },
    { mass: 40, kJPerKgK: specificHeatOf({ water: 0, fat: 100 })! },
  ])
  expect(byMass).toBeCloseTo(specificHeatOf({ water: 60, fat: 40 })!, 12)
})

test("a composition without its water, or of more than there is, has no specific heat", () => {
  expect(specificHeatOf({ fat: 20 })).toBeUndefined()
  expect(specificHeatOf({ water: 70, fat: 60 })).toBeUndefined()
  expect(() => specificHeatOfMix([])).toThrow(RangeError)
})

test("(wanted − rise)·n − the others is the multiplier method with n times the rise as friction", () => {
  fc.assert(
    fc.property(
      degrees,
      fc.double({ min: 0, max: 8, noNaN: true }),
      fc.array(degrees, { maxLength: 4 }),
      (doughC, riseC, othersC) => {
        const terms = othersC.length + 1
        const byRise = (doughC - riseC) * terms - othersC.reduce((sum, one) => sum + one, 0)
        expect(multiplierWaterC({ doughC, othersC, frictionC: frictionOfRise({ terms, riseC }) })).toBeCloseTo(
          byRise,
          8,
        )
      },
    ),
  )
})

test("the friction of an earlier dough gives that dough's water back", () => {
  const earlier = { doughC: 25.5, othersC: [22, 21, 27], waterC: 30 }
  expect(multiplierWaterC({ ...earlier, frictionC: frictionC(earlier) })).toBeCloseTo(30, 12)
})

test("a base temperature and a friction factor say the same for room, flour and water", () => {
  const base = baseC({ doughC: 25, frictionC: 12 })
  expect(waterFromBaseC({ baseC: base, roomC: 23, flourC: 21 })).toBeCloseTo(
    multiplierWaterC({ doughC: 25, othersC: [23, 21], frictionC: 12 }),
    12,
  )
})
