import { randomUUID } from "node:crypto"
import { eq } from "drizzle-orm"
import { listMarks, listReadings } from "../server/bakes/queries.ts"
import { marks, users } from "../server/schema.ts"
import { wallTime } from "../server/web/zones.ts"
import { error, minutesAgo, read, started, typedAgo, typedIn, zone } from "./bench.ts"
import { expect, test } from "./test.ts"
import { type Visitor, wordsOf } from "./visitor.ts"

test("one tap starts a stage, ends it, and starting the next ends the one that is running", async ({ db, cast }) => {
  const { id, url } = await started(db, cast)
  const tap = (stageKey: string, action: string) => cast.ben.submit(`${url}/marks`, { stageKey, action })
  const button = async () => wordsOf((await cast.ben.open(url)).page.querySelector("#now button.next"))

  expect(await button()).toBe("Start Mix")
  await tap("mix", "start")
  expect(await button()).toBe("End Mix")
  await tap("mix", "end")
  expect(await button()).toBe("Start Bulk")
  await tap("bulk", "start")
  await tap("shape", "start")
  expect(await button()).toBe("End Shape")

  const [mix, bulk, shape] = await listMarks(db, id)
  expect(mix?.endedAt).not.toBeNull()
  expect(bulk?.endedAt).toEqual(shape?.startedAt)
  expect(shape?.endedAt).toBeNull()
})

test("a second tap changes nothing", async ({ db, cast }) => {
  const { id, url } = await started(db, cast)
  const startedAt = minutesAgo(60)
  await db.insert(marks).values({ bakeId: id, stageKey: "mix", startedAt, endedAt: minutesAgo(40) })
  await db.insert(marks).values({ bakeId: id, stageKey: "bulk", startedAt: minutesAgo(40) })
  const before = await listMarks(db, id)
  await cast.ben.submit(`${url}/marks`, { stageKey: "mix", action: "start" })
  await cast.ben.submit(`${url}/marks`, { stageKey: "mix", action: "end" })
  expect(await listMarks(db, id)).toEqual(before)
})

test("a mark for a stage that the revision does not have is refused", async ({ db, cast }) => {
  const { id, url } = await started(db, cast)
  const nothing = "This formula has no such stage; look at the stages below."
  for (const fields of [{ stageKey: "banneton", action: "start" }, { stageKey: "mix", action: "toString" }, {}]) {
    const answer = await cast.ben.submit(`${url}/marks`, fields as Record<string, string>)
    expect([answer.status, error(answer, "stage")]).toEqual([422, nothing])
  }
  const edited = await cast.ben.submit(`${url}/marks/banneton`, { startedAt: typedAgo(5), endedAt: "" })
  expect([edited.status, error(edited, "stage")]).toEqual([422, nothing])
  expect(await listMarks(db, id)).toEqual([])
})

test("the times of a stage can be corrected, left without an end, and taken back", async ({ db, cast }) => {
  const { id, url } = await started(db, cast)
  const correct = (startedAt: string, endedAt: string) => cast.ben.submit(`${url}/marks/bulk`, { startedAt, endedAt })

  expect(await correct(typedAgo(300), typedAgo(20))).toMatchObject({ status: 303, location: `${url}#stage-bulk` })
  const item = (await cast.ben.open(url)).page.querySelector("#stage-bulk")
  expect(wordsOf(item)).toContain("planned 4 h – 6 h")
  expect(wordsOf(item)).toContain("actual 4 h 40 min")
  await correct(typedAgo(200), "")
  expect(await listMarks(db, id)).toMatchObject([{ stageKey: "bulk", endedAt: null }])
  await correct("", "")
  expect(await listMarks(db, id)).toEqual([])
})

test("times that are left as they were keep their seconds", async ({ db, cast }) => {
  const { id, url } = await started(db, cast)
  const startedAt = new Date(Math.floor(Date.now() / 60_000) * 60_000 - 3_600_000 + 37_000)
  await db.insert(marks).values({ bakeId: id, stageKey: "bulk", startedAt })
  await cast.ben.submit(`${url}/marks/bulk`, { startedAt: wallTime(startedAt, zone), endedAt: typedAgo(10) })
  expect((await listMarks(db, id))[0]?.startedAt).toEqual(startedAt)
})

