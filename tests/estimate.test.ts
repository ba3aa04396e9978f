import { eq } from "drizzle-orm"
import fc from "fast-check"
import type { Db } from "../server/db.ts"
import { estimateOf } from "../server/estimate/estimate.ts"
import { bakes, readings, users } from "../server/schema.ts"
import { minutesAgo, read, started, typedAgo } from "./bench.ts"
import type { Cast } from "./cast.ts"
import { giveBakeDay, tinLoaf } from "./class-day.ts"
import { expect, test } from "./test.ts"
import { type Visitor, wordsOf } from "./visitor.ts"

type BakeDay = Parameters<typeof giveBakeDay>[2]

/** Ben's tin loaf, mixed so many minutes ago and in its bulk since 30 minutes after that. */
async function inBulk(db: Db, cast: Cast, bulkMinAgo: number, bakeDay: BakeDay = {}) {
  const { bakeDayId } = await giveBakeDay(db, cast, bakeDay)
  const { location } = await cast.ben.submit(`/bake-days/${bakeDayId}/bakes`)
  const url = location!
  await cast.ben.submit(`${url}/marks/mix`, { startedAt: typedAgo(bulkMinAgo + 30), endedAt: typedAgo(bulkMinAgo) })
  await cast.ben.submit(`${url}/marks/bulk`, { startedAt: typedAgo(bulkMinAgo), endedAt: "" })
  return url
}

/** The tin loaf as planned for a cold kitchen: its bulk takes 6 to 8 h. */
const slowLoaf = {
  ...tinLoaf,
  stages: tinLoaf.stages.map((stage) => (stage.key === "bulk" ? { ...stage, lowMin: 360, highMin: 480 } : stage)),
}

/** Ben's slow loaf in a hot kitchen: half of what it should rise within two and a half hours. */
async function farAhead(db: Db, cast: Cast, content = slowLoaf) {
  const url = await inBulk(db, cast, 150, { content })
  for (const [minAgo, value] of [
    [90, "89"],
    [45, "98"],
    [3, "107"],
  ] as const) {
    await doughRead(url, cast.ben, "29", minAgo)
    await jarRead(url, cast.ben, value, minAgo)
  }
  return url
}

const doughRead = (url: string, who: Visitor, value: string, minAgo: number) =>
  read(who, url, { kind: "dough", value, takenAt: typedAgo(minAgo) })
const jarRead = (url: string, who: Visitor, value: string, minAgo: number, more: Record<string, string> = {}) =>
  read(who, url, { kind: "rise", startHeight: "80", value, takenAt: typedAgo(minAgo), ...more })

async function estimate(url: string, who: Visitor) {
  const { page } = await who.open(url)
  const section = page.querySelector("#estimate")
  const words = wordsOf(section)
  const [, ready] = /ready (?:since )?about (?:\w+ )?(\d\d:\d\d)/.exec(words) ?? []
  const range = /\((?:\w+ )?(\d\d:\d\d)–(?:\w+ )?(\d\d:\d\d)\)/.exec(words)
  const [from, to] = [range?.[1], range?.[2]].map((time) => (time ? minuteOf(time) : Number.NaN))
  return { section, words, ready, widthMin: (to! - from! + 1440) % 1440 }
}
const minuteOf = (time: string) => Number(time.slice(0, 2)) * 60 + Number(time.slice(3))

test("before anything has begun there is no estimate, nor once the bake is closed", async ({ db, cast }) => {
  const { url } = await started(db, cast)
  expect((await estimate(url, cast.ben)).words).toBe("")
  await cast.ben.submit(`${url}/marks/bulk`, { startedAt: typedAgo(100), endedAt: "" })
  expect((await estimate(url, cast.ben)).words).not.toBe("")
  await cast.ben.submit(`${url}/completion`)
  expect((await estimate(url, cast.ben)).words).toBe("")
})

