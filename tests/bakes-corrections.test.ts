import { eq } from "drizzle-orm"
import { listCorrections } from "../server/bakes/corrections.ts"
import { listMarks, listReadings } from "../server/bakes/queries.ts"
import { marks } from "../server/schema.ts"
import { error, minutesAgo, read, started, typedAgo, typedIn } from "./bench.ts"
import { expect, test } from "./test.ts"
import { type Visitor, wordsOf } from "./visitor.ts"

/** The log without its forms: each line as it is read. */
async function logOf(who: Visitor, url: string) {
  const { page } = await who.open(url)
  for (const form of page.querySelectorAll("#log form, #log .thread")) form.remove()
  return page.querySelectorAll("#log li:not(.day) > div").map(wordsOf)
}
const struck = async (who: Visitor, url: string) => (await who.open(url)).page.querySelectorAll("#log del").map(wordsOf)

test("a corrected reading stands in the log beside what it said before, with who changed it and when", async ({
  db,
  cast,
}) => {
  const { id, url } = await started(db, cast)
  await read(cast.ben, url, { kind: "dough", value: "42" })
  const [wrong] = await listReadings(db, id)

  await cast.ana.submit(`${url}/readings/${wrong!.id}`, { value: "24", takenAt: "", known: "felt" })

  expect(await listReadings(db, id)).toMatchObject([{ value: 24, typed: "24 °C", known: "felt" }])
  expect(await struck(cast.ben, url)).toEqual(["Dough 42 °C"])
  expect((await logOf(cast.ben, url))[0]).toMatch(/^Dough 24 °C \(felt\).* Dough 42 °C changed by Ana, \d\d:\d\d$/)
})

test("every correction is kept, the first first, and keeping the same again is none", async ({ db, cast }) => {
  const { id, url } = await started(db, cast)
  await read(cast.ben, url, { kind: "ph", value: "4.5" })
  const [reading] = await listReadings(db, id)
  for (const value of ["4.4", "4.4", "4.3"])
    await cast.ben.submit(`${url}/readings/${reading!.id}`, { value, takenAt: "" })

  expect(await struck(cast.ben, url)).toEqual(["pH 4.5", "pH 4.4"])
  expect((await listCorrections(db, id)).map(({ was }) => was!.value)).toEqual([4.5, 4.4])
})

test("a reading that is taken back counts no more, stays in the log and can be put back", async ({ db, cast }) => {
  const { id, url } = await started(db, cast)
  await read(cast.ben, url, { kind: "dough", value: "42" })
  const [wrong] = await listReadings(db, id)

  await cast.ben.submit(`${url}/readings/${wrong!.id}/removal`)
  expect(await listReadings(db, id)).toEqual([])
  expect(wordsOf((await cast.ben.open(url)).page.querySelector("#reading-dough summary"))).toBe("Dough – none yet")
  expect((await logOf(cast.ben, url))[0]).toMatch(/^Dough 42 °C taken back by Ben, \d\d:\d\d$/)

  const { page } = await cast.ben.open(url)
  await cast.ben.submit(page.querySelector(`#log-${wrong!.id} form`)!.getAttribute("action")!)
  expect(await listReadings(db, id)).toEqual([wrong])
  expect(await struck(cast.ben, url)).toEqual([])
})

test("a stage's corrected times stand beside what they were", async ({ db, cast }) => {
  const { id, url } = await started(db, cast)
  await db.insert(marks).values({ bakeId: id, stageKey: "bulk", startedAt: minutesAgo(300), endedAt: minutesAgo(60) })
  const was = (await listMarks(db, id))[0]!

  await cast.ben.submit(`${url}/marks/bulk`, { startedAt: typedAgo(280), endedAt: "" })

  const told = (await logOf(cast.ben, url)).join("; ")
  expect(told).toMatch(/Bulk started .*changed by Ben.*; Bulk ended taken back by Ben, \d\d:\d\d/)
  expect((await struck(cast.ben, url)).length).toBe(3)
  expect(await listCorrections(db, id)).toMatchObject([
    { stageKey: "bulk", was: { startedAt: was.startedAt.toISOString(), endedAt: was.endedAt!.toISOString() } },
  ])
})

test("a stage that is taken back stays in the log, and is put back with all its times", async ({ db, cast }) => {
  const { id, url } = await started(db, cast)
  const pauses = [{ from: minutesAgo(200).toISOString(), to: minutesAgo(150).toISOString() }]
  const times = { startedAt: minutesAgo(300), startedTyped: "about 5 h ago", startedAboutMin: 75, pauses }
  await db.insert(marks).values({ bakeId: id, stageKey: "bulk", ...times, endedAt: minutesAgo(60) })
  const [was] = await listMarks(db, id)

  await cast.ben.submit(`${url}/marks/bulk`, { startedAt: "", endedAt: "" })
  expect(await listMarks(db, id)).toEqual([])
  const gone = await struck(cast.ben, url)
  expect(gone.filter((words) => words.startsWith("Bulk"))).toEqual([
    "Bulk started",
    "Bulk paused",
    "Bulk gone on with",
    "Bulk ended",
  ])

  await cast.ben.submit(`${url}/marks/bulk/restoration`)
  expect(await listMarks(db, id)).toEqual([was])
  await cast.ben.submit(`${url}/marks/bulk/restoration`)
  expect(await listMarks(db, id)).toEqual([was])
})

