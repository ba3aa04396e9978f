import { randomUUID } from "node:crypto"
import { eq } from "drizzle-orm"
import { keepPlan } from "../server/bake-days/queries.ts"
import { findBake, listMarks, listOwnUnfinished, listReadings } from "../server/bakes/queries.ts"
import { leave } from "../server/classes/queries.ts"
import type { Db } from "../server/db.ts"
import { bakes, marks, users } from "../server/schema.ts"
import { wallTime } from "../server/web/zones.ts"
import type { Cast } from "./cast.ts"
import { giveBakeDay } from "./class-day.ts"
import { expect, test } from "./test.ts"
import { type Page, type Visitor, wordsOf } from "./visitor.ts"

const zone = "Europe/Lisbon"
const minutesAgo = (minutes: number) => new Date(Date.now() - minutes * 60_000)
const typedAgo = (minutes: number) => wallTime(minutesAgo(minutes), zone)
const idIn = (url: string) => Number(/\d+$/.exec(url)?.[0])
const error = ({ page }: Page, field: string) => wordsOf(page.querySelector(`#${field}-error`))
const typedIn = ({ page }: Page, field: string) => page.querySelector(`#${field}`)?.getAttribute("value")

/** Ben starts a bake of the tin loaf. */
async function started(db: Db, cast: Cast, who: Visitor = cast.ben) {
  const { bakeDayId, revisionId } = await giveBakeDay(db, cast)
  const { location } = await who.submit(`/bake-days/${bakeDayId}/bakes`)
  return { bakeDayId, revisionId, url: location!, id: idIn(location!) }
}

const read = (who: Visitor, url: string, fields: Record<string, string>) =>
  who.submit(`${url}/readings`, { entryId: randomUUID(), ...fields })

test("a bake starts with the bake day's revision and one's own plan", async ({ db, cast }) => {
  const { bakeDayId, revisionId } = await giveBakeDay(db, cast)
  const planned = new Date("2027-01-09T17:00:00Z")
  await keepPlan(db, bakeDayId, cast.ben.id, planned)

  const { status, location } = await cast.ben.submit(`/bake-days/${bakeDayId}/bakes`)

  expect(status).toBe(303)
  expect(await findBake(db, idIn(location!))).toMatchObject({
    userId: cast.ben.id,
    revisionId,
    onTableAt: planned,
    shownName: "Ben",
    revisionNumber: 1,
  })
})

test("without a plan it is for the suggested time, today when the window is open", async ({ db, cast }) => {
  const { id } = await started(db, cast)
  const today = wallTime(new Date(), zone).slice(0, 10)
  expect(wallTime((await findBake(db, id))!.onTableAt, zone)).toBe(`${today}T18:00`)
})

test("starting again returns to the unfinished bake, and starts a second once it is finished or given up", async ({
  db,
  cast,
}) => {
  const { bakeDayId, url } = await started(db, cast)
  const again = async () => (await cast.ben.submit(`/bake-days/${bakeDayId}/bakes`)).location
  expect(await again()).toBe(url)
  await cast.ben.submit(`${url}/completion`)
  const second = (await again())!
  expect(second).not.toBe(url)
  await cast.ben.submit(`${second}/abandonment`)
  expect([url, second]).not.toContain(await again())
})

test("an assistant starts a bake for somebody and logs it; a student may not", async ({ db, cast }) => {
  const { bakeDayId } = await giveBakeDay(db, cast)
  const start = (who: Visitor, forWhom: number | string) =>
    who.submit(`/bake-days/${bakeDayId}/bakes`, { for: String(forWhom) })

  const { location } = await start(cast.asta, cast.ben.id)
  expect((await findBake(db, idIn(location!)))?.userId).toBe(cast.ben.id)
  expect((await read(cast.asta, location!, { kind: "dough", value: "24" })).status).toBe(303)
  expect((await cast.asta.submit(`${location}/marks`, { stageKey: "mix", action: "start" })).status).toBe(303)
  expect((await cast.ben.open(location!)).text).toContain("24 °C")

  expect((await start(cast.bea, cast.ben.id)).status).toBe(403)
  expect((await start(cast.asta, cast.dan.id)).status).toBe(404)
  expect((await start(cast.asta, "nobody")).status).toBe(404)
  expect((await start(cast.bea, "")).status).toBe(303)
})