test.for([
  ["an end before its start", 60, 90, "endedAt", "The end is before the start."],
  ["an end in the future", 60, -90, "endedAt", "That is in the future."],
  ["a start in the future", -90, null, "startedAt", "That is in the future."],
  ["an end without a start", null, 20, "startedAt", "Give the start too."],
  ["a start long before the bake day", 60_000, 20, "startedAt", "That is more than a month before the bake day."],
] as const)("the times of a stage refuse %s and stay as typed", async ([, from, to, field, message], { db, cast }) => {
  const { id, url } = await started(db, cast)
  const typed = { startedAt: from === null ? "" : typedAgo(from), endedAt: to === null ? "" : typedAgo(to) }

  const answer = await cast.ben.submit(`${url}/marks/bulk`, typed)

  expect(answer.status).toBe(422)
  expect(error(answer, `mark-bulk-${field}`)).toBe(message)
  expect(typedIn(answer, "mark-bulk-startedAt")).toBe(typed.startedAt)
  expect(typedIn(answer, "mark-bulk-endedAt")).toBe(typed.endedAt)
  expect(await listMarks(db, id)).toEqual([])
})

test("a reading is kept once, however often its form arrives", async ({ db, cast }) => {
  const { id, url } = await started(db, cast)
  const form = { entryId: randomUUID(), kind: "dough", value: "24.5" }
  const answers = await Promise.all([1, 2, 3].map(() => cast.ben.submit(`${url}/readings`, form)))
  answers.push(await cast.ben.submit(`${url}/readings`, form))
  expect(answers.map(({ status }) => status)).toEqual([303, 303, 303, 303])
  expect(await listReadings(db, id)).toMatchObject([{ kind: "dough", value: 24.5, typed: "24.5 °C" }])
})

test("an old form sent with a new value is not swallowed", async ({ db, cast }) => {
  const { id, url } = await started(db, cast)
  const entryId = randomUUID()
  await cast.ben.submit(`${url}/readings`, { entryId, kind: "dough", value: "24.5" })

  const answer = await cast.ben.submit(`${url}/readings`, { entryId, kind: "dough", value: "25.5" })

  expect(answer.status).toBe(422)
  expect(error(answer, "dough-value")).toContain("sent before with another value")
  const fresh = answer.page.querySelector("#reading-dough input[name=entryId]")?.getAttribute("value") ?? ""
  await cast.ben.submit(`${url}/readings`, { entryId: fresh, kind: "dough", value: typedIn(answer, "dough-value")! })
  expect((await listReadings(db, id)).map(({ value }) => value)).toEqual([24.5, 25.5])
})

test("each form on the page has a number of its own", async ({ db, cast }) => {
  const { url } = await started(db, cast)
  const { page } = await cast.ben.open(url)
  const ids = page.querySelectorAll("input[name=entryId]").map((input) => input.getAttribute("value"))
  expect(ids.length).toBeGreaterThan(6)
  expect(new Set(ids).size).toBe(ids.length)
  const answer = await cast.ben.submit(`${url}/readings`, { entryId: "7", kind: "dough", value: "24" })
  expect([answer.status, error(answer, "dough-value")]).toEqual([422, "Press the button once more."])
})

test("what is typed in °F stays so, and others read it in their own unit", async ({ db, cast }) => {
  const { id, url } = await started(db, cast)
  await db.update(users).set({ temperatureUnit: "F" }).where(eq(users.id, cast.ben.id))

  await read(cast.ben, url, { kind: "dough", value: "75" })

  const [reading] = await listReadings(db, id)
  expect(reading?.value).toBeCloseTo(23.9, 1)
  expect(reading?.typed).toBe("75 °F")
  const tile = async (who: Visitor) => wordsOf((await who.open(url)).page.querySelector("#reading-dough summary"))
  expect(await tile(cast.ben)).toBe("Dough 75 °F just now")
  expect(await tile(cast.ana)).toBe("Dough 23.9 °C 75 °F · just now")
})

