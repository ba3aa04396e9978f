import fc from "fast-check"
import { expect, test } from "vitest"
import { theilSen } from "../../../server/dough/statistics/theil-sen.ts"
import { points, told } from "./values.ts"

const whole = (limit: number) => fc.integer({ min: -limit, max: limit })

test("points on a line give that line", () => {
  fc.assert(
    fc.property(fc.uniqueArray(whole(50), { minLength: 3, maxLength: 10 }), whole(9), whole(99), (xs, slope, at0) => {
      const line = told(theilSen(xs.map((x) => ({ x, y: at0 + slope * x }))))
      expect(line.slope).toBeCloseTo(slope, 12)
      expect(line.intercept).toBeCloseTo(at0, 12)
    }),
  )
})

test("one wild point among six does not move a line", () => {
  const line = told(theilSen([0, 1, 2, 3, 4, 5].map((x) => ({ x, y: x === 3 ? 900 : 2 * x + 1 }))))
  expect([line.slope, line.intercept]).toEqual([2, 1])
})

test("does not care for the order of the points, and tilts and shifts with them", () => {
  fc.assert(
    fc.property(points, whole(9), whole(99), (all, tilt, by) => {
      const answer = theilSen(all)
      fc.pre(answer.enough)
      const line = told(answer)
      expect(told(theilSen(all.toReversed())).slope).toBeCloseTo(line.slope, 9)
      const moved = told(theilSen(all.map(({ x, y }) => ({ x, y: y + tilt * x + by }))))
      expect(moved.slope).toBeCloseTo(line.slope + tilt, 9)
      expect(moved.intercept).toBeCloseTo(line.intercept + by, 9)
    }),
  )
})

test("the slope lies within its limits", () => {
  fc.assert(
    fc.property(points, (all) => {
      const answer = theilSen(all)
      fc.pre(answer.enough && answer.value.limits.enough)
      const { slope, limits } = told(answer)
      expect(told(limits).low).toBeLessThanOrEqual(slope)
      expect(told(limits).high).toBeGreaterThanOrEqual(slope)
    }),
  )
})

test("points one above the other make no slope with each other", () => {
  const line = told(
    theilSen([
      { x: 0, y: 0 },
      { x: 0, y: 500 },
      { x: 1, y: 1 },
    ]),
  )
  expect(line.slope).toBe((1 - 499) / 2)
})

test("four points have a slope but no limits; two, or one x for all, have neither", () => {
  const { limits } = told(theilSen([1, 2, 3, 4].map((x) => ({ x, y: x * x }))))
  expect(limits).toMatchObject({ enough: false, why: expect.stringMatching(/limits/) })
  expect(
    theilSen([
      { x: 1, y: 1 },
      { x: 2, y: 2 },
    ]),
  ).toMatchObject({ enough: false, why: expect.stringMatching(/3 points/) })
  expect(theilSen([1, 2, 3].map((y) => ({ x: 5, y })))).toMatchObject({
    enough: false,
    why: expect.stringMatching(/same x/),
  })
  expect(() => theilSen([{ x: Number.POSITIVE_INFINITY, y: 1 }])).toThrow(RangeError)
})
