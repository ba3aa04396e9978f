import { expect, test } from "vitest"
import { sayTo } from "../../server/accounts/say.ts"
import { tinLoaf as oatLoaf, secondTinLoaf } from "../../server/demo/tin-loaf.ts"
import { planDay } from "../../server/dough/day/plan-day.ts"
import type { Kitchen, Told } from "../../server/kitchens/kitchen.ts"
import { courseOf } from "../../server/plans/course.ts"
import { dayPlot } from "../../server/plans/plot.ts"
import { questionOf } from "../../server/plans/question.ts"
import { readChange, taken } from "../../server/plans/taking.ts"
import type { Wishes } from "../../server/plans/wishes.ts"
import { tinLoaf } from "../class-day.ts"

const assumed = (value: number): Told<number> => ({ value, known: "assumed", typed: "" })
const ask = (kitchen: Kitchen = {}, wishes: Wishes = {}, content = tinLoaf, targetDoughC: number | null = 24) =>
  questionOf({
    ...{ content, own: [], targetDoughC, kitchen, wishes, zone: "UTC" },
    onTableAt: new Date("2026-11-14T19:00:00Z"),
  })

test("an unknown kitchen is as warm as the formula has it, and says so", () => {
  const { question, basis } = ask()
  expect(question.places).toEqual({ room: 24, fridge: 4 })
  expect(basis.places.room).toEqual({ c: 24, known: "taken" })
  expect(question.mixedC).toEqual({ value: 24, known: "assumed" })
  expect(question.away).toEqual([])
})

test("a dough is mixed to what is wanted as long as some water brings it there", () => {
  expect(ask({ roomC: assumed(18), tapC: assumed(8) }).basis.mixed).toMatchObject({ doughC: 24, by: "water" })
  const cold = ask({ roomC: assumed(4), tapC: assumed(5) }, {}, tinLoaf, 30).basis.mixed
  expect(cold.by).toBe("as near as water can")
  expect(cold.doughC).toBeLessThan(30)
  expect(ask({ roomC: assumed(33), tapC: assumed(25) }).basis.mixed.waterC, "with ice in it").toBeLessThan(20)
})

test("the room of that day goes before the usual one", () => {
  const { question, basis } = ask({ roomC: assumed(20) }, { roomC: 26, roomTyped: "26 °C" })
  expect(question.places.room).toBe(26)
  expect(basis.places.room.known).toBe("that day")
})

test("what the oven does not hold is another load; how many rolls a tin's place holds nobody knows", () => {
  expect(ask({ ovenHolds: assumed(2) }, { pieces: 5 }).question.loads).toBe(3)
  expect(ask({ ovenHolds: assumed(2) }, { pieces: 5, ovenHolds: 5 }).question.loads).toBe(1)
  const rolls = { ...tinLoaf, pieces: "20", pieceMass: "80 g" }
  expect(ask({ ovenHolds: assumed(2) }, {}, rolls).question.loads).toBe(1)
  expect(ask({}, { ovenHolds: 12 }, rolls).question.loads).toBe(2)
})

test("the levain is fed as the formula writes it, or as somebody wishes, in the stage that is named after it", () => {
  const { levain } = ask({ starterHydration: assumed(0.8) }, {}, oatLoaf).question
  expect(levain).toMatchObject({ stageKey: "ripen", starterHydration: 0.8, written: levain?.fed })
  expect(levain?.written.flour).toBeCloseTo(110 / 30)
  const fed = { starter: 1, flour: 1, water: 1 }
  expect(ask({}, { feeding: fed }, oatLoaf).question.levain?.fed).toEqual(fed)
  expect(ask().question.levain, "no stage of its own").toBeUndefined()
})

test("wishes for stages or places that are not there any more are left out", () => {
  const { question } = ask({}, { places: { bulk: "proofer", gone: "fridge", proof: "fridge" } })
  expect(question.placeOf).toEqual({ proof: "fridge" })
  expect(ask({}, { cold: { stageKey: "gone", lowMin: 480, highMin: 600 } }).question.cold).toBeUndefined()
})

test("a suggestion comes back from its button as it went, and nothing else does", () => {
  const day = { onTableAt: new Date("2026-11-14T19:00:00Z"), variant: "", wishes: { pieces: 4 }, zone: "UTC" }
  const change = readChange('{"placeOf":{"bulk":"proofer"},"onTableBy":"2026-11-14T20:15:20.000Z","loads":1}')!
  expect(taken(day, change, 2)).toMatchObject({
    onTableAt: new Date("2026-11-14T20:16:00Z"),
    wishes: { pieces: 2, places: { bulk: "proofer" } },
  })
  for (const odd of ["", "{", "[]", '"x"', '{"placeOf":{"bulk":"attic"}}', '{"onTableBy":"soon"}'])
    expect(readChange(odd)).toBeUndefined()
})

test("the drawing reads every moment by the clock, on a day whose clocks go back too", () => {
  const { question } = questionOf({
    ...{ content: secondTinLoaf, own: [], targetDoughC: 24, kitchen: {}, wishes: {}, zone: "Europe/Lisbon" },
    onTableAt: new Date("2026-10-25T09:00:00Z"),
  })
  const { plan } = planDay(question)
  const say = sayTo({ temperatureUnit: "C", massUnit: "g", zone: "Europe/Lisbon" })
  const names = { room: "room", proofer: "warm box", cool: "cellar", fridge: "fridge" }
  const course = courseOf(plan!, question, names)
  const plot = dayPlot(plan!.curve, course, question.places, say)!
  const dots = plot.series.find(({ kind }) => kind === "dots")!.points
  const doughs = course.filter(({ warmth }) => warmth === "dough")
  expect(dots.map(({ at }) => at?.slice(-5))).toEqual(doughs.map(({ startsAt }) => say.time(startsAt)))
  const last = plot.x.ticks.at(-1)!
  expect(last.at - Number(last.label.slice(0, 2)), "an hour more has passed than clocks show").toBe(25)
})
