import { describe, expect, test } from "vitest"
import { checkDay } from "../../server/dough/day/check-day.ts"
import type { DayPlan, DayQuestion } from "../../server/dough/day/day.ts"
import { planDay } from "../../server/dough/day/plan-day.ts"
import { rate } from "../../server/dough/fermentation/growth.ts"
import { referenceHours } from "../../server/dough/fermentation/reference-hours.ts"
import type { Stage } from "../../server/dough/schedule.ts"
import { fToC } from "../../server/dough/units.ts"
import { driven, handsOn, hoursAfter, stage } from "../dough/day/kitchens.ts"

const hourMs = 3_600_000
const hoursOf = (plan: DayPlan, key: string) => {
  const { startsAt, endsAt } = of(plan, key)
  return (+endsAt - +startsAt) / hourMs
}
const of = ({ stages }: DayPlan, key: string) => stages.find((one) => one.stage.key === key)!
function fitted(question: DayQuestion): DayPlan {
  const answer = planDay(question)
  if (!answer.fits) throw new Error(JSON.stringify(answer.broken))
  return answer.plan
}

/** Stages as they are told: hours at a temperature, with somebody to mix each build. */
const build = (key: string, lowHours: number, highHours: number, doughC: number): Stage[] => [
  stage("mix", 0, 0, { key: `feed ${key}`, ...handsOn(0) }),
  stage("rest", lowHours * 60, highHours * 60, { key, ...driven(doughC) }),
]

/**
 * A rye sour in three builds: 5–6 h at 25–26 °C, 15–24 h at 23–26.5 °C, 3–4 h at about 29 °C; then the dough, which rests
 * for 10–20 min and proofs for about an hour at 28 °C. The baker's own timetable: first build at 15:30, second at 20:30 or
 * 21:30, third next day at 11:30, dough at 15:30, oven about 17:00. Source: the recipe "Roggensauerteigbrot
 * 3-Stufenführung", ichkoche.at no. 109145, seen as a stored copy.
 */
describe("a rye sour in three builds, by the timetable of the baker who tells it: ichkoche.at, Roggensauerteigbrot 3-Stufenführung (secondary)", () => {
  const at = (day: number, time: string) => new Date(`2026-05-0${day}T${time}:00Z`)
  const told = {
    "feed first": at(1, "15:30"),
    "feed second": at(1, "20:30"),
    "feed third": at(2, "11:30"),
    mix: at(2, "15:30"),
  }
  // To mix and shape it may take what is left of the hour and a half before the oven.
  const stages = [
    ...build("first", 5, 6, 25.5),
    ...build("second", 15, 24, 25),
    ...build("third", 3, 4, 29),
    stage("mix", 5, 10, handsOn(5)),
    stage("rest", 10, 20),
    stage("shape", 5, 10, handsOn(5)),
    stage("proof", 50, 70, driven(28)),
  ]
  const question: DayQuestion = {
    ...{ stages, culture: "sourdough", away: [], loads: 1, mixedC: { value: 28, known: "assumed" } },
    places: { room: 25.5, proofer: 28.5 },
    placeOf: { third: "proofer", rest: "proofer", proof: "proofer" },
    ...{ notBefore: told["feed first"], onTableBy: at(2, "17:00") },
  }

  test("is on the table when told, from the hour it was begun", () => {
    const plan = fitted(question)
    expect(plan.onTableAt).toEqual(question.onTableBy)
    expect(plan.startsAt).toEqual(told["feed first"])
  })

  test.each(Object.entries(told))("may begin %s at the hour that was told", (key, toldAt) => {
    const { earliestStart, latestStart, startsAt } = of(fitted(question), key)
    expect(+earliestStart).toBeLessThanOrEqual(+toldAt)
    expect(+latestStart).toBeGreaterThanOrEqual(+toldAt)
    expect(Math.abs(+startsAt - +toldAt)).toBeLessThanOrEqual(1.25 * hourMs)
  })

  test("keeps everything asked of it when it goes by the baker's own hours", () => {
    const plan = fitted(question)
    const hours = [...Object.values(told), at(2, "15:38"), at(2, "15:50"), at(2, "15:58"), at(2, "17:00")]
    const bounds = [hours[0]!, hours[0]!, hours[1]!, hours[1]!, hours[2]!, hours[2]!, ...hours.slice(3)]
    const theirs = plan.stages.map((one, index) => {
      const [startsAt, endsAt] = [bounds[index]!, bounds[index + 1]!]
      const [moment] = one.handsOn
      const long = moment ? +moment.to - +moment.from : 0
      return { ...one, startsAt, endsAt, handsOn: moment ? [{ from: startsAt, to: new Date(+startsAt + long) }] : [] }
    })
    expect(checkDay(question, { ...plan, stages: theirs })).toEqual([])
  })
})