test("the front page lists what one has begun and not finished", async ({ db, cast }) => {
  const { id, url, bakeDayId } = await started(db, cast)
  expect(await listOwnUnfinished(db, cast.ben.id)).toMatchObject([
    { id, bakeDayId, title: "Tin loaf week", className: "Thursday bakers" },
  ])
  expect((await cast.ben.open("/")).page.querySelector(`a[href="${url}"]`)).not.toBeNull()
  await cast.ben.submit(`${url}/completion`)
  expect(await listOwnUnfinished(db, cast.ben.id)).toEqual([])
})

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
  expect(new Set(ids).size).toBe(6)
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
  ["dough", { value: "24", takenAt: "yesterday" }, "takenAt", "Give a day and a time."],
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
      if (kind !== "note") expect(typedIn(answer, `${kind}-${name}`)).toBe(typed)
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
  expect((await cast.ben.submit(`${url}/readings/${wrong!.id}/removal`)).status).toBe(404)
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
  const told = page.querySelectorAll("#log li > div, #log li > details > summary").map(wordsOf)
  expect(told).toEqual(["Mix started", "Mix ended", "Bulk started", "Dough 25 °C"])
})

test("the result is kept in grams, °C and mm, and shown in one's own units", async ({ db, cast }) => {
  const { id, url } = await started(db, cast)
  await db.update(users).set({ temperatureUnit: "F", massUnit: "oz" }).where(eq(users.id, cast.ben.id))
  const { status } = await cast.ben.submit(`${url}/result`, {
    insideC: "205",
    doughMassG: "32",
    bakedMassG: "790 g",
    heightMm: "4 in",
    ownWords: "Close crumb.",
  })

  expect(status).toBe(303)
  const bake = (await findBake(db, id))!
  expect(bake.insideC).toBeCloseTo(96.11, 2)
  expect(bake.doughMassG).toBeCloseTo(907.18, 2)
  expect(bake).toMatchObject({ bakedMassG: 790, heightMm: 101.6, ownWords: "Close crumb." })
  const page = await cast.ben.open(url)
  expect(["insideC", "doughMassG", "heightMm"].map((field) => typedIn(page, field))).toEqual([
    "205 °F",
    "2 lb",
    "101.6 mm",
  ])
  expect(wordsOf(page.page.querySelector("#result"))).toContain("Lost in the oven and cooling12.9 %")
})

test.for([
  ["insideC", "970", "970 °C is not possible for the inside of a loaf"],
  ["heightMm", "-95", "A length must be above 0."],
  ["doughMassG", "2 %", "Give a mass, such as 850 g or 30 oz."],
  ["doughMassG", "800–900 g", "Give one mass, not a range."],
  ["bakedMassG", "-5", "An amount cannot be negative."],
  ["bakedMassG", "0", "A mass must be above 0."],
  ["bakedMassG", "950", "A loaf loses water in the oven and cannot weigh more than its dough; check both."],
] as const)("a result with %s %s is refused beside its field", async ([field, value, message], { db, cast }) => {
  const { id, url } = await started(db, cast)
  const answer = await cast.ben.submit(`${url}/result`, { doughMassG: "900", ownWords: "Mine", [field]: value })
  expect(answer.status).toBe(422)
  expect(error(answer, field)).toContain(message)
  expect(typedIn(answer, field)).toBe(value)
  expect(wordsOf(answer.page.querySelector("#ownWords"))).toBe("Mine")
  expect((await findBake(db, id))?.doughMassG).toBeNull()
})