test("every kind of reading is kept with its value and its words", async ({ db, cast }) => {
  const { id, url } = await started(db, cast)
  await read(cast.ben, url, { kind: "room", value: "21,5" })
  await read(cast.ben, url, { kind: "rise", startHeight: "50", value: "78 mm" })
  await read(cast.ben, url, { kind: "rise", startHeight: "", value: "60 %" })
  await read(cast.ben, url, { kind: "finger", value: "slowly-partly" })
  await read(cast.ben, url, { kind: "ph", value: "4.1" })
  await read(cast.ben, url, { kind: "note", value: "Smells of <apples>" })

  const kept = (await listReadings(db, id)).map(({ kind, value, finger, typed }) => [kind, value, finger, typed])
  expect(kept).toEqual([
    ["room", 21.5, null, "21,5 °C"],
    ["rise", expect.closeTo(0.56, 9), null, "50 → 78 mm"],
    ["rise", 0.6, null, "60 %"],
    ["finger", null, "slowly-partly", "comes back slowly, partly"],
    ["ph", 4.1, null, "4.1"],
    ["note", null, null, "Smells of <apples>"],
  ])
  const log = wordsOf((await cast.ben.open(url)).page.querySelector("#log"))
  for (const words of ["Rise +56 % (typed 50 → 78 mm)", "comes back slowly, partly", "pH 4.1"])
    expect(log).toContain(words)
})

test("the height at the start is asked only once", async ({ db, cast }) => {
  const { url } = await started(db, cast)
  await read(cast.ben, url, { kind: "rise", startHeight: "50", value: "60" })
  expect(typedIn(await cast.ben.open(url), "rise-startHeight")).toBe("50")
})

test("a reading belongs to the stage that was running when it was taken", async ({ db, cast }) => {
  const { id, url } = await started(db, cast)
  await db.insert(marks).values([
    { bakeId: id, stageKey: "mix", startedAt: minutesAgo(120), endedAt: minutesAgo(100) },
    { bakeId: id, stageKey: "bulk", startedAt: minutesAgo(90) },
  ])
  await read(cast.ben, url, { kind: "dough", value: "26", takenAt: typedAgo(110) })
  await read(cast.ben, url, { kind: "dough", value: "25", takenAt: typedAgo(95) })
  await read(cast.ben, url, { kind: "dough", value: "24" })
  expect((await listReadings(db, id)).map(({ stageKey }) => stageKey)).toEqual(["mix", null, "bulk"])
})

test.for([
  ["dough", { value: "300 °C" }, "value", "300 °C is not possible for a dough. Is that 30 °C?"],
  ["dough", { value: "" }, "value", "Give a temperature."],
  ["dough", {}, "value", "Fill this in."],
  ["room", { value: "warm" }, "value", "Give the temperature as a number, such as 24.5 °C or 76 °F."],
  ["rise", { value: "-20", startHeight: "50" }, "value", "Heights must be above 0."],
  ["rise", { value: "78" }, "value", "Give the height at the start too, or write 78 % if that is what it has gained."],
  ["finger", {}, "value", "Choose what the dent did."],
  ["ph", { value: "41" }, "value", "A dough's pH lies between 2.5 and 9. Is that 4.1?"],
  ["note", { value: "  " }, "value", "Write something first."],
  ["dough", { value: "24", takenAt: typedAgo(-120) }, "takenAt", "That is in the future."],
  [
    "dough",
    { value: "24", takenAt: "yesterday" },
    "takenAt",
    "Say at what time of that day, such as “yesterday 22:00” or “yesterday evening”.",
  ],
  ["dough", { value: "24", known: "guessed" }, "known", "Say how it is known."],
  ["rise", { value: "24 %", of: "bathtub" }, "of", "Say what of."],
  ["dough", { value: "24", takenAt: "2001-01-01T10:00" }, "takenAt", "That is more than a month before the bake day."],
] as const)(
  "a reading of %s with %o is refused beside its field",
  async ([kind, fields, field, message], { db, cast }) => {
    const { id, url } = await started(db, cast)

    const answer = await read(cast.ben, url, { kind, ...fields })

    expect(answer.status).toBe(422)
    expect(error(answer, `${kind}-${field}`)).toBe(message)
    expect(answer.page.querySelector(`#reading-${kind}`)?.getAttribute("open")).toBeDefined()
    for (const [name, typed] of Object.entries(fields)) {
      const isText = kind !== "note" && !["known", "of"].includes(name)
      if (isText) expect(typedIn(answer, `${kind}-${name}`)).toBe(typed)
    }
    expect(await listReadings(db, id)).toEqual([])
  },
)

