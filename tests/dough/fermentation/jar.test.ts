import fc from "fast-check"
import { expect, test } from "vitest"
import { riseOfMarks } from "../../../server/dough/fermentation/jar.ts"

test("60 mm on 40 is +50 %, with the error of both marks", () => {
  const { rise, sd } = riseOfMarks({ startMm: 40, nowMm: 60, readingErrorMm: 1 })
  expect(rise).toBeCloseTo(0.5, 12)
  expect(sd).toBeCloseTo(Math.hypot(1 / 40, 60 / 1600), 12)
})

test("a fallen sample has a rise below 0", () => {
  expect(riseOfMarks({ startMm: 50, nowMm: 45 }).rise).toBeCloseTo(-0.1, 12)
})

test("the error scatters as many readings of the same marks would", () => {
  const marks = fc.record({ startMm: fc.integer({ min: 40, max: 80 }), nowMm: fc.integer({ min: 60, max: 160 }) })
  fc.assert(
    fc.property(marks, ({ startMm, nowMm }) => {
      const errorsMm = [-1.5, -0.5, 0.5, 1.5] // standard deviation √1.25
      const rises = errorsMm.flatMap((a) => errorsMm.map((b) => (nowMm + a) / (startMm + b) - 1))
      const mean = rises.reduce((sum, rise) => sum + rise, 0) / rises.length
      const sd = Math.sqrt(rises.reduce((sum, rise) => sum + (rise - mean) ** 2, 0) / rises.length)
      expect(riseOfMarks({ startMm, nowMm, readingErrorMm: Math.sqrt(1.25) }).sd / sd).toBeCloseTo(1, 1)
    }),
  )
})

test("marks that are none are refused", () => {
  expect(() => riseOfMarks({ startMm: 0, nowMm: 50 })).toThrow(RangeError)
  expect(() => riseOfMarks({ startMm: 50, nowMm: Number.NaN })).toThrow(RangeError)
  expect(() => riseOfMarks({ startMm: 50, nowMm: 60, readingErrorMm: 0 })).toThrow(RangeError)
})
