import { expect, test } from "vitest"
import { asBaked } from "../../server/changes/as-baked.ts"
import { rate } from "../../server/dough/fermentation/growth.ts"
import { raisedBy } from "../../server/estimate/leaven.ts"
import { layRow } from "../../server/table/row.ts"
import { tinLoaf } from "../class-day.ts"
import { at, log, nextDay, onPlan, stages, target } from "./log.ts"

const asWritten = raisedBy(tinLoaf, [])
const raised = { planned: asWritten, actual: asWritten }
type Given = ReturnType<typeof log>

function causesIn(of: Given, now = nextDay, formula = stages) {
  const { causes } = layRow({ raised, ...of }, formula, target, now)
  if (!causes.enough) throw new Error(causes.why)
  const min = Object.fromEntries(causes.shares.map((share) => [share.key, share.min]))
  return { ...causes, min }
}
const whyNot = (of: Given, now = nextDay, formula = stages) => {
  const { causes } = layRow({ raised, ...of }, formula, target, now)
  return causes.enough ? "" : causes.why
}
const sum = (values: number[]) => values.reduce((total, value) => total + value, 0)
type Readings = NonNullable<Parameters<typeof log>[1]>
const warm = (c: number): Readings => [
  ["dough", "09:00", c],
  ["dough", "12:40", c],
  ["dough", "16:20", c],
]

test("a bake exactly as planned has no lead, and nothing to share out", () => {
  const { leadMin, shares, leftAtPlan } = causesIn(log(onPlan, warm(24)))

  expect(leadMin).toBeCloseTo(0, 9)
  for (const { min, percent } of shares) {
    expect(min).toBeCloseTo(0, 9)
    expect(percent).toBeUndefined()
  }
  expect(leftAtPlan).toEqual([{ key: "activity", why: "No rise was read before it was shaped." }])
})

test("an hour that the dough waited for its oven is an hour of lead, and time's alone", () => {
  const { leadMin, min, differed } = causesIn(log({ ...onPlan, bake: ["17:20", "18:00"] }, [["dough", "09:00", 24]]))

  expect(leadMin).toBeCloseTo(60, 9)
  expect(min.time).toBeCloseTo(60, 9)
  expect(min.temperature).toBeCloseTo(0, 9)
  expect(differed.min).toBe(60)
})

test("a dough at 26 °C leads by what its rate gains over the whole of the planned time", () => {
  const { leadMin, min, differed, shares } = causesIn(log(onPlan, warm(26)))

  expect(leadMin).toBeCloseTo(440 * (rate(26) - 1), 6)
  expect(min.temperature).toBeCloseTo(leadMin, 6)
  expect(differed.c).toBeCloseTo(2, 9)
  expect(shares[0]).toMatchObject({ key: "temperature", percent: expect.closeTo(100, 6) })
})

test("warm and long share what they do together half and half, and add up exactly", () => {
  const { leadMin, shares, min } = causesIn(
    log({ ...onPlan, bulk: ["08:00", "14:00"] }, [
      ["dough", "08:00", 26],
      ["dough", "16:20", 26],
    ]),
  )

  const gain = rate(26) - 1
  expect(leadMin).toBeCloseTo(60 + 500 * gain, 6)
  expect(min.time).toBeCloseTo(60 + 30 * gain, 6)
  expect(min.temperature).toBeCloseTo(440 * gain + 30 * gain, 6)
  expect(Math.abs(sum(shares.map((share) => share.min)) - leadMin)).toBeLessThan(1e-9)
})

test("a stage that was not marked belongs to the one before it, and one that was skipped is time not taken", () => {
  const { bulk, proof, bake } = onPlan
  expect(causesIn(log({ bulk, proof, bake }, warm(24))).leadMin).toBeCloseTo(0, 9)

  const { leadMin, min } = causesIn(log({ bulk, bake: ["14:00", "14:40"] }, warm(24)))
  expect(leadMin).toBeCloseTo(-140, 9)
  expect(min.time).toBeCloseTo(-140, 9)
})

test("without an oven the plan and the bake both end with the proof", () => {
  const { bulk, shape, proof } = onPlan
  expect(causesIn(log({ bulk, shape, proof }, warm(24))).leadMin).toBeCloseTo(0, 9)
})

test("where nobody measured dough or room, temperature is left as planned, and said so", () => {
  const { leadMin, leftAtPlan, shares } = causesIn(log({ ...onPlan, bake: ["16:50", "17:30"] }))

  expect(leadMin).toBeCloseTo(30, 9)
  expect(leftAtPlan).toContainEqual({ key: "temperature", why: "Nobody measured dough or room." })
  expect(shares.map(({ key }) => key)).toEqual(["time", "leaven"])
})

test("a dough on plan that has its target rise when the bulk is to end is on plan, and its leaven as lively as planned", () => {
  const { leadMin, min, differed } = causesIn(
    log({ mix: ["08:40", "09:00"], ...onPlan }, [["dough", "08:40", 24], ...warm(24), ["rise", "13:59", 0.5]]),
  )

  expect(Math.abs(leadMin)).toBeLessThan(3)
  expect(Math.abs(min.activity!)).toBeLessThan(3)
  expect(differed.activity).toBeCloseTo(1, 1)
})

/** Rises of a leaven so many times as lively as usual, by the model, as a baker reads them. */
const jar: Readings = [
  ["rise", "11:00", 0.02],
  ["rise", "12:30", 0.07],
  ["rise", "13:50", 0.12],
]

