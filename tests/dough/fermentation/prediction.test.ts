import fc from "fast-check"
import { describe, expect, test } from "vitest"
import { riseAfter, usualPrior } from "../../../server/dough/fermentation/dough-fit.ts"
import { rate } from "../../../server/dough/fermentation/growth.ts"
import type { Leaven } from "../../../server/dough/fermentation/leaven.ts"
import { predictReady, type Question } from "../../../server/dough/fermentation/prediction.ts"
import { CurveGap } from "../../../server/dough/fermentation/reference-hours.ts"
import { shareOfRatio, usualLevainJar } from "../../../server/dough/fermentation/sourdough-rise.ts"
import type { CurvePoint } from "../../../server/dough/fermentation/temperature-curve.ts"
import { doubtsOf } from "../../../server/dough/fermentation/temperature-doubt.ts"

const start = Date.UTC(2025, 2, 8, 8)
const clock = (hours: number) => new Date(start + hours * 3_600_000)
const hoursOf = (at: Date | undefined) => (at ? (+at - start) / 3_600_000 : Number.POSITIVE_INFINITY)
const point = (hours: number, doughC: number): CurvePoint => ({ at: clock(hours), doughC, known: "measured" })
const tenPercent: Leaven = { culture: "sourdough", share: 0.1 }

const ask = (more: Partial<Question> = {}) =>
  predictReady({
    ...{ leaven: tenPercent, startsAt: clock(0), now: clock(2), curve: [point(0, 25)], rises: [], targetRise: 0.3 },
    ...more,
  })
function ready(more: Partial<Question> = {}) {
  const answer = ask(more)
  if (answer.kind !== "ready") throw new Error(answer.why)
  return answer
}
const readAt = (hours: number, rise: number, sd = 0.02) => ({ at: clock(hours), rise, sd })

describe("without readings", () => {
  test("a usual dough with 10 % levain at 25 °C gains 30 % in 4¼ h", () => {
    expect(hoursOf(ready().readyAt)).toBeCloseTo(4.25, 1)
  })

  test("the usual levain 1 : 1 : 1 at 21 °C doubles in its jar in 6.7 h", () => {
    const leaven: Leaven = { culture: "sourdough", share: shareOfRatio({ starter: 1, flour: 1 }, 1) }
    const prior = { ...usualPrior("sourdough"), ...usualLevainJar }
    expect(hoursOf(ready({ leaven, prior, curve: [point(0, 21)], targetRise: 1 }).readyAt)).toBeCloseTo(6.7, 1)
  })

  test("a dough on its way to a warmer or colder place is ready sooner or later than one that stays", () => {
    const stays = hoursOf(ready().readyAt)
    expect(hoursOf(ready({ surroundings: { surroundingsC: 27, tauHours: 2 } }).readyAt)).toBeLessThan(stays)
    expect(hoursOf(ready({ surroundings: { surroundingsC: 20, tauHours: 2 } }).readyAt)).toBeGreaterThan(stays)
  })

  test("a dough that is ready already says since when", () => {
    expect(hoursOf(ready({ now: clock(6) }).readyAt)).toBeCloseTo(4.25, 1)
  })
})