test("a bake is finished, given up and gone on with", async ({ db, cast }) => {
  const { id, url, bakeDayId } = await started(db, cast)
  const state = async () => {
    const { finishedAt, abandonedAt } = (await findBake(db, id))!
    return [finishedAt !== null, abandonedAt !== null]
  }
  await cast.ben.submit(`${url}/completion`)
  expect(await state()).toEqual([true, false])
  await cast.ben.submit(`${url}/reopening`)
  expect(await state()).toEqual([false, false])
  await cast.ben.submit(`${url}/abandonment`)
  expect(await state()).toEqual([false, true])
  expect(wordsOf((await cast.ben.open(url)).page.querySelector("h1"))).toBe("Given up")

  await cast.ben.submit(`/bake-days/${bakeDayId}/bakes`)
  const refused = await cast.ben.submit(`${url}/reopening`)
  expect([refused.status, error(refused, "state")]).toEqual([
    422,
    "Another bake for this bake day is still open; finish or give up that one first.",
  ])
})

test("classmates read a shared bake and change nothing; one that is not shared is not there for them", async ({
  db,
  cast,
}) => {
  const { url } = await started(db, cast)
  await read(cast.ben, url, { kind: "dough", value: "24" })

  const { status, page } = await cast.bea.open(url)
  expect(status).toBe(200)
  expect(page.querySelectorAll("main form")).toEqual([])
  expect(wordsOf(page.querySelector("#readings"))).toContain("24 °C")
  for (const target of ["/marks", "/readings", "/result", "/kitchen", "/completion", "/photos", "/deletion"]) {
    expect((await cast.bea.submit(`${url}${target}`)).status).toBe(403)
  }

  await cast.ben.submit(`${url}/kitchen`, { kitchen: "Attic" })
  expect((await cast.bea.open(url)).status).toBe(404)
  expect((await cast.bea.submit(`${url}/marks`)).status).toBe(404)
  for (const who of [cast.ben, cast.asta, cast.ana, cast.olga]) expect((await who.open(url)).status).toBe(200)
})

test("cleo finds nothing", async ({ db, cast }) => {
  const { url, bakeDayId } = await started(db, cast)
  expect((await cast.cleo.open(url)).status).toBe(404)
  expect((await cast.cleo.submit(`${url}/readings`, { kind: "dough", value: "24" })).status).toBe(404)
  expect((await cast.cleo.submit(`${url}/deletion`)).status).toBe(404)
  expect((await cast.cleo.submit(`/bake-days/${bakeDayId}/bakes`)).status).toBe(404)
  expect((await cast.stranger.open(url)).location).toContain("/sign-in")
})

test("who has left the class keeps the own bake, which stays without a name", async ({ db, cast }) => {
  const { url, id } = await started(db, cast)
  await leave(db, cast.classId, cast.ben.id)
  expect((await cast.ben.open(url)).status).toBe(200)
  expect((await findBake(db, id))?.shownName).toBe("somebody who left")
  expect((await cast.ana.open(url)).status).toBe(200)
})

test("deleting asks first, and is for the baker and instructors", async ({ db, cast }) => {
  const { url, id, bakeDayId } = await started(db, cast)
  await read(cast.ben, url, { kind: "dough", value: "24" })
  expect((await cast.asta.open(`${url}/deletion`)).status).toBe(403)
  expect((await cast.asta.submit(`${url}/deletion`)).status).toBe(403)
  expect(wordsOf((await cast.ben.open(`${url}/deletion`)).page.querySelector("h1"))).toBe("Delete this bake?")

  expect(await cast.ben.submit(`${url}/deletion`)).toMatchObject({ status: 303, location: `/bake-days/${bakeDayId}` })

  expect(await db.$count(bakes, eq(bakes.id, id))).toBe(0)
  expect(await listReadings(db, id)).toEqual([])
  expect((await cast.ben.open(url)).status).toBe(404)
})
