import fc from "fast-check"
import { describe, expect, test } from "vitest"
import { withChange } from "../../../server/dough/day/changed.ts"
import { checkDay } from "../../../server/dough/day/check-day.ts"
import type { DayPlan } from "../../../server/dough/day/day.ts"
import { planDay } from "../../../server/dough/day/plan-day.ts"
import { anyQuestion, driven, hoursAfter, stage } from "./kitchens.ts"

// The same thousand every time: a kitchen that nobody can bake in is rare enough to be counted.
const questions = fc.sample(anyQuestion, { numRuns: 1000, seed: 6 })
const answers = questions.map((question) => ({ question, answer: planDay(question) }))
const fitting = answers.flatMap(({ question, answer }) => (answer.fits ? [{ question, plan: answer.plan }] : []))
const unfit = answers.flatMap(({ question, answer }) => (answer.fits ? [] : [{ question, ...answer }]))

describe("in a thousand kitchens", () => {
  test("a plan that fits keeps everything that was asked, by a checker that does not know how it was found", () => {
    for (const { question, plan } of fitting) expect(checkDay(question, plan)).toEqual([])
    expect(fitting.length).toBeGreaterThan(500)
  })

  test("what does not fit says what keeps it from that, and its nearest plan breaks that too", () => {
    for (const { question, plan, broken } of unfit) {
      expect(broken.length).toBeGreaterThan(0)
      if (plan) expect(checkDay(question, plan).map(({ what }) => what)).toContain(broken[0]!.what)
    }
  })

  test("every suggestion fits once it is taken, with the plan that it showed", () => {
    const suggested = unfit.filter(({ suggestions }) => suggestions.length > 0)
    for (const { question, suggestions } of suggested) {
      expect(suggestions.length).toBeLessThanOrEqual(3)
      for (const { change, plan } of suggestions)
        expect(planDay(withChange(question, change))).toEqual({ fits: true, plan })
    }
    const none = unfit.length - suggested.length
    console.log(`of 1000 days ${fitting.length} fitted, ${suggested.length} got suggestions, ${none} none`)
    expect(none).toBeLessThan(10)
  })

  test("a day that nothing helps has a stage that is too cold everywhere, or asks for hands that are never there", () => {
    for (const { broken } of unfit.filter(({ suggestions }) => !suggestions.length))
      expect(["stage", "busy", "asleep"]).toContain(broken[0]!.what)
  })

  test("the least that is too late is the least: a minute sooner does not fit", () => {
    for (const { question, broken, together } of unfit) {
      if (together) continue
      const late = broken.find(({ what }) => what === "on the table by")
      if (late?.what !== "on the table by" || late.byMin < 2) continue
      const later = (min: number) => planDay({ ...question, onTableBy: hoursAfter(question.onTableBy, min / 60) })
      expect(later(late.byMin).fits).toBe(true)
      expect(later(late.byMin - 1).fits).toBe(false)
    }
  })

  test("nobody's hands are asked for while they are away", () => {
    for (const { question, plan } of fitting)
      for (const { from, to } of plan.stages.flatMap(({ handsOn }) => handsOn))
        expect(question.away.filter((away) => from < away.to && away.from < to)).toEqual([])
  })

  test("a stage that temperature drives comes to the hours that its formula asks for", () => {
    for (const { hours, wantedRange } of fitting.flatMap(({ plan }) => plan.stages)) {
      if (!wantedRange) continue
      expect(hours).toBeGreaterThan(wantedRange.low - 0.02)
      expect(hours).toBeLessThan(wantedRange.high + 0.02 + 0.002 * wantedRange.high)
    }
  })

  test("what is earliest and latest lies around what is planned", () => {
    for (const one of fitting.flatMap(({ plan }) => plan.stages)) {
      expect(+one.earliestStart).toBeLessThanOrEqual(+one.startsAt)
      expect(+one.latestStart).toBeGreaterThanOrEqual(+one.startsAt)
      expect(+one.earliestEnd).toBeLessThanOrEqual(+one.endsAt)
      expect(+one.latestEnd).toBeGreaterThanOrEqual(+one.endsAt)
    }
  })
})

test("a warmer room never lets a bulk that starts at the same time end later", () => {
  // up to 28 °C: above that, a sourdough gets no faster
  const rooms = fc.tuple(
    fc.integer({ min: 30, max: 56 }),
    fc.integer({ min: 30, max: 56 }),
    fc.integer({ min: 18, max: 28 }),
  )
  fc.assert(
    fc.property(
      rooms,
      fc.constantFrom("sourdough" as const, "baker's yeast" as const),
      ([one, other, mixedC], culture) => {
        const longMin = (half: number) => {
          const question = {
            ...{ stages: [stage("mix", 20), stage("bulk", 240, 300, driven(24))], culture, away: [], loads: 1 },
            ...{ places: { room: half / 2 }, mixedC: { value: mixedC, known: "assumed" as const } },
            onTableBy: new Date("2026-05-02T18:00:00Z"),
          }
          const answer = planDay(question)
          return answer.fits ? minutesOf(answer.plan, 1) : Number.POSITIVE_INFINITY
        }
        expect(longMin(Math.max(one, other))).toBeLessThanOrEqual(longMin(Math.min(one, other)))
      },
    ),
    { seed: 6 },
  )
})
const minutesOf = ({ stages }: DayPlan, index: number) => (+stages[index]!.endsAt - +stages[index]!.startsAt) / 60_000
