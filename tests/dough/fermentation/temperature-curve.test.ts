import { describe, expect, test } from "vitest"
import {
  assumedShare,
  doughCurve,
  heldOver,
  movingToward,
  type Span,
  stretchesOf,
} from "../../../server/dough/fermentation/temperature-curve.ts"

const clock = (hours: number) => new Date(Date.UTC(2025, 2, 8, 8) + hours * 3_600_000)
const reading = (hours: number, doughC: number) => ({ at: clock(hours), doughC })
const span = (from: number, to: number, more: Partial<Span> = {}): Span => ({
  startsAt: clock(from),
  endsAt: clock(to),
  ...more,
})
const fridge = (from: number, to: number, surroundingsC = 4) => span(from, to, { cold: true, surroundingsC })
const temperatureAt = (curve: ReturnType<typeof doughCurve>, hours: number) => {
  const next = curve.findIndex(({ at }) => at >= clock(hours))
  const [from, to] = [curve[Math.max(0, next - 1)]!, curve[next]!]
  const share = to === from || +to.at === +from.at ? 0 : (+clock(hours) - +from.at) / (+to.at - +from.at)
  return from.doughC + share * (to.doughC - from.doughC)
}

describe("the dough's temperature", () => {
  test("is unknown without a reading", () => {
    expect(doughCurve([], [span(0, 4)])).toEqual([])
  })

  test("is held, and called assumed, before the first and after the last reading", () => {
    const curve = doughCurve([reading(3, 26), reading(1, 24)], [span(0, 6)])
    expect(curve).toEqual([
      { ...reading(0, 24), known: "assumed" },
      { ...reading(1, 24), known: "measured" },
      { ...reading(3, 26), known: "measured" },
      { ...reading(6, 26), known: "assumed" },
    ])
  })

  test("falls toward the fridge's by Newton's law", () => {
    const curve = doughCurve([reading(0, 24)], [span(0, 2), fridge(2, 14)])
    for (const hours of [2.02, 4, 6, 9.99])
      expect(temperatureAt(curve, hours)).toBeCloseTo(4 + 20 * Math.exp(-(hours - 2) / 4), 1)
    expect(temperatureAt(curve, 1)).toBe(24)
  })

  test("in the fridge is followed closely enough for straight lines between points", () => {
    const curve = doughCurve([reading(0, 28)], [fridge(0, 12, 3)])
    for (const hours of [0.04, 0.21, 1.46, 11.63])
      expect(Math.abs(temperatureAt(curve, hours) - (3 + 25 * Math.exp(-hours / 4)))).toBeLessThan(0.05)
  })

  test("in the fridge is what a reading there says", () => {
    const curve = doughCurve([reading(0, 24), reading(4, 8), reading(12, 4)], [fridge(0, 12)])
    expect(temperatureAt(curve, 2)).toBe(16)
  })

  test("goes on from the fridge to the next reading", () => {
    const curve = doughCurve([reading(0, 24), reading(14, 18)], [fridge(2, 12), span(12, 15)])
    expect(temperatureAt(curve, 2)).toBe(24)
    expect(temperatureAt(curve, 12)).toBeCloseTo(4 + 20 * Math.exp(-2.5), 1)
    expect(temperatureAt(curve, 15)).toBe(18)
  })

  test("does not cool without a known fridge", () => {
    expect(temperatureAt(doughCurve([reading(0, 24)], [span(0, 12, { cold: true })]), 12)).toBe(24)
  })

  test("needs only few points for weeks in the fridge", () => {
    expect(doughCurve([reading(0, 24)], [fridge(0, 24 * 365)]).length).toBeLessThan(500)
  })

  test("refuses a stage that ends before it starts", () => {
    expect(() => doughCurve([reading(0, 24)], [span(2, 1)])).toThrow(RangeError)
  })
})

describe("a curve", () => {
  const curve = doughCurve([reading(1, 20), reading(3, 28)], [])

  test("is held beyond its ends only where that is asked for", () => {
    expect(heldOver(curve, clock(0), clock(4))).toEqual([
      { ...reading(0, 20), known: "assumed" },
      ...curve,
      { ...reading(4, 28), known: "assumed" },
    ])
    expect(heldOver(curve, clock(1), clock(2))).toEqual(curve)
  })

  test("in straight pieces is cut at both ends of the time asked for", () => {
    const pieces = stretchesOf(curve, clock(0), clock(2))
    expect(pieces.map(({ fromC, toC, assumed }) => [fromC, toC, assumed])).toEqual([
      [20, 20, true],
      [20, 24, false],
    ])
  })

  test("toward a proofer starts at the reading and ends near the proofer's temperature", () => {
    const points = movingToward(reading(0, 22), { surroundingsC: 28, tauHours: 1.5 }, clock(48))
    expect(points[0]).toEqual({ ...reading(0, 22), known: "assumed" })
    expect(points.at(-1)!.doughC).toBeCloseTo(28, 8)
    expect(movingToward(reading(0, 22), { surroundingsC: 28, tauHours: 1.5 }, clock(0))).toEqual([])
  })
})

describe("the assumed share", () => {
  const curve = doughCurve([reading(1, 24), reading(3, 24)], [span(0, 5)])

  test("is the time outside the readings", () => {
    expect(assumedShare(curve, clock(1), clock(3))).toBe(0)
    expect(assumedShare(curve, clock(0), clock(5))).toBeCloseTo(0.6, 10)
    expect(assumedShare(curve, clock(5), clock(9))).toBe(1)
  })

  test("counts the whole fridge when nothing was read there", () => {
    const cooled = doughCurve([reading(0, 24), reading(12, 5)], [fridge(0, 12)])
    expect(assumedShare(cooled, clock(0), clock(12))).toBe(1)
  })

  test("of no time is nothing", () => {
    expect(assumedShare(curve, clock(2), clock(2))).toBe(0)
  })
})
