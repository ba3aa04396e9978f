import fc from "fast-check"
import { expect, test } from "vitest"
import { startClock } from "../../../server/dough/fermentation/clock.ts"
import { referenceHours } from "../../../server/dough/fermentation/reference-hours.ts"
import type { CurvePoint } from "../../../server/dough/fermentation/temperature-curve.ts"

const at = (minutes: number) => new Date(Date.UTC(2025, 2, 8, 8) + minutes * 60_000)
const doughC = fc.double({ min: 2, max: 34, noNaN: true })
const curves = fc
  .array(doughC, { minLength: 2, maxLength: 12 })
  .map((temperatures) =>
    temperatures.map((c, index): CurvePoint => ({ at: at(index * 90), doughC: c, known: "measured" })),
  )

test.each(["sourdough", "baker's yeast"] as const)(
  "the clock of %s tells the reference hours, and back the instant",
  (culture) => {
    fc.assert(
      fc.property(curves, fc.double({ min: 0, max: 1, noNaN: true }), (curve, share) => {
        const [startsAt, endsAt] = [at(30), curve.at(-1)!.at]
        const clock = startClock(curve, startsAt, endsAt, culture)
        const instant = new Date(Math.round(+startsAt + share * (+endsAt - +startsAt)))
        const hours = clock.hoursAt(instant)
        expect(hours).toBeCloseTo(referenceHours(curve, startsAt, instant, culture), 9)
        const back = clock.reachedAt(hours)
        expect(Math.abs(clock.hoursAt(back!) - hours)).toBeLessThan(1 / 3600)
      }),
    )
  },
)

test("more hours than the clock has are not reached", () => {
  const steady = [0, 60].map((minutes): CurvePoint => ({ at: at(minutes), doughC: 24, known: "measured" }))
  const clock = startClock(steady, at(0), at(60), "sourdough")
  expect(clock.reachedAt(1.01)).toBeUndefined()
  expect(clock.reachedAt(0.5)).toEqual(at(30))
  expect(clock.reachedAt(-1)).toEqual(at(0))
  expect([clock.hoursAt(at(-10)), clock.hoursAt(at(90))]).toEqual([0, clock.hoursAt(at(60))])
})
