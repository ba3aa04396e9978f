import { Solver } from "odex"
import { expect, test } from "vitest"
import { evensOutHours } from "../../../server/dough/heat/conduction.ts"
import {
  hoursToReach,
  refrigeratedLoafTauHours,
  tauForMassHours,
  tendsToC,
  throughStaysC,
  towardSurroundingsC,
} from "../../../server/dough/heat/newton.ts"

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

test("the hours to a temperature lead to that temperature", () => {
  const reached = hoursToReach({ ...loaf, targetC: 8 })
  expect(reached.kind).toBe("reached")
  const hours = reached.kind === "reached" ? reached.hours : Number.NaN
  expect(towardSurroundingsC({ ...loaf, hours })).toBeCloseTo(8, 10)
  expect(hoursToReach({ ...loaf, targetC: 25 })).toEqual({ kind: "reached", hours: 0 })
})

test.each([
  ["colder than the refrigerator", 3],
  ["as cold as the refrigerator", 4],
  ["warmer than it begins", 26],
])("what is %s is never reached, and the answer says where it ends", (_what, targetC) => {
  expect(hoursToReach({ ...loaf, targetC })).toEqual({ kind: "never", endC: 4 })
})

test("a night in the refrigerator and two hours out of it", () => {
  const [cold, warmer] = throughStaysC(25, [
    { surroundingsC: 4, tauHours: 4, hours: 12 },
    { surroundingsC: 22, tauHours: 3, hours: 2 },
  ])
  expect(cold).toBeCloseTo(4 + 21 * Math.exp(-3), 10)
  expect(warmer).toBeCloseTo(22 + (cold! - 22) * Math.exp(-2 / 3), 10)
})

test("Newton's law agrees with its differential equation, solved step by step", () => {
  const { startC, surroundingsC, tauHours, selfHeatingCPerHour } = { ...loaf, selfHeatingCPerHour: 0.8 }
  const perHour = (_hours: number, [c]: number[]) => [(surroundingsC - c!) / tauHours + selfHeatingCPerHour]
  const { y } = new Solver(1).solve(perHour, 0, [startC], 7)
  expect(towardSurroundingsC({ startC, surroundingsC, tauHours, selfHeatingCPerHour, hours: 7 })).toBeCloseTo(y[0]!, 5)
})

test("eight times the dough takes two to four times as long, and an eighth as much less", () => {
  const eight = tauForMassHours({ tauHours: 4, ofG: 800, forG: 6400 })
  expect([eight.low, eight.high]).toEqual([expect.closeTo(8, 9), expect.closeTo(16, 9)])
  const eighth = tauForMassHours({ tauHours: 4, ofG: 800, forG: 100 })
  expect([eighth.low, eighth.high]).toEqual([expect.closeTo(1, 9), expect.closeTo(2, 9)])
  expect(() => tauForMassHours({ tauHours: 4, ofG: 800, forG: 0 })).toThrow(RangeError)
})

test("a loaf's worth of dough evens out far sooner than it cools, so that one temperature stands for all of it", () => {
  expect(evensOutHours({ massG: 900, gasShare: 0 })).toBeLessThan(refrigeratedLoafTauHours / 8)
})