describe("a reading", () => {
  const expected = ask().riseNow.value

  test("above what was expected brings the time forward, below puts it back", () => {
    const usual = ready().readyAt
    expect(+ready({ rises: [readAt(2, expected * 1.5)] }).readyAt).toBeLessThan(+usual)
    expect(+ready({ rises: [readAt(2, expected * 0.6)] }).readyAt).toBeGreaterThan(+usual)
  })

  test("as expected changes nothing but the range, and five do so more", () => {
    const width = (rises: Question["rises"]) => {
      const { earliest, readyAt, latest } = ready({ rises, now: clock(3.5) })
      expect(hoursOf(readyAt)).toBeCloseTo(hoursOf(ready().readyAt), 1)
      return hoursOf(latest) - hoursOf(earliest)
    }
    const usual = { ...usualPrior("sourdough"), lagHours: 0 }
    const asExpected = (hours: number) => readAt(hours, riseAfter(tenPercent, usual, hours * rate(25)))
    const [none, one, five] = [[], [3.5], [1.5, 2, 2.5, 3, 3.5]].map((hours) => width(hours.map(asExpected)))
    expect(one).toBeLessThan(0.85 * none!)
    expect(five).toBeLessThan(one!)
  })

  test("without much error counts more than one with", () => {
    const off = (sd: number) => hoursOf(ready({ rises: [readAt(2, expected * 2, sd)] }).readyAt)
    expect(off(0.01)).toBeLessThan(off(0.1))
  })

  test("of many above all that a usual dough holds teaches that this one holds more", () => {
    const rises = [3, 4, 5, 6, 7, 8].map((hours) => readAt(hours, 0.15 * hours, 0.02))
    const prior = usualPrior("sourdough")
    expect(ask({ targetRise: 1, prior }).kind).toBe("not in sight")
    expect(ready({ targetRise: 1.2, prior, rises, now: clock(8) }).readyAt > clock(8)).toBe(true)
  })
})

describe("a temperature", () => {
  const width = (more: Partial<Question>) => {
    const { earliest, latest } = ready(more)
    return hoursOf(latest) - hoursOf(earliest)
  }
  const assumed: CurvePoint[] = [{ ...point(0, 25), known: "assumed" }]
  const measured = (...hours: number[]) => hours.map((h) => point(h, 25))
  const rises = [readAt(2, ask().riseNow.value)]

  test("that was measured makes the range narrower than one that was assumed, and more so with each reading", () => {
    const now = clock(4)
    const [guess, one, four] = [assumed, measured(0), measured(0, 1, 2.5, 4)].map((curve) =>
      width({ curve, rises, now }),
    )
    expect(one).toBeLessThan(guess!)
    expect(four).toBeLessThan(one!)
    expect(width({ curve: measured(0), doubts: [], rises, now })).toBeLessThan(four!)
  })

  test("that was measured long after the start says more of what is to come", () => {
    expect(width({ curve: [point(0, 25), point(4, 25)], now: clock(4) })).toBeLessThan(
      width({ curve: [point(0, 25), point(0.5, 25)], now: clock(4) }),
    )
  })

  test("of which there are a hundred is not doubted a hundred times", () => {
    const many = Array.from({ length: 100 }, (_, i) => point(i / 25, 25))
    expect(doubtsOf(many, clock(0)).length).toBeLessThan(12)
    expect(width({ curve: many, now: clock(4) })).toBeLessThan(width({ curve: measured(0, 2, 4), now: clock(4) }))
  })

  test("at either end of what a dough can be does no harm", () => {
    for (const doughC of [-5, 0, 41, 60])
      expect(ask({ curve: [{ ...point(0, doughC), known: "assumed" }] })).toBeDefined()
  })
})

describe("five readings", () => {
  const hours = [2, 2.5, 3, 3.5, 4]
  const rises = hours.map((h) => readAt(h, ask({ now: clock(h) }).riseNow.value, 0.03))
  const width = (readings: Question["rises"]) => {
    const { earliest, latest } = ready({ rises: readings, now: clock(4) })
    return hoursOf(latest) - hoursOf(earliest)
  }

  test("from one start mark say less than five that were each measured from the start", () => {
    const startMark = { name: "50 mm", sd: 0.03 }
    expect(width(rises.map((one) => ({ ...one, startMark })))).toBeGreaterThan(1.1 * width(rises))
  })

  test("at times that are only roughly known say less", () => {
    expect(width(rises.map((one) => ({ ...one, aboutMin: 60 })))).toBeGreaterThan(1.1 * width(rises))
  })
})

test("the rise at the likeliest time is the target, and the range before it lies around the rise now", () => {
  const answer = ready({ rises: [readAt(2, 0.1)], now: clock(2) })
  expect(answer.riseAt(answer.readyAt).value).toBeCloseTo(0.3, 2)
  expect(answer.riseAt(clock(2))).toEqual(answer.riseNow)
  expect(answer.hoursAt(clock(2))).toBeCloseTo(2 * rate(25), 6)
})