test("a jar that hardly rises in a dough on plan is a tired starter, and the more readings the surer", () => {
  const { leadMin, min, shares, differed } = causesIn(log(onPlan, [...warm(24), ...jar]))
  expect(min.activity).toBeLessThan(-60)
  expect(differed.activity).toBeLessThan(0.7)
  expect(leadMin).toBeCloseTo(min.activity!, 6)
  const [activity] = shares
  expect(activity).toMatchObject({ key: "activity" })
  expect(activity!.highMin).toBeLessThan(0)

  const once = causesIn(log(onPlan, [...warm(24), jar[2]!])).shares.find(({ key }) => key === "activity")!
  expect(once.highMin - once.lowMin).toBeGreaterThan(activity!.highMin - activity!.lowMin)
})

test("half the levain is leaven's share, and no time or warmth", () => {
  if ("why" in asWritten) throw new Error(asWritten.why)
  const { leaven } = asWritten
  const actual = { ...asWritten, leaven: { ...leaven, share: leaven.share / 2 } }
  const { min, leadMin, differed } = causesIn({
    ...log(onPlan, warm(24)),
    raised: { planned: asWritten, actual },
  } as Given)

  expect(min.leaven).toBeCloseTo(leadMin, 9)
  expect(leadMin).toBeLessThan(-60)
  expect(differed.leaven!.actual.share).toBeCloseTo(leaven.share / 2, 12)
})

test("the room in the dough's place, or a felt dough, is less sure than a thermometer in it", () => {
  const width = (of: Given) => {
    const { lowMin, highMin } = causesIn(of).shares.find(({ key }) => key === "temperature")!
    return highMin - lowMin
  }
  const [measured, felt, room] = [log(onPlan, warm(26)), log(onPlan, warm(26)), log(onPlan, [["room", "09:00", 26]])]
  for (const reading of felt.readings) reading.known = "felt"

  expect(width(felt)).toBeGreaterThan(2 * width(measured))
  expect(width(room)).toBeGreaterThan(2 * width(measured))
  expect(width(measured)).toBeGreaterThan(5)
})

test("a time told as about so widens time's range, and a marked one does not", () => {
  const exact = log(onPlan, warm(24))
  const about = log(onPlan, warm(24))
  about.marks[0]!.startedAboutMin = 30
  const time = (of: Given) => causesIn(of).shares.find(({ key }) => key === "time")!

  expect(time(exact).highMin - time(exact).lowMin).toBeLessThan(1e-6)
  // four fifths of a normal distribution whose standard deviation is 30 / √3
  expect(time(about).highMin - time(about).lowMin).toBeGreaterThan(35)
  expect(time(about).highMin - time(about).lowMin).toBeLessThan(55)
})

test("the same bake has the same ranges every time", () => {
  const once = layRow({ raised, ...log(onPlan, [...warm(26), ...jar]) }, stages, target, nextDay)
  const again = layRow({ raised, ...log(onPlan, [...warm(26), ...jar]) }, stages, target, nextDay)
  expect(again.causes).toEqual(once.causes)
})

test.each([
  ["nothing logged", log({}), "Nothing is logged."],
  ["a bake given up", { ...log({ bulk: ["09:00"] }), abandonedAt: at("13:00") }, "It was given up."],
  ["no start of bulk", log({ proof: ["14:20", "16:20"] }), "The start of bulk is not marked."],
  ["a log that stops in bulk", log({ bulk: ["09:00"] }, [["dough", "10:00", 24]]), "The end of proof is not marked."],
  [
    "stages out of order",
    log({ bulk: ["14:00", "15:00"], proof: ["10:00", "11:00"], bake: ["16:00"] }),
    "The stages are marked out of order.",
  ],
])("with %s there is no lead to share out, and it says why", (_name, of, why) => {
  expect(whyNot(of)).toBe(why)
})

test("a bake still going has no causes yet, nor one whose formula names no temperature", () => {
  expect(whyNot(log({ bulk: ["09:00"] }, [["dough", "09:00", 24]]), at("12:00"))).toBe(
    "It has not come to the oven yet.",
  )
  const unmeant = stages.map(({ referenceC: _, ...stage }) => stage)
  expect(whyNot(log(onPlan, warm(24)), nextDay, unmeant)).toBe("The plan gives bulk no temperature.")
})

test("dough made without its leaven has no shares", () => {
  const nothing = { outQuantity: "", outG: null, instead: "", quantity: "", massG: null, words: "", stageKey: null }
  const kept = {
    id: 1,
    bakeId: 1,
    madeAt: at("09:00"),
    removedAt: null,
    doneAt: null,
    doneTyped: "",
    doneAboutMin: null,
  }
  const made = asBaked({ content: tinLoaf, variant: "", ownIngredients: [] }, [
    { ...kept, ...nothing, kind: "left-out", partKey: "levain", ingredient: "" },
  ])
  const actual = raisedBy(made.content, [], made.asWritten)
  const given = { ...log(onPlan), changes: made.changes, raised: { planned: asWritten, actual } }

  expect(whyNot(given)).toBe("It was made without what raises it.")
})

test("a night in the fridge does not make hours of a quarter of an hour", () => {
  const cold = [
    ...stages.slice(0, 3),
    { ...stages[3]!, key: "retard", kind: "retard" as const, name: "Retard", lowMin: 720, highMin: 720, referenceC: 4 },
    ...stages.slice(4),
  ]
  const of = log({ bulk: ["09:00", "14:15"], shape: ["14:15", "14:35"] }, [
    ["dough", "09:00", 24],
    ["dough", "14:35", 24],
  ])
  of.marks.push(
    { stageKey: "retard", startedAt: at("14:35"), endedAt: at("02:35", 15) },
    { stageKey: "bake", startedAt: at("02:35", 15), endedAt: null },
  )
  const { leadMin, min } = causesIn(of, nextDay, cold)
  expect(leadMin).toBeCloseTo(15, 0)
  expect(min.time).toBeCloseTo(15, 0)
})
