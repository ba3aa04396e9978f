import { randomUUID } from "node:crypto"
import { eq } from "drizzle-orm"
import type { Db } from "../server/db.ts"
import { remind } from "../server/follow-up/queries.ts"
import { bakeDays, bakes, marks, memberships, photos, plans, readings, reminders } from "../server/schema.ts"
import { minutesAgo } from "./bench.ts"
import type { Cast } from "./cast.ts"
import { giveBakeDay } from "./class-day.ts"
import { expect, test } from "./test.ts"
import { type Page, type Visitor, wordsOf } from "./visitor.ts"

/** Ben and Bea are students of the class; neither has begun. */
async function day(db: Db, cast: Cast) {
  const { bakeDayId, revisionId } = await giveBakeDay(db, cast)
  return { bakeDayId, revisionId, url: `/bake-days/${bakeDayId}/follow-up`, to: `/bake-days/${bakeDayId}/reminders` }
}
type Day = Awaited<ReturnType<typeof day>>

async function addBake(
  db: Db,
  { bakeDayId, revisionId }: Day,
  who: Visitor,
  values: Partial<typeof bakes.$inferInsert>,
) {
  const [row] = await db
    .insert(bakes)
    .values({ bakeDayId, revisionId, userId: who.id, onTableAt: minutesAgo(1500), madeAt: minutesAgo(3000), ...values })
    .returning()
  return row!.id
}

/** Everything the class would like to know. */
async function fillIn(db: Db, bakeId: number, who: Visitor) {
  await db.insert(marks).values([
    { bakeId, stageKey: "bulk", startedAt: minutesAgo(600), endedAt: minutesAgo(300) },
    { bakeId, stageKey: "proof", startedAt: minutesAgo(280), endedAt: minutesAgo(160) },
  ])
  await db
    .insert(readings)
    .values({ bakeId, entryId: randomUUID(), kind: "dough", takenAt: minutesAgo(500), value: 24, typed: "24" })
  const photo = { bakeId, userId: who.id, takenAt: minutesAgo(70), forClass: false, width: 6, height: 4 }
  await db.insert(photos).values({ ...photo, subject: "crumb" })
  await db
    .update(bakes)
    .set({ cues: ["burst"] })
    .where(eq(bakes.id, bakeId))
}

const group = ({ page }: Page, title: string) =>
  page
    .querySelectorAll(".follow-up")
    .find((section) => wordsOf(section.querySelector("h2")).startsWith(title))
    ?.querySelectorAll("li")
    .map((one) => wordsOf(one.querySelector("label, b"))) ?? []
const row = ({ page }: Page, who: Visitor) => wordsOf(page.querySelector(`#student-${who.id}`))
const notes = ({ page }: Page) => page.querySelectorAll(".reminder").map(wordsOf)

test("the staff see who has not begun, and since when", async ({ db, cast }) => {
  const { url, bakeDayId } = await day(db, cast)
  await db.update(bakeDays).set({ opensOn: "2020-01-01" }).where(eq(bakeDays.id, bakeDayId))
  await db.update(memberships).set({ joinedAt: new Date("2026-01-07T18:05:00Z") })

  const page = await cast.asta.open(url)

  expect(group(page, "Not begun")).toEqual(["Bea", "Ben"])
  expect(row(page, cast.ben)).toContain("Nothing since joining Wed 7 Jan 18:05.")
  expect((await cast.ana.open(`/bake-days/${bakeDayId}`)).text).toContain(url)
  expect((await cast.ben.open(`/bake-days/${bakeDayId}`)).text).not.toContain(url)
})

test("who chose a later day is not missing yet", async ({ db, cast }) => {
  const { url, bakeDayId } = await day(db, cast)
  await db.insert(plans).values({ bakeDayId, userId: cast.ben.id, onTableAt: minutesAgo(-3000) })

  const page = await cast.ana.open(url)

  expect(group(page, "Not yet their time")).toEqual(["Ben"])
  expect(page.page.querySelector(`#tick-${cast.ben.id}`)).toBeNull()
})

