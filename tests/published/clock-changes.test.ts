import fc from "fast-check"
import { describe, expect, test } from "vitest"
import { tinLoaf } from "../../server/demo/tin-loaf.ts"
import { checkDay } from "../../server/dough/day/check-day.ts"
import type { Away, DayPlan, DayQuestion } from "../../server/dough/day/day.ts"
import { planDay } from "../../server/dough/day/plan-day.ts"
import { dayAfter, dayOf, instantAt, instantsAt, wallTime, wallTimeWithOffset, zones } from "../../server/web/zones.ts"

const minuteMs = 60_000
const hourMs = 60 * minuteMs
const tz = { source: "IANA tz database 2025b (zoneinfo), read with Python", seen: "primary (tz data)" }
// The same database's changes of 2026 and 2027, noted down by their local days; the instants are reckoned from those by hand.
const byDay = { source: "IANA tz database 2025b, by local day and rule", seen: "primary (tz data), instant by hand" }

/** `byMin` is how far clocks are put forward, below 0 how far back. */
const changes = [
  { id: "X-236", zone: "America/New_York", at: "2026-03-08T07:00:00Z", byMin: 60, ...tz },
  { zone: "America/New_York", at: "2026-11-01T06:00:00Z", byMin: -60, ...byDay },
  { id: "X-238", zone: "America/New_York", at: "2027-03-14T07:00:00Z", byMin: 60, ...tz },
  { id: "X-239", zone: "America/New_York", at: "2027-11-07T06:00:00Z", byMin: -60, ...tz },
  { id: "X-240", zone: "Europe/Berlin", at: "2026-03-29T01:00:00Z", byMin: 60, ...tz },
  { id: "X-241", zone: "Europe/Berlin", at: "2026-10-25T01:00:00Z", byMin: -60, ...tz },
  { zone: "Europe/Berlin", at: "2027-03-28T01:00:00Z", byMin: 60, ...byDay },
  { id: "X-243", zone: "Europe/Berlin", at: "2027-10-31T01:00:00Z", byMin: -60, ...tz },
  { zone: "Europe/London", at: "2026-03-29T01:00:00Z", byMin: 60, ...byDay },
  { id: "X-245", zone: "Europe/London", at: "2026-10-25T01:00:00Z", byMin: -60, ...tz },
  { zone: "Australia/Lord_Howe", at: "2026-04-04T15:00:00Z", byMin: -30, ...byDay },
  { id: "X-247", zone: "Australia/Lord_Howe", at: "2026-10-03T15:30:00Z", byMin: 30, ...tz },
  { id: "X-248", zone: "Australia/Lord_Howe", at: "2027-04-03T15:00:00Z", byMin: -30, ...tz },
  { zone: "Australia/Lord_Howe", at: "2027-10-02T15:30:00Z", byMin: 30, ...byDay },
  { zone: "Australia/Sydney", at: "2026-04-04T16:00:00Z", byMin: -60, ...byDay },
  { id: "X-251", zone: "Australia/Sydney", at: "2026-10-03T16:00:00Z", byMin: 60, ...tz },
  { zone: "Pacific/Auckland", at: "2026-04-04T14:00:00Z", byMin: -60, ...byDay },
  { id: "X-253", zone: "Pacific/Auckland", at: "2026-09-26T14:00:00Z", byMin: 60, ...tz },
  { id: "X-254", zone: "America/Santiago", at: "2026-09-06T04:00:00Z", byMin: 60, ...tz },
  { zone: "Africa/Cairo", at: "2026-04-23T22:00:00Z", byMin: 60, ...byDay },
  { id: "X-256", zone: "Africa/Casablanca", at: "2026-02-15T02:00:00Z", byMin: -60, ...tz },
  { id: "X-257", zone: "Pacific/Chatham", at: "2026-04-04T14:00:00Z", byMin: -60, ...tz },
].map(({ at, ...change }) => ({ id: "", ...change, instant: at, at: new Date(at) }))

test("all twenty-two", () => expect(changes).toHaveLength(22))

/** What a clock on the wall shows, in minutes of a day that never changes. */
const wallMin = (at: Date, zone: string) => Date.parse(`${wallTime(at, zone)}Z`) / minuteMs
const later = (at: Date, minutes: number) => new Date(+at + minutes * minuteMs)

