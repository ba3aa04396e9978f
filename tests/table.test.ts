import { randomUUID } from "node:crypto"
import { eq } from "drizzle-orm"
import type { Db } from "../server/db.ts"
import { bakes, marks, photos, readings, users } from "../server/schema.ts"
import type { Cast } from "./cast.ts"
import { giveBakeDay } from "./class-day.ts"
import { at, log, onPlan } from "./table/log.ts"
import { expect, test } from "./test.ts"
import { type Page, wordsOf } from "./visitor.ts"

type Logged = ReturnType<typeof log>

async function addBake(
  db: Db,
  day: Day,
  userId: number,
  logged: Logged,
  changes: Partial<typeof bakes.$inferInsert> = {},
) {
  const { marks: theirMarks, readings: theirReadings, ...times } = { ...logged, finishedAt: at("19:00") }
  const [row] = await db
    .insert(bakes)
    .values({ ...day, userId, ...times, ...changes })
    .returning()
  const bakeId = row!.id
  for (const mark of theirMarks) await db.insert(marks).values({ ...mark, bakeId })
  for (const reading of theirReadings)
    await db.insert(readings).values({ ...reading, bakeId, entryId: randomUUID(), typed: String(reading.value) })
  return bakeId
}
type Day = { bakeDayId: number; revisionId: number }

/** Ben bakes to plan, Bea in a cold kitchen. */
async function twoBakes(db: Db, cast: Cast) {
  const { bakeDayId, revisionId } = await giveBakeDay(db, cast)
  const day = { bakeDayId, revisionId }
  const warm = log(onPlan, [
    ["dough", "09:00", 24],
    ["dough", "16:20", 24],
    ["rise", "13:50", 0.5],
    ["finger", "16:00", "slowly-partly"],
  ])
  const cold = log({ ...onPlan, bulk: ["07:00", "14:00"] }, [
    ["dough", "07:00", 18],
    ["dough", "16:20", 18],
    ["rise", "13:50", 0.1],
  ])
  const bens = await addBake(db, day, cast.ben.id, warm, { kitchen: "attic kitchen" })
  const beas = await addBake(db, day, cast.bea.id, cold)
  return { day, url: `/bake-days/${bakeDayId}/table`, bens, beas }
}

const cell = ({ page }: Page, bakeId: number, column: string) =>
  wordsOf(page.querySelector(`#bake-${bakeId} .${column}`))
const names = ({ page }: Page) => page.querySelectorAll(".bakes tbody th.name a").map(wordsOf)

test("the class sees all bakes side by side, with the right numbers", async ({ db, cast }) => {
  const { url, bens, beas } = await twoBakes(db, cast)

  const table = await cast.ben.open(url)

  expect(table.status).toBe(200)
  expect(names(table)).toEqual(["Bea", "Ben"])
  expect(cell(table, bens, "name")).toContain("attic kitchen")
  expect(cell(table, bens, "fermented")).toBe("7.3 ref h plan 7.3")
  expect(cell(table, bens, "rise")).toBe("+50 % target +50 %")
  expect(cell(table, bens, "dough")).toBe("24 °C 2 readings")
  expect(cell(table, bens, "verdict")).toContain("well proofed")
  expect(cell(table, bens, "difference")).not.toMatch(/colder|longer/)
  expect(cell(table, beas, "verdict")).toContain("underproofed")
  expect(cell(table, beas, "difference")).toContain("dough 6.0 °C colder")
  expect(cell(table, beas, "difference")).toContain("Bulk 2 h longer")
})

test("the strip says in words what it draws", async ({ db, cast }) => {
  const { url, bens } = await twoBakes(db, cast)

  const strip = (await cast.ben.open(url)).page.querySelector(`#bake-${bens} .ribbon`)!

  expect(strip.getAttribute("role")).toBe("img")
  expect(strip.getAttribute("aria-label")).toBe(
    "Ben: Bulk 09:00 to 14:00, Proof 14:20 to 16:20, Bake 16:20 to 17:00, dough 24 °C to 24 °C, 7.3 reference hours, planned 7.3.",
  )
})