test("classmates see what stands, not what was corrected", async ({ db, cast }) => {
  const { id, url } = await started(db, cast)
  await read(cast.ben, url, { kind: "dough", value: "42" })
  await read(cast.ben, url, { kind: "note", value: "Burnt my thumb" })
  const [wrong, note] = await listReadings(db, id)
  await cast.ben.submit(`${url}/readings/${wrong!.id}`, { value: "24", takenAt: "" })
  await cast.ben.submit(`${url}/readings/${note!.id}/removal`)

  const { text } = await cast.bea.open(url)
  expect(text).toContain("24 °C")
  expect(text).not.toContain("42 °C")
  expect(text).not.toContain("thumb")
})

test("a stage is gone on with: its end becomes a pause, and its minutes leave the pause out", async ({ db, cast }) => {
  const { id, url } = await started(db, cast)
  await db.insert(marks).values({ bakeId: id, stageKey: "bulk", startedAt: minutesAgo(180), endedAt: minutesAgo(60) })
  const button = async () => wordsOf((await cast.ben.open(url)).page.querySelector("#now .act button.quiet"))
  expect(await button()).toBe("Go on with Bulk")

  await cast.ben.submit(`${url}/marks`, { stageKey: "bulk", action: "resume" })

  expect(await listMarks(db, id)).toMatchObject([{ endedAt: null, pauses: [{ from: expect.any(String) }] }])
  const now = wordsOf((await cast.ben.open(url)).page.querySelector("#now"))
  expect(now).toContain("2:00")
  expect(now).toContain("paused 1 h")
  await cast.ben.submit(`${url}/marks`, { stageKey: "bulk", action: "end" })
  const item = wordsOf((await cast.ben.open(url)).page.querySelector("#stage-bulk"))
  expect(item).toMatch(/actual 2 h \d\d:\d\d – \d\d:\d\d, 2 h shorter, paused \d\d:\d\d – \d\d:\d\d/)
  expect((await logOf(cast.ben, url)).map((line) => line.replace(/ \(.*/, ""))).toEqual([
    "Bulk started",
    "Bulk paused",
    "Bulk gone on with",
    "Bulk ended",
  ])
})

test("going on with a stage ends the one that was begun meanwhile", async ({ db, cast }) => {
  const { id, url } = await started(db, cast)
  await db.insert(marks).values([
    { bakeId: id, stageKey: "bulk", startedAt: minutesAgo(180), endedAt: minutesAgo(20) },
    { bakeId: id, stageKey: "shape", startedAt: minutesAgo(20) },
  ])
  await cast.ben.submit(`${url}/marks`, { stageKey: "bulk", action: "resume" })
  const [bulk, shape] = await listMarks(db, id)
  expect(bulk!.endedAt).toBeNull()
  expect(shape!.endedAt).toEqual(new Date(bulk!.pauses[0]!.to!))
})

test("a pause can be added, corrected and taken out by hand", async ({ db, cast }) => {
  const { id, url } = await started(db, cast)
  const [startedAt, endedAt] = [typedAgo(300), typedAgo(20)]
  const keep = (pauses: Record<string, string>) =>
    cast.ben.submit(`${url}/marks/bulk`, { startedAt, endedAt, ...pauses })

  await keep({ pause0From: typedAgo(200), pause0To: typedAgo(140) })
  const item = wordsOf((await cast.ben.open(url)).page.querySelector("#stage-bulk"))
  expect(item).toContain("actual 3 h 40 min")
  await keep({ pause0From: typedAgo(200), pause0To: typedAgo(140), pause1From: typedAgo(100), pause1To: typedAgo(90) })
  expect((await listMarks(db, id))[0]!.pauses).toHaveLength(2)
  await keep({ pause0From: "", pause0To: "", pause1From: typedAgo(100), pause1To: typedAgo(90) })
  expect((await listMarks(db, id))[0]!.pauses).toHaveLength(1)
})

test.for([
  [{ pause0From: typedAgo(200), pause0To: "" }, "pause0To", "Give the end of the pause too."],
  [{ pause0From: "", pause0To: typedAgo(200) }, "pause0From", "Give the start of the pause too."],
  [{ pause0From: typedAgo(100), pause0To: typedAgo(200) }, "pause0To", "The end is before the start."],
  [
    { pause0From: typedAgo(400), pause0To: typedAgo(200) },
    "pause0From",
    "A pause begins after the start and after the pause before it.",
  ],
  [{ pause0From: typedAgo(100), pause0To: typedAgo(5) }, "pause0To", "A pause ends before the stage does."],
] as const)("a pause of %o is refused beside its field", async ([pause, field, message], { db, cast }) => {
  const { id, url } = await started(db, cast)
  const answer = await cast.ben.submit(`${url}/marks/bulk`, {
    startedAt: typedAgo(300),
    endedAt: typedAgo(20),
    ...pause,
  })
  expect([answer.status, error(answer, `mark-bulk-${field}`)]).toEqual([422, message])
  expect(typedIn(answer, `mark-bulk-${field}`)).toBe((pause as Record<string, string>)[field])
  expect(await listMarks(db, id)).toEqual([])
})

test("who comes late to the phone says when a stage started and ended", async ({ db, cast }) => {
  const { id, url } = await started(db, cast)
  await cast.ben.submit(`${url}/marks`, { stageKey: "bulk", action: "start", at: "about 3 hours ago" })
  expect(await listMarks(db, id)).toMatchObject([{ startedTyped: "about 3 hours ago", startedAboutMin: 45 }])
  expect((await logOf(cast.ben, url))[0]).toBe("Bulk started (± 45 min, told as “about 3 hours ago”)")

  const before = await cast.ben.submit(`${url}/marks`, { stageKey: "bulk", action: "end", at: "5 hours ago" })
  expect([before.status, error(before, "end-bulk-at")]).toEqual([422, "That is before it started."])
  expect(typedIn(before, "end-bulk-at")).toBe("5 hours ago")
  await cast.ben.submit(`${url}/marks`, { stageKey: "bulk", action: "end", at: "an hour ago" })
  const [bulk] = await listMarks(db, id)
  expect(Math.round((+bulk!.endedAt! - +bulk!.startedAt) / 60_000)).toBe(120)
})

test("a vague time is shown as one, and left alone it stays as it was told", async ({ db, cast }) => {
  const { id, url } = await started(db, cast)
  await read(cast.ben, url, { kind: "dough", value: "24", takenAt: "about 2 hours ago" })
  const [kept] = await listReadings(db, id)
  expect(kept).toMatchObject({ takenTyped: "about 2 hours ago", takenAboutMin: 30 })

  const page = await cast.ben.open(url)
  expect(wordsOf(page.page.querySelector("#reading-dough summary"))).toBe("Dough 24 °C about 2 h ago")
  const takenAt = typedIn(page, `reading-${kept!.id}-takenAt`)!
  expect(takenAt).toMatch(/^about \w{3} \d{1,2} \w{3} \d\d:\d\d$/)
  await cast.ben.submit(`${url}/readings/${kept!.id}`, { value: "25", takenAt })
  expect(await listReadings(db, id)).toEqual([{ ...kept, value: 25, typed: "25 °C" }])
})

test("each value says how it is known and of what", async ({ db, cast }) => {
  const { url } = await started(db, cast)
  await read(cast.ben, url, { kind: "dough", value: "26", known: "felt" })
  await read(cast.ben, url, { kind: "rise", value: "40 %", known: "felt", of: "bowl" })
  await read(cast.ben, url, { kind: "ph", value: "4.1", known: "assumed", of: "levain" })
  await read(cast.ben, url, { kind: "fridge", value: "4", known: "assumed" })

  const { page } = await cast.ben.open(url)
  const tile = (kind: string) => wordsOf(page.querySelector(`#reading-${kind} summary`))
  expect(tile("dough")).toBe("Dough 26 °C felt · just now")
  expect(tile("rise")).toBe("Jar +40 % by eye · in the bowl · just now")
  expect(tile("ph")).toBe("pH pH 4.1 assumed · of the levain · just now")
  expect(tile("other")).toBe("Fridge 4 °C assumed · just now")
  const lines = (await logOf(cast.ben, url)).map((line) => line.replace(/\).*/, ")"))
  expect(lines).toEqual([
    "Dough 26 °C (felt)",
    "Rise in the bowl +40 % (by eye)",
    "pH of the levain 4.1 (assumed)",
    "Fridge 4 °C (assumed)",
  ])
})

test("when a stage's times change, its readings go to the stage that then ran", async ({ db, cast }) => {
  const { id, url } = await started(db, cast)
  await read(cast.ben, url, { kind: "dough", value: "26", takenAt: typedAgo(110) })
  expect((await listReadings(db, id))[0]!.stageKey).toBeNull()
  await cast.ben.submit(`${url}/marks/bulk`, { startedAt: typedAgo(180), endedAt: typedAgo(20) })
  expect((await listReadings(db, id))[0]!.stageKey).toBe("bulk")
  await cast.ben.submit(`${url}/marks/bulk`, {
    ...{ startedAt: typedAgo(180), endedAt: typedAgo(20) },
    ...{ pause0From: typedAgo(120), pause0To: typedAgo(100) },
  })
  expect((await listReadings(db, id))[0]!.stageKey).toBeNull()
  expect(await db.$count(marks, eq(marks.bakeId, id))).toBe(1)
})