describe.each(changes)("clocks in $zone at $instant, by $byMin min: $source ($seen) $id", ({ zone, at, byMin }) => {
  test("change then and no sooner", () => {
    expect(wallMin(at, zone) - wallMin(later(at, -1), zone)).toBe(1 + byMin)
    expect(wallMin(later(at, 1), zone) - wallMin(at, zone)).toBe(1)
  })

  test("show a time that is skipped never, and one that comes twice at both instants", () => {
    const around = wallTime(later(at, byMin > 0 ? -1 : 0), zone)
    const skipped = new Date(Date.parse(`${around}Z`) + 10 * minuteMs).toISOString().slice(0, 16)
    if (byMin > 0) {
      const found = instantAt(skipped, zone)!
      expect(wallMin(found, zone) - Date.parse(`${skipped}Z`) / minuteMs).toBe(byMin)
      expect(instantsAt(skipped, zone)).toHaveLength(1)
    } else {
      const twice = instantsAt(wallTime(later(at, 5), zone), zone)
      expect(twice).toEqual([later(at, 5 + byMin), later(at, 5)])
    }
  })

  test.each(["the dough", "the levain"])(
    "leave every stage of a plan as long as it is, when they change over %s",
    (over) => {
      const question = asked(later(at, over === "the dough" ? 6 * 60 : 14 * 60))
      const plan = fitted(question)
      expect(plan.startsAt < at && at < plan.onTableAt).toBe(true)
      expect(checkDay(question, plan)).toEqual([])
      expectSumOfMinutes(plan)
      const elapsedMin = (+plan.onTableAt - +plan.startsAt) / minuteMs
      expect(wallMin(plan.onTableAt, zone) - wallMin(plan.startsAt, zone)).toBe(elapsedMin + byMin)
    },
  )

  test("keep hands off the dough in the night by that clock, though that night is longer or shorter", () => {
    const day = dayOf(at, zone)
    const nights = [dayBeforeOf(day), day, dayAfter(day)].map((evening): Away => {
      const [from, to] = [instantAt(`${evening}T22:30`, zone)!, instantAt(`${dayAfter(evening)}T06:30`, zone)!]
      return { from, to, why: "asleep" }
    })
    const plan = fitted({ ...asked(instantAt(`${day}T20:00`, zone)!), away: nights })
    for (const { from, to } of plan.stages.flatMap(({ handsOn }) => handsOn)) {
      expect(wallTime(from, zone).slice(11) >= "06:30").toBe(true)
      expect(wallTime(to, zone).slice(11) <= "22:30").toBe(true)
    }
  })
})

const asked = (onTableBy: Date): DayQuestion => ({
  ...{ stages: tinLoaf.stages, culture: "sourdough", places: { room: 22 }, mixedC: { value: 24, known: "assumed" } },
  ...{ onTableBy, away: [], loads: 1 },
})
function fitted(question: DayQuestion): DayPlan {
  const answer = planDay(question)
  if (!answer.fits) throw new Error(JSON.stringify(answer.broken))
  return answer.plan
}
const dayBeforeOf = (day: string) => new Date(Date.parse(`${day}T12:00:00Z`) - 24 * hourMs).toISOString().slice(0, 10)

function expectSumOfMinutes({ stages, startsAt, onTableAt }: DayPlan) {
  const minutes = stages.map((one) => (+one.endsAt - +one.startsAt) / minuteMs)
  for (const [index, { stage, wantedRange }] of stages.entries()) {
    if (wantedRange) continue
    expect(minutes[index]).toBeGreaterThanOrEqual(stage.lowMin)
    expect(minutes[index]).toBeLessThanOrEqual(stage.highMin)
  }
  expect(minutes.reduce((sum, one) => sum + one, 0)).toBe((+onTableAt - +startsAt) / minuteMs)
}

test("in any zone and on any day, the time between stages as its clocks tell it is the sum of their minutes", () => {
  const anyMinute = fc.integer({ min: Date.UTC(2026, 0, 1) / minuteMs, max: Date.UTC(2028, 0, 1) / minuteMs })
  fc.assert(
    fc.property(fc.constantFrom(...zones), anyMinute, (zone, minute) => {
      const { stages, onTableAt } = fitted(asked(instantAt(wallTime(new Date(minute * minuteMs), zone), zone)!))
      const told = [...stages.map(({ startsAt }) => startsAt), onTableAt].map((at) =>
        Date.parse(wallTimeWithOffset(at, zone)),
      )
      const between = told.slice(1).map((ms, index) => (ms - told[index]!) / minuteMs)
      expect(between).toEqual(stages.map((one) => (+one.endsAt - +one.startsAt) / minuteMs))
      expect((told.at(-1)! - told[0]!) / minuteMs).toBe(between.reduce((sum, one) => sum + one, 0))
    }),
    { numRuns: 150, seed: 6 },
  )
})