test("temperatures and their differences are in the viewer's unit", async ({ db, cast }) => {
  const { url, beas } = await twoBakes(db, cast)
  await db.update(users).set({ temperatureUnit: "F" }).where(eq(users.id, cast.ben.id))

  const table = await cast.ben.open(url)

  expect(cell(table, beas, "dough")).toBe("64.4 °F 2 readings")
  expect(cell(table, beas, "difference")).toContain("dough 10.8 °F colder")
})

test("what was felt or assumed is told apart from what was measured", async ({ db, cast }) => {
  const { url, bens, beas } = await twoBakes(db, cast)
  await db.update(readings).set({ known: "felt" }).where(eq(readings.bakeId, bens))
  const [first] = await db.select().from(readings).where(eq(readings.bakeId, beas)).orderBy(readings.takenAt)
  await db.update(readings).set({ known: "assumed" }).where(eq(readings.id, first!.id))

  const table = await cast.ben.open(url)

  expect(cell(table, bens, "dough")).toBe("24 °C 2 readings, felt")
  expect(cell(table, bens, "rise")).toBe("+50 % by eye target +50 %")
  expect(cell(table, bens, "fermented")).toContain("100 % assumed")
  expect(cell(table, bens, "difference")).toContain("The dough's temperature was felt, not measured.")
  expect(table.page.querySelector(`#bake-${bens} .ribbon`)!.getAttribute("aria-label")).toContain("24 °C felt")
  expect(table.page.querySelectorAll(`#bake-${bens} .guessed`)).toHaveLength(2)
  expect(cell(table, beas, "dough")).toBe("18 °C 2 readings, 1 assumed")
  expect(wordsOf(table.page.querySelector(".numbers"))).toContain("07:00 18 assumed")
})

test("every stage stands with its planned and actual minutes", async ({ db, cast }) => {
  const { url } = await twoBakes(db, cast)

  const rows = (await cast.ben.open(url)).page
    .querySelectorAll(".times tr")
    .map((row) => row.querySelectorAll("th, td").map(wordsOf))

  expect(rows[0]!.slice(0, 4)).toEqual(["Bake", "Mix plan 20 min", "Bulk plan 4 h – 6 h", "Shape plan 20 min"])
  expect(rows[1]!.slice(0, 4)).toEqual(["Bea", "– not marked", "7 h +2 h", "20 min on plan"])
  expect(rows[2]!.slice(0, 4)).toEqual(["Ben", "– not marked", "5 h on plan", "20 min on plan"])
})

test("rows sort by a column, either way, and what is unknown comes last both times", async ({ db, cast }) => {
  const { day, url } = await twoBakes(db, cast)
  await addBake(db, day, cast.asta.id, log({}))

  const up = await cast.ben.open(`${url}?sort=dough&way=up`)
  expect(names(up)).toEqual(["Bea", "Ben", "Asta"])
  expect(up.page.querySelector("thead th.dough")!.getAttribute("aria-sort")).toBe("ascending")
  const down = await cast.ben.open(`${url}?sort=dough&way=down`)
  expect(names(down)).toEqual(["Ben", "Bea", "Asta"])
  expect(names(await cast.ben.open(`${url}?sort=difference&way=down`))).toEqual(["Bea", "Ben", "Asta"])
  expect(names(await cast.ben.open(`${url}?sort=name&way=down`))).toEqual(["Ben", "Bea", "Asta"])
})

test("the page asks for itself again with the same order, and takes a nonsense order for none", async ({
  db,
  cast,
}) => {
  const { url } = await twoBakes(db, cast)

  const sorted = (await cast.ben.open(`${url}?sort=rise&way=down&lined=clock`)).page.querySelector("#table")!
  expect(sorted.getAttribute("hx-get")).toBe(`${url}?sort=rise&way=down&lined=clock`)
  const odd = await cast.ben.open(`${url}?sort=drop&way=sideways&lined=up`)
  expect(odd.page.querySelector("#table")!.getAttribute("hx-get")).toBe(`${url}?sort=name&way=up&lined=table`)
})

test("an unshared bake is seen by its baker and the staff, not by classmates", async ({ db, cast }) => {
  const { day, url } = await twoBakes(db, cast)
  const hidden = await addBake(db, day, cast.bea.id, log(onPlan), { shared: false, kitchen: "secret larder" })

  expect((await cast.ben.open(url)).text).not.toContain("secret larder")
  expect(cell(await cast.bea.open(url), hidden, "name")).toMatch(/2nd bake.*only you and the instructors/)
  expect(cell(await cast.asta.open(url), hidden, "name")).toContain("shared with instructors only")
})

