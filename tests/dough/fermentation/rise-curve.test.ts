import { expect, test } from "vitest"
import {
  type Curve,
  type CurveReading,
  fitGompertz,
  fitLogistic,
  gompertz,
} from "../../../server/dough/fermentation/rise-curve.ts"
import { scatter } from "./scatter.ts"

const dough: Curve = { most: 0.9, perHour: 0.18, lagHours: 1.2 }
const read = (hours: number[], noise: (index: number) => number = () => 0): CurveReading[] =>
  hours.map((h, index) => ({ hours: h, rise: gompertz(dough, h) + noise(index) }))
const everyHour = [0, 1, 2, 3, 4, 5, 6, 7, 8, 9, 10]

test("a curve is found again from its own points, in any order", () => {
  const answer = fitGompertz(read(everyHour.toReversed()))
  expect(answer.enough && answer.value.most.value).toBeCloseTo(0.9, 6)
  expect(answer.enough && answer.value.perHour.value).toBeCloseTo(0.18, 6)
  expect(answer.enough && answer.value.lagHours.value).toBeCloseTo(1.2, 6)
})

test("standard errors tell how far fits of scattered readings lie apart", () => {
  const normal = scatter(1)
  const fits = Array.from({ length: 40 }, () => fitGompertz(read(everyHour, () => 0.02 * normal())))
  const most = fits.flatMap((fit) => (fit.enough ? [fit.value.most] : []))
  expect(most.length).toBe(40)
  const spread = Math.sqrt(most.reduce((sum, { value }) => sum + (value - 0.9) ** 2, 0) / most.length)
  const told = most.reduce((sum, { se }) => sum + se, 0) / most.length
  expect(told / spread).toBeGreaterThan(0.75)
  expect(told / spread).toBeLessThan(1.33)
})

test("four readings, or five at four times, are too few", () => {
  expect(fitGompertz(read([0, 2, 4, 8]))).toMatchObject({
    enough: false,
    why: expect.stringContaining("Too few points"),
  })
  expect(fitGompertz(read([0, 2, 4, 8, 8]))).toMatchObject({
    enough: false,
    why: expect.stringContaining("Too few points"),
  })
})

test.each([
  ["still speeding up", [0, 0.02, 0.05, 0.1, 0.18, 0.27, 0.38]],
  ["a straight line", [0, 0.1, 0.2, 0.3, 0.4, 0.5]],
  ["falling", [0.5, 0.4, 0.3, 0.2, 0.1, 0]],
  ["standing still", [0.5, 0.5, 0.5, 0.5, 0.5, 0.5]],
  ["no rise at all", [0, 0, 0, 0, 0, 0]],
])("readings that are %s do not bend, and no plateau is made up", (_, rises) => {
  const readings = rises.map((rise, hours) => ({ hours, rise }))
  const none = { enough: false, why: expect.stringContaining("do not bend") }
  expect(fitGompertz(readings)).toMatchObject(none)
  expect(fitLogistic(readings)).toMatchObject(none)
})

test("a reading that is no number is refused", () => {
  expect(() => fitLogistic([...read(everyHour), { hours: 11, rise: Number.NaN }])).toThrow(RangeError)
})