test("a bench that has been silent for long is not finished, one heard of today is left in peace", async ({
  db,
  cast,
}) => {
  const theDay = await day(db, cast)
  const silent = await addBake(db, theDay, cast.ben, {})
  await db.insert(marks).values({ bakeId: silent, stageKey: "bulk", startedAt: minutesAgo(1500) })
  const lively = await addBake(db, theDay, cast.bea, {})
  await db.insert(marks).values({ bakeId: lively, stageKey: "bulk", startedAt: minutesAgo(100) })

  const page = await cast.ana.open(theDay.url)

  expect(group(page, "Begun, not finished")).toEqual(["Ben"])
  expect(row(page, cast.ben)).toContain("Missing: no dough temperature, no end of proof, no photo")
  expect(group(page, "At it now")).toEqual(["Bea"])
})

test("a finished bake that says little is told apart from one that says enough", async ({ db, cast }) => {
  const theDay = await day(db, cast)
  await addBake(db, theDay, cast.ben, { finishedAt: minutesAgo(60) })
  const full = await addBake(db, theDay, cast.bea, { finishedAt: minutesAgo(60) })
  await fillIn(db, full, cast.bea)

  const page = await cast.ana.open(theDay.url)

  expect(group(page, "Finished, little logged")).toEqual(["Ben"])
  expect(row(page, cast.ben)).toContain("no start of bulk, no end of proof, no photo, nothing of what was seen.")
  expect(group(page, "Nothing missing")).toEqual(["Bea"])
})

test("a reminder stands on the student's pages with the sentence, and goes when it is put away", async ({
  db,
  cast,
}) => {
  const { url, to, bakeDayId } = await day(db, cast)

  const sent = await cast.asta.submit(to, { only: String(cast.ben.id), words: "The window closes on Sunday & Monday." })

  expect([sent.status, sent.location]).toEqual([303, url])
  const now = await cast.ben.open("/")
  expect(notes(now)).toHaveLength(1)
  expect(notes(now)[0]).toContain(
    "Tin loaf week: You have not begun your bake. The window closes on Sunday & Monday. Asta",
  )
  expect(now.page.querySelector(".reminder a")?.getAttribute("href")).toBe(`/bake-days/${bakeDayId}`)
  expect(notes(await cast.ben.open(`/bake-days/${bakeDayId}`))).toHaveLength(1)
  expect(notes(await cast.bea.open("/"))).toEqual([])
  expect(row(await cast.ana.open(url), cast.ben)).toContain("by Asta, not put away. Again from")

  const seen = now.page.querySelector(".reminder form")!.getAttribute("action")!
  expect((await cast.bea.submit(seen)).status).toBe(404)
  expect((await cast.ben.submit(seen, { back: "now" })).location).toBe("/")
  expect(notes(await cast.ben.open("/"))).toEqual([])
  expect(row(await cast.ana.open(url), cast.ben)).toMatch(/by Asta, put away \w+/)
})

test("it goes by itself once the bake is begun, and one of an unfinished bake once that is finished", async ({
  db,
  cast,
}) => {
  const { to, bakeDayId } = await day(db, cast)
  await cast.ana.submit(to, { all: "yes" })
  await cast.ben.submit(`/bake-days/${bakeDayId}/bakes`)
  // the clock of a transaction stands still
  await db.update(bakes).set({ madeAt: minutesAgo(0) })
  expect(notes(await cast.ben.open("/"))).toEqual([])
  expect(notes(await cast.bea.open("/"))).toHaveLength(1)

  const [bake] = await db
    .update(bakes)
    .set({ madeAt: minutesAgo(3000) })
    .returning()
  expect(notes(await cast.ben.open("/"))[0]).toContain("Your bake is not finished.")
  await cast.ben.submit(`/bakes/${bake!.id}/completion`, { entryId: randomUUID() })
  expect(notes(await cast.ben.open("/"))).toEqual([])
})