test("a reading can be corrected and removed, and keeps its time unless that is changed", async ({ db, cast }) => {
  const { id, url } = await started(db, cast)
  await read(cast.ben, url, { kind: "dough", value: "42" })
  const [wrong] = await listReadings(db, id)

  const refused = await cast.ben.submit(`${url}/readings/${wrong!.id}`, { value: "420", takenAt: "" })
  expect(error(refused, `reading-${wrong!.id}-value`)).toContain("420 °C is not possible for a dough")
  await cast.ben.submit(`${url}/readings/${wrong!.id}`, { value: "24", takenAt: wallTime(wrong!.takenAt, zone) })

  expect(await listReadings(db, id)).toEqual([{ ...wrong, value: 24, typed: "24 °C" }])
  await cast.ben.submit(`${url}/readings/${wrong!.id}/removal`)
  expect(await listReadings(db, id)).toEqual([])
  expect((await cast.ben.submit(`${url}/readings/${wrong!.id}/removal`)).status).toBe(303)
  expect((await cast.ben.submit(`${url}/readings/${wrong!.id}`, { value: "25" })).status).toBe(404)
})

test("a reading is changed only through its own bake", async ({ db, cast }) => {
  const { url, id, bakeDayId } = await started(db, cast)
  await read(cast.ben, url, { kind: "dough", value: "24" })
  const [reading] = await listReadings(db, id)
  const { location } = await cast.bea.submit(`/bake-days/${bakeDayId}/bakes`)
  for (const target of [`/readings/${reading!.id}`, `/readings/${reading!.id}/removal`, "/readings/x"]) {
    expect((await cast.bea.submit(`${location}${target}`, { value: "30" })).status).toBe(404)
  }
  expect(await listReadings(db, id)).toEqual([reading])
})

test("the log tells everything in the order it happened", async ({ db, cast }) => {
  const { id, url } = await started(db, cast)
  const bulkAt = minutesAgo(200)
  await db.insert(marks).values([
    { bakeId: id, stageKey: "mix", startedAt: minutesAgo(220), endedAt: bulkAt },
    { bakeId: id, stageKey: "bulk", startedAt: bulkAt },
  ])
  await read(cast.ben, url, { kind: "dough", value: "25", takenAt: typedAgo(100) })
  const { page } = await cast.ben.open(url)
  const told = page.querySelectorAll("#log li > div > details > summary, #log li > div > p").map(wordsOf)
  expect(told).toEqual(["Mix started", "Mix ended", "Bulk started", "Dough 25 °C"])
})

test("the log names who else tapped a stage, and not who corrected what the baker had tapped", async ({ db, cast }) => {
  const { asta, ben } = cast
  const { url } = await started(db, cast)
  const tap = (who: Visitor, stageKey: string, action: string) => who.submit(`${url}/marks`, { stageKey, action })
  const told = async () => (await ben.open(url)).page.querySelectorAll("#log li > div > p:first-child").map(wordsOf)

  await tap(ben, "mix", "start")
  await tap(asta, "bulk", "start")
  await tap(ben, "bulk", "end")
  expect(await told()).toEqual([
    "Mix started",
    "Mix ended (logged by Asta)",
    "Bulk started (logged by Asta)",
    "Bulk ended",
  ])

  await asta.submit(`${url}/marks/shape`, { startedAt: typedAgo(1), endedAt: "" })
  await asta.submit(`${url}/marks/mix`, { startedAt: typedAgo(30), endedAt: typedAgo(2) })
  await tap(ben, "shape", "end")
  expect((await told()).toSorted()).toEqual([
    "Bulk ended",
    "Bulk started (logged by Asta)",
    "Mix ended (logged by Asta)",
    "Mix started",
    "Shape ended",
    expect.stringMatching(/^Shape started \(.*logged by Asta\)$/),
  ])
})