/**
 * A levain in two builds: 20 g starter with 200 g flour and 200 g water at 70–75 °F for 12 hours and more, then 400 g of that
 * with 200 g and 200 g at 90 °F for 3 to 4 hours. Source: thefreshloaf.com, node 66174, seen as a stored copy.
 */
describe("a levain in two builds, the first cool and long, the second warm and short: thefreshloaf.com no. 66174 (secondary)", () => {
  const second = { starter: 400, flour: 200, water: 200 }
  const first = { starter: 20, flour: 200, water: 200 }
  const at = (roomF: number): DayQuestion => ({
    ...{ culture: "sourdough", away: [], loads: 1, mixedC: { value: 24, known: "assumed" } },
    stages: [
      ...build("levain", 3, 4, fToC(90)),
      stage("mix", 10, 10, handsOn(10)),
      stage("bulk", 240, 300, driven(24)),
    ],
    ...{ places: { room: fToC(roomF) }, onTableBy: new Date("2026-05-02T18:00:00Z") },
    levain: { stageKey: "levain", written: second, fed: first, starterHydration: 1 },
  })

  test.each([
    { roomF: 70, low: 12, high: 15 },
    { roomF: 75, low: 9, high: 12 },
  ])(
    "takes the first as long as told, when it is to be as ripe as the second: $low–$high h at $roomF °F",
    ({ roomF, low, high }) => {
      const hours = hoursOf(fitted(at(roomF)), "levain")
      expect(hours).toBeGreaterThan(low)
      expect(hours).toBeLessThan(high)
    },
  )
})

/**
 * A shaped dough goes on fermenting while it cools in the refrigerator: about ten hours until it is at 4 °C, most of it in
 * the first four. Source: a public lecture on timing bulk by temperature, 2024, seen as a summary.
 */
describe("a night in the fridge: T. Cucuzza, lecture of 2024 (secondary)", () => {
  const supper = new Date("2026-05-02T18:00:00Z")
  const night = (room: number): DayQuestion => ({
    ...{ culture: "sourdough", away: [], loads: 1, mixedC: { value: room, known: "assumed" } },
    stages: [stage("mix", 10, 10, handsOn(10)), stage("shape", 20, 20, handsOn(10)), stage("retard", 720, 720)],
    ...{ places: { room, fridge: 2.5 }, onTableBy: supper },
  })

  test("counts for more when the dough goes in warm than when it is cold already", () => {
    const [warm, cold] = [26, 4].map((room) => of(fitted(night(room)), "retard"))
    expect([warm!.startC, cold!.startC]).toEqual([26, 4])
    expect(warm!.hours).toBeGreaterThan(5 * cold!.hours)
    expect(cold!.hours).toBeCloseTo(12 * rate(2.5), 1)
  })

  test("is at 4 °C after about ten hours, and most of it has happened in the first four", () => {
    const plan = fitted(night(25))
    const { startsAt, hours } = of(plan, "retard")
    const colderAt = plan.curve.find(({ doughC }) => doughC <= 4)!.at
    expect(Math.abs((+colderAt - +startsAt) / hourMs - 10)).toBeLessThan(1.5)
    const inFour = referenceHours(plan.curve, startsAt, hoursAfter(startsAt, 4), "sourdough")
    expect(inFour / hours).toBeGreaterThan(0.7)
  })

  test("is worth four hours of activity at the most, and one at the least, as warm as the dough went in", () => {
    const { startC, hours } = of(fitted(night(25)), "retard")
    expect(hours / rate(startC)).toBeGreaterThan(1)
    expect(hours / rate(startC)).toBeLessThan(4)
  })
})
