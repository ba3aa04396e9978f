import fc from "fast-check"
import { Solver } from "odex"
import { describe, expect, test } from "vitest"
import { rate, referenceC } from "../../../server/dough/fermentation/growth.ts"
import {
  CurveDisorder,
  CurveGap,
  meanRate,
  referenceHours,
} from "../../../server/dough/fermentation/reference-hours.ts"
import { type CurvePoint, doughCurve } from "../../../server/dough/fermentation/temperature-curve.ts"

const start = Date.UTC(2025, 2, 8, 8)
const clock = (hours: number) => new Date(start + hours * 3_600_000)
const point = (hours: number, doughC: number): CurvePoint => ({ at: clock(hours), doughC, known: "measured" })
const cultures = ["sourdough", "baker's yeast"] as const

describe("reference hours", () => {
  test("at a steady temperature are hours times its rate", () => {
    expect(referenceHours([point(0, 21), point(5, 21)], clock(0), clock(5))).toBeCloseTo(5 * rate(21), 12)
  })

  test.each(cultures)("of %s follow a change as an independent integrator does", (culture) => {
    for (const [fromC, toC] of [
      [4, 35],
      [20, 42],
      [30, 24],
      [35, 36.5],
      [-3, 12],
      [1, 45],
    ] as const) {
      const [lowC, highC] = [Math.min(fromC, toC), Math.max(fromC, toC)]
      const kinks = [lowC, 2.8, 36, highC].filter((c) => c >= lowC && c <= highC)
      const areas = kinks.slice(1).map((c, index) => area(culture, kinks[index]!, c))
      const mean = areas.reduce((a, b) => a + b) / (highC - lowC)
      expect(Math.abs(meanRate(fromC, toC, culture) / mean - 1)).toBeLessThan(1e-9)
    }
  })

  test("are more for a warmer dough", () => {
    const at = (doughC: number) => referenceHours([point(0, doughC), point(4, doughC)], clock(0), clock(4))
    expect(at(18)).toBeLessThan(at(21))
    expect(at(21)).toBeLessThan(at(26))
  })

  test("take two temperatures at one instant as a jump", () => {
    const curve = [point(0, 20), point(2, 20), point(2, 26), point(3, 26)]
    expect(referenceHours(curve, clock(0), clock(3))).toBeCloseTo(2 * rate(20) + rate(26), 12)
  })
})

/** ∫ rate dT by the extrapolation method of Gragg, Bulirsch and Stoer. */
function area(culture: (typeof cultures)[number], fromC: number, toC: number) {
  if (toC === fromC) return 0
  const solver = new Solver(1)
  solver.absoluteTolerance = solver.relativeTolerance = 1e-13
  return solver.solve((c) => [rate(c, culture)], fromC, [0], toC).y[0]!
}

describe("over any curve, reference hours", () => {
  const step = fc.record({
    minutes: fc.integer({ min: 0, max: 300 }),
    doughC: fc.double({ min: -5, max: 60, noNaN: true }),
  })
  const curves = fc.array(step, { minLength: 2, maxLength: 20 }).map((steps) => {
    let hours = 0
    return steps.map(({ minutes, doughC }) => {
      hours += minutes / 60
      return point(hours, doughC)
    })
  })

  test.each(cultures)("of %s add up over time", (culture) => {
    fc.assert(
      fc.property(curves, fc.nat(1000), fc.nat(1000), (curve, a, b) => {
        const [first, last] = [+curve[0]!.at, +curve.at(-1)!.at]
        const [from, cut] = [a, b]
          .sort((x, y) => x - y)
          .map((share) => new Date(first + ((last - first) * share) / 1000))
        const to = curve.at(-1)!.at
        const hours = (startsAt: Date, endsAt: Date) => referenceHours(curve, startsAt, endsAt, culture)
        expect(hours(from!, cut!) + hours(cut!, to)).toBeCloseTo(hours(from!, to), 9)
      }),
    )
  })

  test.each(cultures)("of %s are elapsed hours where the dough is at the reference temperature", (culture) => {
    fc.assert(
      fc.property(curves, (curve) => {
        const steady = curve.map(({ at }): CurvePoint => ({ at, doughC: referenceC, known: "measured" }))
        const [from, to] = [steady[0]!.at, steady.at(-1)!.at]
        expect(referenceHours(steady, from, to, culture)).toBeCloseTo((+to - +from) / 3_600_000, 9)
      }),
    )
  })
})

describe("reference hours are refused", () => {
  const curve = [point(1, 20), point(3, 24)]

  test("before the curve begins and after it ends, naming the instant", () => {
    expect(() => referenceHours(curve, clock(0), clock(2))).toThrow(CurveGap)
    expect(() => referenceHours(curve, clock(0), clock(2))).toThrow("not known at 2025-03-08T08:00:00.000Z")
    expect(() => referenceHours(curve, clock(2), clock(4))).toThrow("not known at 2025-03-08T12:00:00.000Z")
    expect(() => referenceHours([], clock(0), clock(1))).toThrow(CurveGap)
  })

  test("where the curve says no temperature", () => {
    expect(() => referenceHours([point(1, 20), point(2, Number.NaN), point(3, 20)], clock(1), clock(3))).toThrow(
      CurveGap,
    )
  })

  test("where the curve goes back in time, or its time is none", () => {
    const back = [point(1, 20), point(3, 24), point(2, 22), point(4, 20)]
    expect(() => referenceHours(back, clock(1), clock(4))).toThrow(CurveDisorder)
    expect(() => referenceHours(back, clock(1), clock(4))).toThrow("back in time at 2025-03-08T10:00:00.000Z")
    expect(() => referenceHours([point(1, 20), point(Number.NaN, 24)], clock(1), clock(1))).toThrow(CurveDisorder)
  })

  test("for an end before the start, and for a temperature no dough has", () => {
    expect(() => referenceHours(curve, clock(3), clock(1))).toThrow(RangeError)
    expect(() => referenceHours([point(1, 20), point(3, 75)], clock(1), clock(3))).toThrow(RangeError)
  })

  test("not for a curve that doughCurve drew over its stages", () => {
    const drawn = doughCurve([{ at: clock(2), doughC: 24 }], [{ startsAt: clock(0), endsAt: clock(5) }])
    expect(referenceHours(drawn, clock(0), clock(5))).toBeCloseTo(5, 12)
  })
})
