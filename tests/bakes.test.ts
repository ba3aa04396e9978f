import { eq } from "drizzle-orm"
import { findBakeDay, keepPlan } from "../server/bake-days/queries.ts"
import { suggestedOnTableAt } from "../server/bake-days/window.ts"
import { findBake, listOwnUnfinished, listReadings } from "../server/bakes/queries.ts"
import { leave } from "../server/classes/queries.ts"
import { bakes, users } from "../server/schema.ts"
import { wallTime } from "../server/web/zones.ts"
import { error, idIn, read, started, typedIn, zone } from "./bench.ts"
import { giveBakeDay } from "./class-day.ts"
import { expect, test } from "./test.ts"
import { type Visitor, wordsOf } from "./visitor.ts"

test("a bake starts with the bake day's revision and one's own plan", async ({ db, cast }) => {
  const { bakeDayId, revisionId } = await giveBakeDay(db, cast)
  const planned = new Date("2027-01-09T17:00:00Z")
  await keepPlan(db, bakeDayId, cast.ben.id, { onTableAt: planned, variant: "" })

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

test("without a plan it is for the time that the bake day suggests", async ({ db, cast }) => {
  const { id, bakeDayId } = await started(db, cast)
  const suggested = suggestedOnTableAt((await findBakeDay(db, bakeDayId))!, new Date())
  const { onTableAt } = (await findBake(db, id))!
  expect(onTableAt).toEqual(suggested)
  expect(wallTime(onTableAt, zone)).toMatch(/T18:00$/)
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

test("saving a result again, read in other units, rounds nothing", async ({ db, cast }) => {
  const { id, url } = await started(db, cast)
  await cast.ben.submit(`${url}/result`, { insideC: "205 °F", doughMassG: "2 lb" })
  const page = await cast.ana.open(url)
  const [insideC, doughMassG] = [typedIn(page, "insideC")!, typedIn(page, "doughMassG")!]
  expect([insideC, doughMassG]).toEqual(["96.1 °C", "907 g"])

  await cast.ana.submit(`${url}/result`, { insideC, doughMassG, bakedMassG: "800" })

  const bake = (await findBake(db, id))!
  expect(bake.insideC).toBeCloseTo(96.1111, 4)
  expect(bake).toMatchObject({ doughMassG: 907.18474, bakedMassG: 800 })
})

test.for([
  ["insideC", "970", "970 °C is not possible for the inside of a loaf"],
  ["heightMm", "-95", "A length must be above 0."],
  ["doughMassG", "2 %", "Give a mass, such as 2 kg or 4 lb."],
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
  const forms = page.querySelectorAll("main form").map((form) => form.getAttribute("action"))
  expect(forms.filter((action) => action !== `${url}/comments`)).toEqual([])
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