test("without a reading it says when the dough is ready by the plan's temperature, and that nobody measured", async ({
  db,
  cast,
}) => {
  const { words, section, widthMin } = await estimate(await inBulk(db, cast, 120), cast.ben)
  expect(words).toMatch(/ready about (\w+ )?\d\d:\d\d \((\w+ )?\d\d:\d\d–(\w+ )?\d\d:\d\d\)/)
  expect(words).toContain(
    "the plan’s temperature, as nobody measured dough or room, and no rise yet; the leaven is taken as usual",
  )
  expect(words).toContain("reference hours since")
  expect(words).toContain("the target is +50 %")
  expect(widthMin).toBeGreaterThan(150)
  expect(section?.querySelector("svg")?.getAttribute("aria-label")).toContain("+50 % about")
})

test("it names the reading that would sharpen it most, and leads there", async ({ db, cast }) => {
  const first = await estimate(await inBulk(db, cast, 120), cast.ben)
  expect(first.words).toMatch(/A dough temperature now would narrow the range from \d+ h.* to about \d+ h/)
  expect(first.section?.querySelector('a[href="#reading-dough"]')).not.toBeNull()
  const second = await estimate(await inBulk(db, cast, 270), cast.ben)
  expect(second.words).toMatch(/A rise in the jar now would narrow the range/)
  expect(second.section?.querySelector('a[href="#reading-rise"]')).not.toBeNull()
})

test("a rise that no such leaven could have made is questioned", async ({ db, cast }) => {
  const url = await inBulk(db, cast, 100)
  await jarRead(url, cast.ben, "90", 5)
  expect((await estimate(url, cast.ben)).words).not.toContain("look at the start mark")
  await jarRead(url, cast.ben, "150", 3)
  expect((await estimate(url, cast.ben)).words).toContain(
    "The jar reads +88 %, more than this leaven could have made by then",
  )
})

test("with each reading its range gets narrower", async ({ db, cast }) => {
  const url = await inBulk(db, cast, 240)
  const widths = [(await estimate(url, cast.ben)).widthMin]
  const marks = [
    [180, "85"],
    [140, "89"],
    [100, "93"],
    [60, "98"],
    [5, "104"],
  ] as const
  for (const [minAgo, value] of marks) {
    await doughRead(url, cast.ben, "24.5", minAgo)
    await jarRead(url, cast.ben, value, minAgo)
    widths.push((await estimate(url, cast.ben)).widthMin)
  }
  expect(widths[1]).toBeLessThan(widths[0]!)
  expect(widths.at(-1)).toBeLessThan(0.6 * widths[0]!)
  const { section, words } = await estimate(url, cast.ben)
  expect(words).toContain("Rests on 5 temperatures of the dough and 5 rises")
  expect(section?.querySelectorAll("svg circle:not(.now)").length).toBe(5)
  expect(wordsOf(section!.querySelector("details"))).toContain("read +30 %")
})

test("a livelier dough than usual is ready sooner, a rise judged by eye or in a bowl counts less", async ({
  db,
  cast,
}) => {
  const url = await inBulk(db, cast, 200)
  const usual = minuteOf((await estimate(url, cast.ben)).ready!)
  const moved = async (more: Record<string, string>) => {
    await jarRead(url, cast.ben, "120", 10, more)
    const { ready } = await estimate(url, cast.ben)
    const [last] = (await db.query.readings.findMany({ where: eq(readings.kind, "rise") })).slice(-1)
    await cast.ben.submit(`${url}/readings/${last!.id}/removal`)
    return (usual - minuteOf(ready!) + 1440) % 1440
  }
  const [measured, byEye, bowl] = [await moved({}), await moved({ known: "felt" }), await moved({ of: "bowl" })]
  expect(measured).toBeGreaterThan(40)
  expect(byEye).toBeLessThan(measured)
  expect(bowl).toBeLessThan(measured)
  expect(await moved({ of: "levain" })).toBe(0)
})