test("a photo for the instructors only is not on a classmate's table", async ({ db, cast }) => {
  const { url, bens } = await twoBakes(db, cast)
  const photo = {
    userId: cast.ben.id,
    bakeId: bens,
    subject: "crumb" as const,
    takenAt: new Date(),
    width: 800,
    height: 600,
  }
  const [open] = await db
    .insert(photos)
    .values({ ...photo, forClass: true })
    .returning()
  const [kept] = await db
    .insert(photos)
    .values({ ...photo, forClass: false })
    .returning()

  const beas = await cast.bea.open(url)
  expect(beas.page.querySelector(`.bakes img[src="/photos/${open!.id}/small"]`)!.getAttribute("alt")).toBe(
    "Crumb of Ben’s bake",
  )
  expect(beas.text).not.toContain(kept!.id)
  const wall = url.replace("table", "wall")
  expect((await cast.bea.open(wall)).text).not.toContain(kept!.id)
  expect((await cast.ben.open(wall)).text).toContain(kept!.id)
  expect((await cast.ana.open(wall)).text).toContain(kept!.id)
})

test("staff read who has not started yet; students do not", async ({ db, cast }) => {
  const { bakeDayId } = await giveBakeDay(db, cast)
  const url = `/bake-days/${bakeDayId}/table`

  expect(wordsOf((await cast.ana.open(url)).page.querySelector(".not-started"))).toBe("Not yet started: Bea, Ben")
  const bens = await cast.ben.open(url)
  expect(bens.text).toContain("Nobody has started yet.")
  expect(bens.text).not.toContain("Not yet started")
})

test("each verdict gives its reasons and which way each pulls", async ({ db, cast }) => {
  const { url } = await twoBakes(db, cast)

  const [beas] = (await cast.ben.open(url)).page.querySelectorAll(".reasons > ul > li").map(wordsOf)

  expect(beas).toMatch(/^Bea: underproofed/)
  expect(beas).toContain("Risen by 10 % against a target of 50 %: pulls toward under")
})

test("a bake with nothing, an end alone, one reading, or marks out of order is said so in words", async ({
  db,
  cast,
}) => {
  const { bakeDayId, revisionId } = await giveBakeDay(db, cast)
  const add = (logged: Logged) => addBake(db, { bakeDayId, revisionId }, cast.ben.id, logged)
  const nothing = await add(log({}))
  const endOnly = await add(log({ proof: ["16:20", "16:20"] }))
  const oneReading = await add(log({}, [["dough", "10:00", 24]]))
  const backwards = await add(log({ bulk: ["14:00", "15:00"], proof: ["10:00", "11:00"] }, [["dough", "10:30", 25]]))
  const oneMoment = await add(
    log({ bulk: ["09:00", "09:00"], proof: ["09:00", "09:00"], bake: ["09:00"] }, [["dough", "09:00", 24]]),
  )

  for (const lined of ["table", "start", "clock"]) {
    const table = await cast.ana.open(`/bake-days/${bakeDayId}/table?lined=${lined}`)
    expect(table.status).toBe(200)
    expect(table.text).not.toMatch(/NaN|undefined|Infinity/)
    for (const id of [nothing, endOnly, oneReading, backwards])
      expect(cell(table, id, "verdict")).toContain("not enough to say")
    expect(cell(table, nothing, "difference")).toBe("Nothing logged.")
    expect(cell(table, endOnly, "difference")).toContain("The start of bulk is not marked.")
    expect(cell(table, backwards, "difference")).toContain("The stages are marked out of order.")
    expect(cell(table, oneMoment, "fermented")).toContain("0.0 ref h")
  }
})

test("a class that is not yours has no table for you", async ({ db, cast }) => {
  const { url } = await twoBakes(db, cast)

  expect((await cast.cleo.open(url)).status).toBe(404)
  expect((await cast.dan.open(url)).status).toBe(404)
  expect((await cast.stranger.open(url)).location).toBe(`/sign-in?next=${encodeURIComponent(url)}`)
})