test("whatever was read, the range holds its middle, and a higher target is not reached sooner", () => {
  const rise = fc.record({
    hours: fc.double({ min: 0, max: 6, noNaN: true }),
    rise: fc.double({ min: -0.05, max: 1.5, noNaN: true }),
  })
  fc.assert(
    fc.property(fc.array(rise, { maxLength: 12 }), fc.double({ min: 5, max: 34, noNaN: true }), (read, doughC) => {
      const rises = read.map((one) => readAt(one.hours, one.rise, 0.04))
      const [lower, higher] = [0.25, 0.5].map((targetRise) =>
        ask({ rises, targetRise, curve: [point(0, doughC)], now: clock(6) }),
      )
      expect(lower!.riseNow.low).toBeLessThanOrEqual(lower!.riseNow.value)
      expect(lower!.riseNow.high).toBeGreaterThanOrEqual(lower!.riseNow.value)
      for (const answer of [lower!, higher!]) {
        if (answer.kind !== "ready") continue
        expect(+answer.earliest).toBeLessThanOrEqual(+answer.readyAt)
        expect(hoursOf(answer.latest)).toBeGreaterThanOrEqual(hoursOf(answer.readyAt))
      }
      if (lower!.kind === "ready" && higher!.kind === "ready")
        expect(+higher!.readyAt).toBeGreaterThanOrEqual(+lower!.readyAt)
    }),
  )
})

test("a hot kitchen is ready about as soon as one at the yeast's best", () => {
  const hot = ready({ curve: [point(0, 32)] })
  const best = ready({ curve: [point(0, 28)] })
  expect(hoursOf(hot.readyAt)).toBeCloseTo(hoursOf(best.readyAt), 2)
})
describe("no time is made up", () => {
  test("for a target above what the dough is known to hold", () => {
    expect(ask({ targetRise: 0.9, prior: usualPrior("sourdough") })).toMatchObject({
      kind: "not in sight",
      why: "The target is above what this dough can hold.",
    })
  })

  test("for a dough in the fridge, but the rise now is told", () => {
    const cold = ask({
      curve: [point(0, 25), point(2, 25)],
      surroundings: { surroundingsC: 2, tauHours: 0.5 },
      targetRise: 0.7,
    })
    expect(cold).toMatchObject({ kind: "not in sight", why: expect.stringContaining("not within 72 h") })
    expect(cold.riseNow.value).toBeGreaterThan(0.05)
  })

  test("for a dough that has fallen", () => {
    const rises = [readAt(4, 0.6), readAt(6, 0.65), readAt(7, 0.4)]
    expect(ask({ rises, now: clock(7), targetRise: 0.7 })).toMatchObject({ why: expect.stringContaining("fallen") })
  })

  test("for the slow end of the range when a slow dough would not get there", () => {
    expect(ready({ targetRise: 0.75, prior: usualPrior("sourdough") }).latest).toBeUndefined()
  })

  test("but a target alone is taken as one that such a dough reaches: an open end at most", () => {
    expect(hoursOf(ready({ targetRise: 1 }).readyAt)).toBeLessThan(14)
    expect(ready({ targetRise: 1, prior: { ...usualPrior("sourdough", 1), mostRiseSd: 0.4 } }).latest).toBeUndefined()
  })
})

test("questions that make no sense are refused", () => {
  expect(() => ask({ targetRise: 0 })).toThrow(RangeError)
  expect(() => ask({ rises: [readAt(3, 0.2)] })).toThrow("between the start and now")
  expect(() => ask({ rises: [readAt(1, Number.NaN)] })).toThrow(RangeError)
  expect(() => ask({ rises: [readAt(1, 0.2, Number.NaN)] })).toThrow(RangeError)
  expect(() => ask({ curve: [] })).toThrow(CurveGap)
  expect(() => ask({ curve: [point(1, 25)] })).toThrow(CurveGap)
})
