import fc from "fast-check"
import { expect, test } from "vitest"
import { hodgesLehmann, hodgesLehmannShift } from "../../../server/dough/statistics/hodges-lehmann.ts"
import { shuffled, told, values } from "./values.ts"

test("the order of the values does not matter", () => {
  fc.assert(
    fc.property(shuffled, ([all, again]) => {
      expect(told(hodgesLehmann(again))).toBeCloseTo(told(hodgesLehmann(all)), 9)
      expect(told(hodgesLehmannShift(again, [1, 2, 4]))).toBeCloseTo(told(hodgesLehmannShift(all, [1, 2, 4])), 9)
    }),
  )
})

test("values spread alike to both sides have their middle there", () => {
  fc.assert(
    fc.property(values, fc.integer({ min: -50, max: 50 }), (all, middle) => {
      const mirrored = all.flatMap((one) => [middle + one, middle - one])
      expect(told(hodgesLehmann(mirrored))).toBeCloseTo(middle, 9)
    }),
  )
})

test("a group moved by so much is shifted by so much, and back the other way", () => {
  fc.assert(
    fc.property(values, values, fc.integer({ min: -50, max: 50 }), (from, to, by) => {
      const shift = told(hodgesLehmannShift(from, to))
      expect(
        told(
          hodgesLehmannShift(
            from,
            to.map((one) => one + by),
          ),
        ),
      ).toBeCloseTo(shift + by, 9)
      expect(told(hodgesLehmannShift(to, from))).toBeCloseTo(-shift, 9)
      expect(
        told(
          hodgesLehmannShift(
            from,
            from.map((one) => one + by),
          ),
        ),
      ).toBeCloseTo(by, 9)
    }),
  )
})

test("a group of two is not enough, on either side", () => {
  const few = { enough: false, why: "At least 3 values are needed; there are 2." }
  expect(hodgesLehmann([1, 2])).toEqual(few)
  expect(hodgesLehmannShift([1, 2], [1, 2, 3])).toEqual(few)
  expect(hodgesLehmannShift([1, 2, 3], [1, 2])).toEqual(few)
  expect(() => hodgesLehmann([1, 2, Number.NaN])).toThrow(RangeError)
})