test("what was taken back counts no more", async ({ db, cast }) => {
  const url = await inBulk(db, cast, 200)
  const before = (await estimate(url, cast.ben)).words
  await jarRead(url, cast.ben, "130", 10)
  expect((await estimate(url, cast.ben)).words).not.toBe(before)
  const rise = await db.query.readings.findFirst({ where: eq(readings.kind, "rise") })
  await cast.ben.submit(`${url}/readings/${rise!.id}/removal`)
  expect((await estimate(url, cast.ben)).words).toBe(before)
})

test("an earlier bake of the same student says how lively the starter is", async ({ db, cast }) => {
  const first = await inBulk(db, cast, 300)
  for (const [minAgo, value] of [
    [180, "96"],
    [90, "118"],
    [20, "128"],
  ] as const) {
    await doughRead(first, cast.ben, "24", minAgo)
    await jarRead(first, cast.ben, value, minAgo)
  }
  await cast.ben.submit(`${first}/completion`)
  const plain = await estimate(await inBulkOf(cast.bea), cast.bea)
  const learned = await estimate(await inBulk(db, cast, 100), cast.ben)

  expect(learned.words).toMatch(/your starter over one bake: \d+ % livelier than usual/)
  expect(plain.words).toContain("the leaven is taken as usual")
  expect(learned.widthMin).toBeLessThan(plain.widthMin)

  async function inBulkOf(who: Visitor) {
    const { bakeDayId } = await giveBakeDay(db, cast)
    const { location } = await who.submit(`/bake-days/${bakeDayId}/bakes`)
    await who.submit(`${location}/marks/bulk`, { startedAt: typedAgo(100), endedAt: "" })
    return location!
  }
})

test("a dough far ahead of its plan is offered what can be done, and what each does to the time", async ({
  db,
  cast,
}) => {
  const url = await farAhead(db, cast)
  const { words } = await estimate(url, cast.ben)
  expect(words).toMatch(/Running .+ ahead of plan\./)
  expect(words).toMatch(/In a cooler place, at about 18 °C: (ready about|hardly later)/)
  expect(words).toContain("In the fridge, at 4 °C: ready about")
  expect(words).toMatch(/Shape now: it stands at \+\d+ % \(\d+–\d+\), the target is \+50 %\./)
  expect(words).not.toContain("warmer")
  expect(words).not.toContain("does not keep")
})

test("so is one with milk, with the caution that it must not stand warm", async ({ db, cast }) => {
  const [levain, dough] = tinLoaf.parts
  const milk = { ...dough!.lines[1]!, ingredient: "milk" }
  const content = { ...slowLoaf, parts: [levain!, { ...dough!, lines: dough!.lines.with(1, milk) }] }
  const url = await farAhead(db, cast, content)
  expect((await estimate(url, cast.ben)).words).toContain(
    "Egg or milk in the dough: up to 10 h 40 min above 5 °C (41 °F)",
  )
})

test("a dough far behind its plan is offered a warmer place", async ({ db, cast }) => {
  const url = await inBulk(db, cast, 330)
  for (const [minAgo, value] of [
    [200, "81"],
    [90, "84"],
    [5, "87"],
  ] as const) {
    await doughRead(url, cast.ben, "20", minAgo)
    await jarRead(url, cast.ben, value, minAgo)
  }
  const { words } = await estimate(url, cast.ben)
  expect(words).toMatch(/Running .+ behind plan\./)
  expect(words).toMatch(/In a warmer place, at about 27 °C: ready about/)
})

test("it says when the bread would be on the table, where that is not when it is wanted", async ({ db, cast }) => {
  const url = await inBulk(db, cast, 60)
  await db.update(bakes).set({ onTableAt: minutesAgo(-60) })
  expect((await estimate(url, cast.ben)).words).toMatch(/With the rest as planned, on the table about .+; wanted at/)
})

