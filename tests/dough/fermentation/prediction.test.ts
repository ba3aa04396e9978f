import fc from "fast-check"
import { describe, expect, test } from "vitest"
import { hoursToRise, riseAfter, usualPrior } from "../../../server/dough/fermentation/dough-fit.ts"
import { type Culture, rate } from "../../../server/dough/fermentation/growth.ts"
import type { Leaven } from "../../../server/dough/fermentation/leaven.ts"
import { predictReady, type Question } from "../../../server/dough/fermentation/prediction.ts"
import { CurveGap } from "../../../server/dough/fermentation/reference-hours.ts"
import { shareOfRatio, usualLevainJar } from "../../../server/dough/fermentation/sourdough-rise.ts"
import type { CurvePoint } from "../../../server/dough/fermentation/temperature-curve.ts"
import { scatter } from "./scatter.ts"

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
    expect(one).toBeLessThan(0.8 * none!)
    expect(five).toBeLessThan(one!)
  })

  test("without much error counts more than one with", () => {
    const off = (sd: number) => hoursOf(ready({ rises: [readAt(2, expected * 2, sd)] }).readyAt)
    expect(off(0.01)).toBeLessThan(off(0.1))
  })

  test("of many above all that a usual dough holds teaches that this one holds more", () => {
    const rises = [3, 4, 5, 6, 7, 8].map((hours) => readAt(hours, 0.15 * hours, 0.02))
    expect(ask({ targetRise: 1 }).kind).toBe("not in sight")
    expect(ready({ targetRise: 1.2, rises, now: clock(8) }).readyAt > clock(8)).toBe(true)
  })
})

describe.each([
  ["sourdough", 0.1, 0.4],
  ["baker's yeast", 0.008, 1.2],
] as const)("of 300 doughs with %s, scattered as the prior says", (culture: Culture, share, targetRise) => {
  test.each([0, 1, 3, 8])("with %d readings, about four in five are ready inside the range", (count) => {
    const leaven: Leaven = { culture, share }
    const normal = scatter(11)
    const { activity, activitySd, mostRise, mostRiseSd, lagSd } = usualPrior(culture)
    const usualHours = hoursToRise(leaven, { activity, mostRise, lagHours: 0 }, targetRise)!
    const inside = Array.from({ length: 300 }, () => {
      const dough = {
        activity: activity * Math.exp(activitySd * normal()),
        mostRise: mostRise * Math.exp(mostRiseSd * normal()),
        lagHours: lagSd * normal(),
      }
      const rises = Array.from({ length: count }, (_, index) => {
        const hours = (usualHours * 0.6 * (index + 1)) / count
        return readAt(hours, riseAfter(leaven, dough, hours) + Math.hypot(0.03, 0.02) * normal(), 0.03)
      })
      const answer = ask({ leaven, targetRise, rises, curve: [point(0, 24)], now: clock(usualHours * 0.6) })
      const truth = hoursToRise(leaven, dough, targetRise) ?? Number.POSITIVE_INFINITY
      return answer.kind === "ready" && truth >= hoursOf(answer.earliest) && truth <= hoursOf(answer.latest)
    })
    const covered = inside.filter(Boolean).length / inside.length
    expect(covered).toBeGreaterThan(0.73)
    expect(covered).toBeLessThan(0.88)
  })
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
  test("for a target above what the dough can hold", () => {
    expect(ask({ targetRise: 0.9 })).toMatchObject({
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
    expect(ready({ targetRise: 0.75 }).latest).toBeUndefined()
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
