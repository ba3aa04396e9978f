import { describe, expect, test } from "vitest"
import { rate, referenceC, referenceHours, yeastGrowthPerHour } from "../../server/dough/fermentation/growth.ts"
import { assumedShare, doughCurve, type Span } from "../../server/dough/fermentation/temperature-curve.ts"

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

describe("rate", () => {
  test("is one at the reference temperature", () => {
    expect(rate(referenceC)).toBe(1)
  })

  test("peaks at 27 °C and is nothing from 36 °C", () => {
    expect(yeastGrowthPerHour(26.9)).toBeLessThan(yeastGrowthPerHour(27))
    expect(yeastGrowthPerHour(27.1)).toBeLessThan(yeastGrowthPerHour(27))
    expect([rate(36), rate(45)]).toEqual([0, 0])
  })

  test.each([-6, 61, Number.NaN])("refuses %d °C", (doughC) => {
    expect(() => rate(doughC)).toThrow(RangeError)
  })
})

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

describe("reference hours", () => {
  test("at a steady temperature are hours times its rate", () => {
    const curve = doughCurve([reading(0, 21), reading(5, 21)], [])
    expect(referenceHours(curve, clock(0), clock(5))).toBeCloseTo(5 * rate(21), 10)
  })

  test("add up over parts, and hold the ends of the curve", () => {
    const curve = doughCurve([reading(1, 20), reading(3, 29)], [])
    const whole = referenceHours(curve, clock(0), clock(5))
    expect(whole).toBeCloseTo(
      referenceHours(curve, clock(0), clock(2.2)) + referenceHours(curve, clock(2.2), clock(5)),
      8,
    )
    expect(referenceHours(curve, clock(0), clock(1))).toBeCloseTo(rate(20), 10)
    expect(referenceHours(curve, clock(3), clock(5))).toBeCloseTo(2 * rate(29), 10)
  })

  test.each([
    [4, 35],
    [20, 40],
    [30, 24],
  ])("follow a change from %d to %d °C to better than 0.1 %%", (fromC, toC) => {
    const curve = doughCurve([reading(0, fromC), reading(6, toC)], [])
    const steps = 20_000
    const middle = (step: number) => fromC + ((toC - fromC) * (step + 0.5)) / steps
    const fine = Array.from({ length: steps }, (_, step) => (6 / steps) * rate(middle(step))).reduce((a, b) => a + b)
    expect(Math.abs(referenceHours(curve, clock(0), clock(6)) / fine - 1)).toBeLessThan(0.001)
  })

  test("are more for a warmer dough", () => {
    const at = (doughC: number) => referenceHours(doughCurve([reading(0, doughC)], []), clock(0), clock(4))
    expect(at(18)).toBeLessThan(at(21))
    expect(at(21)).toBeLessThan(at(26))
  })

  test("refuse an empty curve and an end before the start", () => {
    expect(() => referenceHours([], clock(0), clock(1))).toThrow(RangeError)
    expect(() => referenceHours(doughCurve([reading(0, 24)], []), clock(1), clock(0))).toThrow(RangeError)
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
