import { expect, test } from "vitest"
import { tendsToC, towardSurroundingsC } from "../../../server/dough/heat/newton.ts"

const loaf = { startC: 25, surroundingsC: 4, tauHours: 4 }

test("a dough starts at its own temperature and ends at that of its surroundings", () => {
  expect(towardSurroundingsC({ ...loaf, hours: 0 })).toBe(25)
  expect(towardSurroundingsC({ ...loaf, hours: 1000 })).toBeCloseTo(4, 10)
})

test("after one time constant 37 % of the difference is left, cooling or warming", () => {
  expect(towardSurroundingsC({ ...loaf, hours: 4 })).toBeCloseTo(4 + 21 / Math.E, 10)
  expect(towardSurroundingsC({ startC: 4, surroundingsC: 25, tauHours: 4, hours: 4 })).toBeCloseTo(25 - 21 / Math.E, 10)
})

test("two stretches after each other are the same as one", () => {
  const startC = towardSurroundingsC({ ...loaf, hours: 1.5 })
  expect(towardSurroundingsC({ ...loaf, startC, hours: 2 })).toBeCloseTo(
    towardSurroundingsC({ ...loaf, hours: 3.5 }),
    10,
  )
})

test("a dough that heats itself ends above its surroundings, and begins to warm at that rate", () => {
  const dough = { startC: 24, surroundingsC: 24, tauHours: 5, selfHeatingCPerHour: 1.5 }
  expect(tendsToC(dough)).toBe(31.5)
  expect((towardSurroundingsC({ ...dough, hours: 0.001 }) - 24) / 0.001).toBeCloseTo(1.5, 2)
})

test("what cannot be is refused", () => {
  expect(() => towardSurroundingsC({ ...loaf, hours: -1 })).toThrow(RangeError)
  expect(() => towardSurroundingsC({ ...loaf, tauHours: 0, hours: 1 })).toThrow(RangeError)
  expect(() => towardSurroundingsC({ ...loaf, startC: Number.NaN, hours: 1 })).toThrow(RangeError)
})
