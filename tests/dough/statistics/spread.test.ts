import fc from "fast-check"
import { jStat } from "jstat"
import { expect, test } from "vitest"
import {
  median,
  medianAbsoluteDeviation,
  modifiedZ,
  quantile,
  robustSigma,
} from "../../../server/dough/statistics/spread.ts"
import { shuffled, told, values } from "./values.ts"

const ofOne = { median, medianAbsoluteDeviation, robustSigma, quartile: (all: number[]) => quantile(all, 0.25) }

test.each(Object.entries(ofOne))("%s does not care for the order of the values", (_, statistic) => {
  fc.assert(
    fc.property(shuffled, ([all, again]) => {
      expect(told(statistic(again))).toBeCloseTo(told(statistic(all)), 12)
    }),
  )
})

test.each(Object.entries({ median, quartile: ofOne.quartile }))("%s moves with its values", (_, statistic) => {
  fc.assert(
    fc.property(values, fc.double({ min: -50, max: 50, noNaN: true }), (all, by) => {
      expect(told(statistic(all.map((one) => one + by)))).toBeCloseTo(told(statistic(all)) + by, 9)
      expect(told(statistic(all.map((one) => 3 * one)))).toBeCloseTo(3 * told(statistic(all)), 9)
    }),
  )
})

test("spread stays when the values move, grows with them, and does not turn with their sign", () => {
  fc.assert(
    fc.property(values, fc.double({ min: -50, max: 50, noNaN: true }), (all, by) => {
      const spread = told(robustSigma(all))
      expect(told(robustSigma(all.map((one) => one + by)))).toBeCloseTo(spread, 9)
      expect(told(robustSigma(all.map((one) => -3 * one)))).toBeCloseTo(3 * spread, 9)
    }),
  )
})

test("quantiles agree with another library's type 7", () => {
  fc.assert(
    fc.property(values, fc.double({ min: 0, max: 1, noNaN: true }), (all, share) => {
      expect(told(quantile(all, share))).toBeCloseTo(jStat.quantiles(all, [share], 1, 1)[0]!, 9)
    }),
  )
})

test("half of the modified z lie within one MAD", () => {
  fc.assert(
    fc.property(values, (all) => {
      const z = modifiedZ(all)
      fc.pre(z.enough)
      const near = told(z).filter((one) => Math.abs(one) <= 0.6745 + 1e-9)
      expect(near.length).toBeGreaterThanOrEqual(all.length / 2)
    }),
  )
})

test("with more than half of the values alike nothing is called far", () => {
  expect(modifiedZ([5, 5, 5, 9])).toEqual({ enough: false, why: expect.stringContaining("More than half") })
  expect(medianAbsoluteDeviation([5, 5, 5, 9])).toEqual({ enough: true, value: 0 })
})

test.each(Object.entries({ ...ofOne, modifiedZ }))("%s of two values is not enough", (_, statistic) => {
  expect(statistic([1, 2])).toEqual({ enough: false, why: "At least 3 values are needed; there are 2." })
})

test("refuses what is no number, and a share beyond the values", () => {
  expect(() => median([1, 2, Number.NaN])).toThrow(RangeError)
  expect(() => modifiedZ([1, Number.POSITIVE_INFINITY])).toThrow(RangeError)
  expect(() => quantile([1, 2, 3], 1.01)).toThrow(RangeError)
})