test("all who are due are reminded at one tap, and a second tap reminds nobody again", async ({ db, cast }) => {
  const { to, url } = await day(db, cast)

  await cast.ana.submit(to, { all: "yes" })
  await cast.asta.submit(to, { all: "yes" })

  expect((await db.select().from(reminders)).map(({ userId }) => userId).toSorted()).toEqual(
    [cast.ben.id, cast.bea.id].toSorted(),
  )
  const page = await cast.ana.open(url)
  expect(page.page.querySelector(`#tick-${cast.ben.id}`)!.hasAttribute("disabled")).toBe(true)
  expect(page.page.querySelector("button[name=all]")).toBeNull()
})

test("after a day there may be another, and putting that away puts away the first", async ({ db, cast }) => {
  const { bakeDayId } = await day(db, cast)
  const reminding = { bakeDayId, userIds: [cast.ben.id], sentBy: cast.ana.id, words: "" }
  await remind(db, reminding, minutesAgo(25 * 60))
  await remind(db, reminding, minutesAgo(2 * 60))
  await remind(db, reminding, minutesAgo(0))
  expect(await db.$count(reminders)).toBe(2)

  const now = await cast.ben.open("/")
  expect(notes(now)).toHaveLength(1)
  await cast.ben.submit(now.page.querySelector(".reminder form")!.getAttribute("action")!)
  expect(notes(await cast.ben.open("/"))).toEqual([])
})

test("only those who are ticked and miss something are reminded; nobody ticked is asked for", async ({ db, cast }) => {
  const { to } = await day(db, cast)

  const none = await cast.ana.submit(to, { words: "Bake!" })
  expect(none.status).toBe(422)
  expect(wordsOf(none.page.querySelector("#userId-error"))).toBe("Tick whom to remind.")
  expect(none.page.querySelector("#words")!.getAttribute("value")).toBe("Bake!")
  const others = await cast.ana.submit(to, { userId: String(cast.dan.id) })
  expect(others.status).toBe(422)

  const both = new URLSearchParams([
    ["userId", String(cast.bea.id)],
    ["userId", String(cast.cleo.id)],
  ])
  expect((await cast.ana.submit(to, both)).status).toBe(303)
  expect((await db.select().from(reminders)).map(({ userId }) => userId)).toEqual([cast.bea.id])
})

test("too long a sentence is given back beside its field, and the ticks stay", async ({ db, cast }) => {
  const { to } = await day(db, cast)

  const { status, page } = await cast.ana.submit(to, { userId: String(cast.bea.id), words: "x".repeat(301) })

  expect(status).toBe(422)
  expect(wordsOf(page.querySelector("#words-error"))).toBe("Keep it under 300 characters.")
  expect(page.querySelector(`#tick-${cast.bea.id}`)!.hasAttribute("checked")).toBe(true)
})

test("of a finished bake it is said what is missing, until nothing is", async ({ db, cast }) => {
  const theDay = await day(db, cast)
  const id = await addBake(db, theDay, cast.ben, { finishedAt: minutesAgo(60) })
  await cast.ana.submit(theDay.to, { userId: String(cast.ben.id) })

  const [note] = notes(await cast.ben.open("/"))
  expect(note).toContain("Your bake is finished, and its log leaves something out. Missing: no dough temperature,")
  await fillIn(db, id, cast.ben)
  expect(notes(await cast.ben.open("/"))).toEqual([])
})

test("who has left the class is reminded of nothing", async ({ db, cast }) => {
  const { to } = await day(db, cast)
  await cast.ana.submit(to, { all: "yes" })
  await cast.ben.submit(`/classes/${cast.classId}/leaving`)
  expect(notes(await cast.ben.open("/"))).toEqual([])
})