test("one that may well be on time is on plan, and is offered nothing", async ({ db, cast }) => {
  const { words } = await estimate(await inBulk(db, cast, 60), cast.ben)
  expect(words).toContain("On plan, as far as can be said.")
  expect(words).not.toContain("What can be done now")
})

test("a dough past its target says since when", async ({ db, cast }) => {
  const url = await inBulk(db, cast, 560)
  await doughRead(url, cast.ben, "26", 100)
  await jarRead(url, cast.ben, "135", 100)
  const { words } = await estimate(url, cast.ben)
  expect(words).toMatch(/ready since about/)
  expect(words).toContain("Shape now")
})

test("once shaped it says what was reached, and of the proof no more than the plan does", async ({ db, cast }) => {
  const url = await inBulk(db, cast, 330)
  await doughRead(url, cast.ben, "24", 200)
  await jarRead(url, cast.ben, "112", 60)
  const shapedAt = typedAgo(50)
  await cast.ben.submit(`${url}/marks/shape`, { startedAt: shapedAt, endedAt: typedAgo(35) })
  const { words: reached } = await estimate(url, cast.ben)
  expect(reached).toMatch(
    /Its rise ended at (\w+ )?\d\d:\d\d with \+\d+ % \(\d+–\d+\) of the \+50 % asked for, after \d/,
  )
  expect(reached).toContain(`${shapedAt.slice(11, 16)} with`) // to the minute: it was logged, not estimated
  await cast.ben.submit(`${url}/marks/proof`, { startedAt: typedAgo(35), endedAt: "" })
  expect((await estimate(url, cast.ben)).words).toContain("Nobody has measured dough or room since it was shaped")
  await doughRead(url, cast.ben, "23", 20)
  // a rise after shaping has another start
  await jarRead(url, cast.ben, "300", 5)
  const { words } = await estimate(url, cast.ben)
  expect(words).toMatch(/Proof: no rise is measured in it, so nothing is estimated\. The plan’s time at 24 °C comes to/)
  expect(words).toContain("and one rise")
})

test("where something is missing it says what, and makes nothing up", async ({ db, cast }) => {
  const cool = tinLoaf.stages.map(({ referenceC: _, ...stage }) => stage)
  const noTemperature = await inBulk(db, cast, 120, { content: { ...tinLoaf, stages: cool }, targetDoughC: null })
  expect((await estimate(noTemperature, cast.ben)).words).toContain("Nobody has said how warm the dough is")
  await read(cast.ben, noTemperature, { kind: "room", value: "22", takenAt: typedAgo(30) })
  expect((await estimate(noTemperature, cast.ben)).words).toMatch(
    /ready about .*the room’s temperature, as nobody measured the dough/,
  )

  const noTarget = await estimate(await inBulk(db, cast, 120, { targetRise: null }), cast.ben)
  expect(noTarget.words).toMatch(
    /The bake day names no rise to stop at\..*Now \+\d+ % .*The plan’s time at 24 °C comes to/,
  )
  expect(noTarget.ready).toBeUndefined()

  const bare = tinLoaf.parts.map((part) => ({ ...part, lines: part.lines.map((line) => ({ ...line, quantity: "" })) }))
  const noAmounts = await estimate(await inBulk(db, cast, 120, { content: { ...tinLoaf, parts: bare } }), cast.ben)
  expect(noAmounts.words).toContain("does not say")
  expect(noAmounts.ready).toBeUndefined()

  const noStart = await started(db, cast)
  await cast.ben.submit(`${noStart.url}/marks/proof`, { startedAt: typedAgo(30), endedAt: "" })
  expect((await estimate(noStart.url, cast.ben)).words).toContain("When bulk began is not marked")
})

test("a start that is only roughly known widens the range", async ({ db, cast }) => {
  const exact = await estimate(await inBulk(db, cast, 240), cast.ben)
  const url = await inBulk(db, cast, 240)
  await cast.ben.submit(`${url}/marks/bulk`, { startedAt: "between 2 and 6 hours ago", endedAt: "" })
  expect((await estimate(url, cast.ben)).widthMin).toBeGreaterThan(exact.widthMin)
})

