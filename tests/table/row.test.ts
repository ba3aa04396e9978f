import { expect, test } from "vitest"
import { rate } from "../../server/dough/fermentation/growth.ts"
import { layRow } from "../../server/table/row.ts"
import { at, log, nextDay, onPlan, stages, target } from "./log.ts"

const row = (of: ReturnType<typeof log>, now = nextDay) => layRow(of, stages, target, now)

test("five hours at 24 °C are 5.0 reference hours", () => {
  const bulkOnly = stages.filter(({ key }) => key === "bulk")
  const { fermented, plannedHours } = layRow(
    log({ bulk: ["09:00", "14:00"] }, [["dough", "09:00", 24]]),
    bulkOnly,
    target,
    nextDay,
  )

  expect(fermented!.hours).toBeCloseTo(5, 10)
  expect(plannedHours).toBeCloseTo(5, 10)
})

test("reference hours run from the start of bulk to the end of proof, shaping included", () => {
  const { fermented, plannedHours, verdict, differences } = row(
    log(onPlan, [
      ["dough", "09:00", 24],
      ["dough", "16:20", 24],
    ]),
  )

  expect(fermented!.hours).toBeCloseTo(7 + 1 / 3, 10)
  expect(plannedHours).toBeCloseTo(7 + 1 / 3, 10)
  expect(fermented).toMatchObject({ assumedShare: 0, soFar: false })
  expect(verdict.call).toBe("well")
  expect(differences).toEqual([])
})

test("a stage is compared with the middle of its range, and differs only outside the range", () => {
  const inside = row(log({ ...onPlan, bulk: ["08:10", "14:00"] }))
  expect(inside.times[1]).toMatchObject({ plannedMin: 300, actualMin: 350, difference: 50 })
  expect(inside.differences).toEqual([])

  const outside = row(log({ ...onPlan, bulk: ["07:10", "14:00"] }))
  expect(outside.differences[0]).toMatchObject({ kind: "length", stage: "Bulk", min: 110 })
})

test("cold dough is the first difference and pulls under", () => {
  const cold = row(
    log(onPlan, [
      ["dough", "09:00", 19],
      ["dough", "16:20", 19],
    ]),
  )

  expect(cold.fermented!.hours).toBeCloseTo((7 + 1 / 3) * rate(19), 10)
  expect(cold.differences[0]).toMatchObject({ kind: "warmth" })
  expect(cold.differences[0]).toHaveProperty("c", -5)
  expect(cold.verdict.call).toBe("under")
})

test("mean dough temperature is weighted over time", () => {
  // 20 °C rising steadily to 24 °C over bulk alone, then held: (22 × 300 + 24 × 140) / 440
  const { warmth } = row(
    log(onPlan, [
      ["dough", "09:00", 20],
      ["dough", "14:00", 24],
      ["dough", "16:20", 24],
    ]),
  )

  expect(warmth!.meanC).toBeCloseTo((22 * 300 + 24 * 140) / 440, 10)
  expect(warmth).toMatchObject({ lowC: 20, highC: 24, first: { c: 20 }, endOfBulk: { c: 24 }, last: { c: 24 } })
})

test("without dough readings the room stands in, and all of it is assumed", () => {
  const { warmth, fermented, differences } = row(
    log(onPlan, [
      ["room", "09:00", 20],
      ["room", "15:00", 20],
    ]),
  )

  expect(warmth!.from).toBe("room")
  expect(fermented!.hours).toBeCloseTo((7 + 1 / 3) * rate(20), 10)
  expect(fermented!.assumedShare).toBe(1)
  expect(differences[0]).toMatchObject({ kind: "warmth", c: -4 })
})

test("the rise is the last one before shaping, the finger test the last one in proof", () => {
  const { rise, finger } = row(
    log(onPlan, [
      ["rise", "12:00", 0.2],
      ["rise", "13:50", 0.45],
      ["rise", "15:00", 0.9],
      ["finger", "13:00", "straight-back"],
      ["finger", "16:00", "slowly-partly"],
    ]),
  )

  expect(rise).toEqual({ at: at("13:50"), share: 0.45 })
  expect(finger).toBe("slowly-partly")
})

test("a bake still going counts so far and has no verdict", () => {
  const going = row(
    log({ bulk: ["09:00"] }, [
      ["dough", "09:00", 24],
      ["rise", "11:00", 0.1],
    ]),
    at("12:00"),
  )

  expect(going.state).toBe("running")
  expect(going.fermented!.hours).toBeCloseTo(3, 10)
  expect(going.fermented!.soFar).toBe(true)
  expect(going.verdict.call).toBe("not enough to say")
})

test("a bake left open ends where its log ends", () => {
  const left = row(log({ bulk: ["09:00"] }, [["dough", "10:00", 24]]))

  expect(left.state).toBe("over")
  expect(left.spans[0]!.endsAt).toEqual(at("10:00"))
  expect(left).toMatchObject({ gap: "no end", verdict: { call: "not enough to say" } })
})

