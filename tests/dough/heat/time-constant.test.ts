import { expect, test } from "vitest"
import { towardSurroundingsC } from "../../../server/dough/heat/newton.ts"
import { fitTau, type TimedReading } from "../../../server/dough/heat/time-constant.ts"

const fridgeC = 4
const exact = (tauHours: number, at: number[], startC = 25) =>
  at.map((hours) => ({ hours, doughC: towardSurroundingsC({ startC, surroundingsC: fridgeC, tauHours, hours }) }))
const shaken = (readings: TimedReading[], byC: number[]) =>
  readings.map((one, i) => ({ ...one, doughC: one.doughC + byC[i]! }))
const noise = [0.4, -0.6, 0.5, 0.1, -0.7, 0.6, -0.3]

test.each([0.5, 2, 4, 9])("readings on a curve of %d h give that time constant", (tauHours) => {
  const fit = fitTau(exact(tauHours, [0, 1, 2, 4, 8]), fridgeC)
  expect(fit.kind).toBe("fitted")
  if (fit.kind !== "fitted") return
  expect(fit.tauHours).toBeCloseTo(tauHours, 6)
  expect(fit.startC).toBeCloseTo(25, 6)
})

test("a dough that warms up on the counter is fitted as well as one that cools", () => {
  const readings = [0, 0.5, 1, 2, 3].map((hours) => ({
    hours,
    doughC: towardSurroundingsC({ startC: 5, surroundingsC: 22, tauHours: 2.5, hours }),
  }))
  expect(fitTau(readings, 22)).toMatchObject({ kind: "fitted", tauHours: expect.closeTo(2.5, 6) })
})

test("readings that scatter have the least squares that a search finds, and its standard error", () => {
  const readings = shaken(exact(4, [0, 1, 2, 3, 5, 7, 10]), noise)
  const squares = (startC: number, perHour: number) =>
    readings.reduce(
      (sum, { hours, doughC }) => sum + (doughC - fridgeC - (startC - fridgeC) * Math.exp(-perHour * hours)) ** 2,
      0,
    )
  /** For a given rate the best start has a closed form. */
  const bestStartC = (perHour: number) => {
    const left = readings.map(({ hours }) => Math.exp(-perHour * hours))
    const fit = readings.reduce((sum, { doughC }, i) => sum + (doughC - fridgeC) * left[i]!, 0)
    return fridgeC + fit / left.reduce((sum, one) => sum + one ** 2, 0)
  }
  const rates = Array.from({ length: 40_000 }, (_, i) => 0.1 + i * 1e-5)
  const misfit = rates.map((perHour) => squares(bestStartC(perHour), perHour))
  const perHour = rates[misfit.indexOf(Math.min(...misfit))]!
  const startC = bestStartC(perHour)

  const fit = fitTau(readings, fridgeC)
  expect(fit.kind).toBe("fitted")
  if (fit.kind !== "fitted") return
  expect(fit.startC).toBeCloseTo(startC, 2)
  expect(fit.tauHours).toBeCloseTo(1 / perHour, 3)

  // the curvature of the sum of squares at its lowest point: covariance = 2s²·H⁻¹
  const d = 1e-3
  const at = (a: number, b: number) => squares(startC + a * d, perHour + b * d)
  const [aa, bb] = [at(1, 0) + at(-1, 0) - 2 * at(0, 0), at(0, 1) + at(0, -1) - 2 * at(0, 0)].map((x) => x / d ** 2)
  const ab = (at(1, 1) - at(1, -1) - at(-1, 1) + at(-1, -1)) / (4 * d ** 2)
  const variance = (2 * at(0, 0)) / (readings.length - 2)
  const errorPerHour = Math.sqrt((variance * aa!) / (aa! * bb! - ab ** 2))
  expect((fit.standardErrorHours * perHour ** 2) / errorPerHour).toBeGreaterThan(0.95)
  expect((fit.standardErrorHours * perHour ** 2) / errorPerHour).toBeLessThan(1.05)
})

test("more scatter means a larger standard error", () => {
  const error = (factor: number) => {
    const readings = shaken(
      exact(4, [0, 1, 2, 3, 5, 7, 10]),
      noise.map((one) => one * factor),
    )
    const fit = fitTau(readings, fridgeC)
    return fit.kind === "fitted" ? fit.standardErrorHours : Number.NaN
  }
  expect(error(2)).toBeGreaterThan(1.7 * error(1))
})

test("three readings at two moments are too few", () => {
  const readings = exact(4, [0, 3])
  expect(fitTau([...readings, readings[1]!], fridgeC)).toEqual({ kind: "too few", moments: 2, needed: 3 })
  expect(fitTau([], fridgeC)).toEqual({ kind: "too few", moments: 0, needed: 3 })
})

test.each([
  ["stay where they are", [20, 20.1, 19.9, 20]],
  ["move away from the refrigerator", [18, 19, 20, 21]],
  ["jump about", [20, 12, 21, 13]],
  ["are the refrigerator's own from the start", [4.1, 3.9, 4, 4.1]],
])("readings that %s have no time constant", (_what, temperatures) => {
  const readings = temperatures.map((doughC, hours) => ({ hours, doughC }))
  expect(fitTau(readings, fridgeC)).toEqual({ kind: "not toward" })
})

test("a reading that is no number is refused", () => {
  expect(() => fitTau([{ hours: 0, doughC: Number.NaN }], fridgeC)).toThrow(RangeError)
})