test("it is told by the clock and in the degrees of whoever looks", async ({ db, cast }) => {
  // neither place changes its clocks
  await db.update(users).set({ temperatureUnit: "F", zone: "Asia/Tokyo" }).where(eq(users.id, cast.ana.id))
  await db.update(users).set({ zone: "Atlantic/Reykjavik" }).where(eq(users.id, cast.ben.id))
  const url = await farAhead(db, cast)
  const [ben, ana] = [await estimate(url, cast.ben), await estimate(url, cast.ana)]
  expect(ana.words).toContain("In the fridge, at 39.2 °F")
  expect(ana.words).toContain("the leaven is taken as usual")
  expect((minuteOf(ana.ready!) - minuteOf(ben.ready!) + 1440) % 1440).toBe(9 * 60)
})

test("whatever was logged, in whatever order, it is an estimate or says why there is none", () => {
  const start = Date.UTC(2025, 2, 8, 8)
  const at = (min: number) => new Date(start + min * 60_000)
  const bulk = tinLoaf.stages.findIndex(({ kind }) => kind === "bulk")
  const cold = { ...tinLoaf.stages[bulk]!, key: "cold", kind: "retard" as const, name: "Cold bulk", referenceC: 4 }
  const stages = tinLoaf.stages.toSpliced(bulk + 1, 0, cold)
  const when = fc.integer({ min: -2000, max: 2000 })
  const mark = fc.record({
    key: fc.constantFrom(...stages.map(({ key }) => key)),
    from: when,
    lasts: fc.option(fc.integer({ min: 0, max: 900 })),
    about: fc.option(fc.integer({ min: 1, max: 300 })),
    paused: fc.boolean(),
  })
  const reading = fc.record({
    kind: fc.constantFrom("dough" as const, "room" as const, "fridge" as const, "rise" as const, "finger" as const),
    from: when,
    c: fc.double({ min: -30, max: 60, noNaN: true }),
    rise: fc.double({ min: -0.9, max: 9, noNaN: true }),
    known: fc.constantFrom("measured" as const, "assumed" as const, "felt" as const),
    of: fc.constantFrom("", "jar", "bowl", "levain"),
    typed: fc.constantFrom("50 → 78 mm", "2 in → 3 in", "+50 %", "a hand → two", "3 → 5", "0 → 10 mm"),
  })
  const marks = fc.uniqueArray(mark, { selector: ({ key }) => key })
  fc.assert(
    fc.property(
      marks,
      fc.array(reading, { maxLength: 14 }),
      fc.option(fc.double({ min: 0.01, max: 9, noNaN: true })),
      (marked, taken, targetRise) => {
        const told = estimateOf({
          ...{ stages, targetRise, targetDoughC: null, onTableAt: at(900), skipped: [], now: at(600) },
          ...{ raised: { leaven: { culture: "sourdough", share: 0.11 }, factor: 1 }, lessons: { own: [], others: [] } },
          marks: marked.map(({ key, from, lasts, about, paused }) => ({
            ...{
              stageKey: key,
              startedAt: at(from),
              endedAt: lasts === null ? null : at(from + lasts),
              startedAboutMin: about,
            },
            pauses: paused ? [{ from: at(from + 5).toISOString(), to: null }] : [],
          })),
          readings: taken.map(({ kind, from, c, rise, known, of, typed }) => ({
            ...{ kind, known, of, typed, takenAt: at(from), takenAboutMin: null },
            value: kind === "finger" ? null : kind === "rise" ? rise : c,
          })),
        })
        if (told?.kind === "cannot") expect(told.why).not.toBe("")
        if (told && "rise" in told) expect(Object.values(told.rise).every(Number.isFinite)).toBe(true)
      },
    ),
  )
})
