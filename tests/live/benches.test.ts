import { describe, expect, test } from "vitest"
import type { Stage } from "../../server/dough/schedule.ts"
import { benchAt, type SoFar } from "../../server/live/benches.ts"

const stage = (kind: Stage["kind"], lowMin: number, highMin: number): Stage => ({
  ...{ key: kind, kind, name: kind, lowMin, highMin },
  ...{ drivenByTemperature: false, handsOnMin: 0, cue: "", tip: "" },
})
const at = (time: string, day = "2027-01-16") => new Date(`${day}T${time}:00Z`)

// on the table at 18:00: mix 09:00, bulk 09:20 to 14:20 (13:20 to 15:20), shape 14:20, proof 14:40, bake 16:40, cool 17:20
const stages = [
  ...[stage("mix", 20, 20), stage("bulk", 240, 360), stage("shape", 20, 20)],
  ...[stage("proof", 120, 120), stage("bake", 40, 40), stage("cool", 40, 40)],
]
const nothing: SoFar = {
  stages,
  onTableAt: at("18:00"),
  marks: [],
  finishedAt: null,
  abandonedAt: null,
  heardAt: at("08:50"),
}
const mark = (stageKey: string, from: string, to?: string, more: Partial<SoFar["marks"][number]> = {}) => ({
  ...{ stageKey, startedAt: at(from), endedAt: to ? at(to) : null },
  ...{ pauses: [], startedAboutMin: null, ...more },
})
const logged = (marks: SoFar["marks"], heard: string, more: Partial<SoFar> = {}): SoFar => ({
  ...{ ...nothing, marks, heardAt: at(heard), ...more },
})
const mixed = mark("mix", "09:00", "09:20")

describe("where a dough stands", () => {
  test.each<[string, SoFar, string, string, string | undefined]>([
    ["nothing marked", nothing, "08:55", "beginning", undefined],
    ["the first stage over", logged([mixed], "09:20"), "09:25", "between", "mix"],
    ["a stage running", logged([mixed, mark("bulk", "09:25")], "09:25"), "12:00", "stage", "bulk"],
    ["the last stage over", logged([mark("cool", "17:20", "18:00")], "18:00"), "18:10", "done", undefined],
    ["finished", logged([], "18:00", { finishedAt: at("18:05") }), "18:10", "finished", undefined],
    ["given up", logged([mixed], "09:20", { abandonedAt: at("11:00") }), "12:00", "given up", undefined],
  ])("%s", (_what, bake, now, place, stageKey) => {
    const found = benchAt(bake, at(now)).place
    expect(found.in).toBe(place)
    expect("stage" in found ? found.stage.key : undefined).toBe(stageKey)
  })
})

describe("against its own plan", () => {
  const bulkFrom = (time: string, more = {}) => logged([mixed, mark("bulk", time, undefined, more)], time)
  test.each<[string, SoFar, string, unknown]>([
    ["half an hour late is within a bulk of 4 to 6 h", bulkFrom("09:50"), "12:00", { is: "on plan" }],
    ["an hour and a half late is not", bulkFrom("10:50"), "12:00", { is: "behind", minutes: 90 }],
    ["early is ahead", bulkFrom("08:00"), "12:00", { is: "ahead", minutes: 80 }],
    ["a bulk that goes on past its range", bulkFrom("09:20"), "15:30", { is: "behind", minutes: 70 }],
    [
      "an hour out in the cold",
      bulkFrom("09:50", { pauses: [{ from: at("11:00").toISOString(), to: at("12:00").toISOString() }] }),
      "13:00",
      { is: "behind", minutes: 90 },
    ],
    [
      "a start told as about, half an hour either way",
      bulkFrom("10:40", { startedAboutMin: 30 }),
      "12:00",
      { is: "on plan" },
    ],
    ["a few minutes of a stage without a range", logged([mark("shape", "14:24")], "14:24"), "14:30", { is: "on plan" }],
    ["ten minutes of one", logged([mark("shape", "14:30")], "14:30"), "14:35", { is: "behind", minutes: 10 }],
    ["between stages, before the next is due", logged([mixed], "09:20"), "09:15", { is: "on plan" }],
    ["between stages, the next overdue", logged([mixed], "09:20"), "09:50", { is: "behind", minutes: 30 }],
    ["not begun, and not due", nothing, "08:55", null],
    ["not begun, and overdue", nothing, "09:30", { is: "behind", minutes: 30 }],
    ["done early", logged([mark("cool", "16:40", "17:30")], "17:30"), "17:40", { is: "ahead", minutes: 30 }],
    ["finished", logged([], "18:00", { finishedAt: at("18:30") }), "18:40", null],
  ])("%s", (_what, bake, now, pace) => {
    expect(benchAt(bake, at(now)).pace).toEqual(pace)
  })
})

describe("gone quiet", () => {
  const bulk = logged([mixed, mark("bulk", "09:20")], "09:20")
  const shape = logged([mark("shape", "14:20")], "14:20")
  const dayAfter = (time: string) => at(time, "2027-01-17")
  // a night in the fridge, for bread at noon
  const night = { ...nothing, stages: [stage("retard", 480, 720), stage("bake", 40, 40)], onTableAt: dayAfter("10:00") }
  const inFridge = { ...night, marks: [mark("retard", "21:00")], heardAt: at("21:00") }

  test.each<[string, SoFar, Date, string | undefined]>([
    ["not within three hours of a long stage", bulk, at("12:20"), undefined],
    ["after three hours of one", bulk, at("12:21"), "long"],
    ["not when a reading came meanwhile", { ...bulk, heardAt: at("11:00") }, at("13:30"), undefined],
    ["not a few minutes after a short stage", shape, at("14:45"), undefined],
    ["well after a short stage", shape, at("14:51"), "short"],
    ["not asleep while the dough is in the fridge", inFridge, dayAfter("07:00"), undefined],
    ["but past its longest and breakfast", inFridge, dayAfter("10:01"), "slept"],
    ["not right after a stage ended", logged([mixed], "09:20"), at("12:00"), undefined],
    ["hours after one, the next long due", logged([mixed], "09:20"), at("12:21"), "next"],
    ["not before the plan begins", { ...nothing, heardAt: at("02:00") }, at("10:00"), undefined],
    ["long past its beginning", { ...nothing, heardAt: at("02:00") }, at("12:01"), "next"],
    ["not while the bread cools", logged([mark("cool", "17:20")], "17:20"), at("22:00"), undefined],
    ["not once finished", logged([], "18:00", { finishedAt: at("18:00") }), dayAfter("18:00"), undefined],
  ])("%s", (_what, bake, now, why) => {
    expect(benchAt(bake, now).quiet?.why).toBe(why)
  })
})