test("a stage without an end ends where the next begins", () => {
  const { fermented, spans } = row(log({ ...onPlan, bulk: ["09:00"], proof: ["14:20"] }, [["dough", "09:00", 24]]))

  expect(spans[0]).toMatchObject({ endsAt: at("14:00"), end: "next" })
  expect(fermented!.endsAt).toEqual(at("16:20"))
})

test("waiting for the oven is told apart from a long proof", () => {
  const { differences } = row(log({ ...onPlan, bake: ["17:00", "17:40"] }))

  expect(differences.map(({ kind }) => kind)).toEqual(["wait", "oven"])
  expect(differences[0]).toHaveProperty("min", 40)
})

test.each([
  ["nothing at all", log({}), "nothing logged"],
  ["marks without a temperature", log(onPlan), "no temperature"],
  [
    "an end of bulk that nobody marked the start of",
    log({ proof: ["14:20", "16:20"] }, [["dough", "15:00", 24]]),
    "no start",
  ],
  [
    "proof marked before bulk",
    log({ bulk: ["14:00", "15:00"], proof: ["10:00", "11:00"] }, [["dough", "15:00", 24]]),
    "out of order",
  ],
])("with %s there are no reference hours, and the row says why", (_name, of, gap) => {
  const { fermented, gap: why, verdict } = row(of)

  expect(fermented).toBeUndefined()
  expect(why).toBe(gap)
  expect(verdict.call).toBe("not enough to say")
})

test("an abandoned bake keeps what it had and gets no verdict", () => {
  const given = row(log({ bulk: ["09:00"] }, [["dough", "09:00", 24]], { abandonedAt: at("13:00") }))

  expect(given).toMatchObject({ state: "abandoned", verdict: { call: "not enough to say" } })
  expect(given.fermented!.hours).toBeCloseTo(4, 10)
})

const felt = <Logged extends ReturnType<typeof log>>(of: Logged, known: "felt" | "assumed" = "felt"): Logged => ({
  ...of,
  readings: of.readings.map((reading) => ({ ...reading, known })),
})

test("a dough that was felt is not taken as measured: all of its time is assumed", () => {
  const warm = [
    ["dough", "09:00", 24],
    ["dough", "16:20", 24],
  ] satisfies Parameters<typeof log>[1]
  const [guess, measured] = [row(felt(log(onPlan, warm))), row(log(onPlan, warm))]

  expect(guess.warmth!.points.map(({ known }) => known)).toEqual(["felt", "felt"])
  expect(guess.warmth!.curve.map(({ known }) => known)).not.toContain("measured")
  expect(guess.fermented).toMatchObject({ hours: measured.fermented!.hours, assumedShare: 1 })
  expect(measured.fermented!.assumedShare).toBe(0)
})

test("between a measured and a felt temperature the dough's is assumed", () => {
  const mixed = log(onPlan, [
    ["dough", "09:00", 24],
    ["dough", "12:40", 24],
    ["dough", "16:20", 24],
  ])
  mixed.readings[2]!.known = "felt"

  expect(row(mixed).fermented!.assumedShare).toBeCloseTo(0.5, 10)
})

test("a rise that was measured counts before a later one judged by eye, and one that was assumed proves nothing", () => {
  const both = log(onPlan, [
    ["rise", "12:00", 0.3],
    ["rise", "13:50", 0.6],
  ])
  both.readings[1]!.known = "felt"
  expect(row(both).rise).toEqual({ at: at("12:00"), share: 0.3 })

  const warm = [
    ["dough", "09:00", 24],
    ["rise", "13:50", 0.4],
    ["dough", "16:20", 24],
  ] satisfies Parameters<typeof log>[1]
  const [measured, guess] = [log(onPlan, warm), log(onPlan, warm)]
  guess.readings[1]!.known = "felt"
  const byEye = row(guess)
  expect(byEye.rise).toMatchObject({ share: 0.4, known: "felt" })
  expect(byEye.verdict.evidence[1]!.words).toBe("Risen by 40 %, by eye, against a target of 50 %")
  const widthOf = ({ verdict }: typeof byEye) => ("sd" in verdict ? verdict.sd : Number.NaN)
  expect(widthOf(byEye)).toBeGreaterThan(widthOf(row(measured)))

  const assumed = row(felt(log(onPlan, [["rise", "13:50", 0.1]]), "assumed"))
  expect(assumed.verdict).toMatchObject({ call: "not enough to say" })
  expect(assumed.verdict.evidence.map(({ key }) => key)).not.toContain("rise")
  expect(assumed.differences.map(({ kind }) => kind)).not.toContain("rise")
})

test("the pauses of a stage are not in its minutes", () => {
  const halves = log({ ...onPlan, bulk: ["07:00", "14:00"] })
  halves.marks[0]!.pauses = [{ from: at("10:00").toISOString(), to: at("12:00").toISOString() }]

  expect(row(halves).times[1]).toMatchObject({ actualMin: 300, difference: 0 })
  expect(row(halves).differences).toEqual([])
})
