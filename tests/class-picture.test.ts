import { randomUUID } from "node:crypto"
import { eq } from "drizzle-orm"
import type { Db } from "../server/db.ts"
import type { FormulaContent } from "../server/formulas/content.ts"
import { findFormula, keepDraft } from "../server/formulas/queries.ts"
import { bakeDays, bakes, marks, readings } from "../server/schema.ts"
import type { Cast } from "./cast.ts"
import { giveBakeDay, tinLoaf } from "./class-day.ts"
import { log, onPlan } from "./table/log.ts"
import { expect, test } from "./test.ts"
import { type Page, wordsOf } from "./visitor.ts"

/** A bake whose bulk took `bulkMin` at so many °C, with a jar that was read; planned are 300 min at 24 °C. */
type Did = { bulkMin?: number; c?: number; rises?: number[]; shared?: boolean }

const clock = (min: number) => new Date(Date.UTC(2026, 10, 14, 6, min)).toISOString().slice(11, 16)

async function addBake(db: Db, day: Day, userId: number, { bulkMin = 300, c = 24, rises = [], shared = true }: Did) {
  const proof = bulkMin + 20
  const oven = proof + 120
  const spans = { bulk: [0, bulkMin], shape: [bulkMin, proof], proof: [proof, oven], bake: [oven, oven + 40] }
  const logged = log(
    Object.fromEntries(Object.entries(spans).map(([key, [from, to]]) => [key, [clock(from!), clock(to!)]])),
    [
      ...[0, 150, oven].map((min): ["dough", string, number] => ["dough", clock(min), c]),
      ...rises.map((rise, at): ["rise", string, number] => [
        "rise",
        clock(((at + 1) * (bulkMin - 10)) / rises.length),
        rise,
      ]),
    ],
  )
  const { marks: theirMarks, readings: theirReadings, onTableAt, abandonedAt } = logged
  const finishedAt = new Date("2026-11-14T23:00:00Z")
  const [row] = await db
    .insert(bakes)
    .values({ ...day, userId, onTableAt, abandonedAt, finishedAt, shared })
    .returning()
  const bakeId = row!.id
  await db.insert(marks).values(theirMarks.map((mark) => ({ ...mark, bakeId })))
  await db
    .insert(readings)
    .values(theirReadings.map((one) => ({ ...one, bakeId, entryId: randomUUID(), typed: String(one.value) })))
  return bakeId
}
type Day = { bakeDayId: number; revisionId: number }

/** Ben and Bea bake in turn. */
async function classOf(db: Db, cast: Cast, did: Did[], content: FormulaContent = tinLoaf) {
  const { formulaId, ...day } = await giveBakeDay(db, cast, { content })
  for (const [at, one] of did.entries()) await addBake(db, day, (at % 2 ? cast.bea : cast.ben).id, one)
  return { formulaId, day, url: `/bake-days/${day.bakeDayId}/class` }
}

const spread: Did[] = [20, 22, 23, 24, 24.5, 25, 26, 27, 28, 21].map((c, at) => ({ c, bulkMin: 290 + 3 * at }))
const longAndWarm: Did[] = [0, 5, -5, 10, 3, -8, 6, 2].map((off) => ({ bulkMin: 360 + off, c: 21 + off / 20 }))
const headline = ({ page }: Page) => wordsOf(page.querySelector(".headline"))
const section = ({ page }: Page, title: string) =>
  wordsOf(page.querySelector(`section[aria-labelledby="${title}-title"]`))

test("of four bakes nothing is said, and how many it takes", async ({ db, cast }) => {
  const { url } = await classOf(db, cast, spread.slice(0, 4))

  const page = await cast.ben.open(url)
  expect(page.status).toBe(200)
  expect(headline(page)).toBe("Too few bakes to say anything of the class")
  expect(page.text).toContain("Four bakes have come to the oven with their times; it takes five.")
  expect(page.page.querySelector("svg.upright, svg.turned")).toBeNull()
})

test("of seven the spread is not yet told, of ten it is: warm and cold kitchens differ by temperature", async ({
  db,
  cast,
}) => {
  const few = await classOf(db, cast, spread.slice(0, 7))
  expect(section(await cast.ana.open(few.url), "explained")).toContain("Seven bakes with a dough temperature")

  const { url } = await classOf(db, cast, spread)
  const page = await cast.ana.open(url)
  expect(headline(page)).toMatch(
    /^Temperature explains 9\d % of the spread$|^Temperature explains 10\d % of the spread$/,
  )
  expect(section(page, "explained")).toContain("The leads of 10 bakes spread by ±")
  expect(section(page, "explained")).toContain("Flour is not told apart")
  expect(section(page, "timed")).toContain("(no rise was read before it was shaped)")
})

test("a student's figures count what they may see, and say so; the staff's count all", async ({ db, cast }) => {
  const { url, day } = await classOf(db, cast, spread.slice(0, 5))
  await addBake(db, day, cast.bea.id, { c: 25, shared: false })

  const [ben, bea, asta] = await Promise.all([cast.ben.open(url), cast.bea.open(url), cast.asta.open(url)])
  expect(ben.text).toContain("5 bakes have come to the oven")
  expect(ben.text).toContain("Counted is what you may see")
  expect(bea.text).toContain("6 bakes have come to the oven")
  expect(asta.text).toContain("6 bakes have come to the oven")
  expect(asta.text).not.toContain("Counted is what you may see")
})

test("a class whose bakes are all alike has no verdict on who stands apart, and nothing infinite", async ({
  db,
  cast,
}) => {
  const { url } = await classOf(
    db,
    cast,
    Array.from({ length: 9 }, () => ({})),
  )

  const page = await cast.ana.open(url)
  expect(headline(page)).toBe("Four bakes in five came to the oven within 0 min of their plan")
  expect(section(page, "apart")).toContain("No verdict. More than half of the values are the same")
  expect(section(page, "explained")).toContain("All of them came to the oven equally far on.")
  expect(page.text).not.toMatch(/Infinity|NaN/)
})

test("one bake that was forgotten stands apart, by its time", async ({ db, cast }) => {
  const { url } = await classOf(db, cast, [...spread.slice(2, 8), { bulkMin: 720, c: 24 }])

  expect(section(await cast.ana.open(url), "apart")).toMatch(
    /further on than planned \(modified z \d+\.\d\), most of it from time: /,
  )
})

test("the time to the target is drawn against temperature, with the same numbers under it", async ({ db, cast }) => {
  const warm = [22, 23, 24, 25, 26, 27].map((c, at) => {
    const rises = [0.1, 0.22, 0.4, 0.6].map((rise) => rise * (1 + 0.05 * at))
    return { c, rises }
  })
  const { url } = await classOf(db, cast, warm)

  const page = await cast.ana.open(url)
  expect(section(page, "timed")).toMatch(/Each °C warmer took \d+ min off/)
  const rows = page.page.querySelectorAll("#against-temperature-numbers tbody tr").map(wordsOf)
  expect(rows.filter((row) => row.startsWith("24.0"))).toHaveLength(1)
  expect(page.page.querySelector("#against-temperature svg")!.getAttribute("aria-label")).toContain("6 bakes")
})

test("what everyone did differently is said, and the instructor drafts the new figures with one click", async ({
  db,
  cast,
}) => {
  const { url, formulaId } = await classOf(db, cast, longAndWarm)
  // what somebody else is in the middle of writing stays
  const mine = { ...tinLoaf, about: "Not published yet.", pan: "another tin" }
  await keepDraft(db, formulaId, { title: "Tin loaf, being rewritten", content: mine })

  const page = await cast.ana.open(url)
  expect(section(page, "shared")).toContain("Bulk: 1 h 2 min longer than planned")
  expect(section(page, "shared")).toContain("8 of 8 bakes lie on that side.")
  const taken = page.page.querySelectorAll(".proposals input").map((box) => box.getAttribute("value")!)
  expect(taken).toContain("length bulk")

  const { status, location } = await cast.ana.submit(
    `${url}/draft`,
    new URLSearchParams(taken.map((key) => ["take", key])),
  )
  expect(status).toBe(303)
  expect(location).toMatch(new RegExp(`^/formulas/${formulaId}/edit`))
  const formula = (await findFormula(db, formulaId))!
  const bulk = formula.draft.stages.find(({ key }) => key === "bulk")!
  expect(bulk).toMatchObject({ lowMin: 335, highMin: 505, referenceC: 21 })
  expect(formula).toMatchObject({ title: "Tin loaf, being rewritten", draft: { about: mine.about, pan: mine.pan } })
  expect({ ...formula.draft, stages: mine.stages }).toEqual(mine)

  const edit = await cast.ana.open(location!)
  expect(wordsOf(edit.page.querySelector(".drafted"))).toContain("Drafted from what the class showed")
  expect(wordsOf(edit.page.querySelector(".drafted"))).toContain("Bulk: 5 h 35 min – 8 h 25 min at 21 °C.")
})

test("a figure that somebody changed meanwhile stays theirs, and the page says why", async ({ db, cast }) => {
  const { url, formulaId } = await classOf(db, cast, longAndWarm)
  const stages = tinLoaf.stages.map((stage) => (stage.key === "bulk" ? { ...stage, lowMin: 200, highMin: 220 } : stage))
  await keepDraft(db, formulaId, { title: "Tin loaf", content: { ...tinLoaf, stages } })

  const page = await cast.ana.open(url)
  expect(wordsOf(page.page.querySelector(".proposals"))).toContain("the draft has another figure there by now")
  const refused = await cast.ana.submit(`${url}/draft`, { take: "length bulk" })
  expect(refused.status).toBe(422)
  expect(wordsOf(refused.page.querySelector("#take-error"))).toContain("Nothing was drafted")
  expect((await findFormula(db, formulaId))!.draft.stages).toEqual(stages)
})

test("nothing ticked is said beside the button, and nothing is drafted", async ({ db, cast }) => {
  const { url, formulaId } = await classOf(db, cast, longAndWarm)

  const refused = await cast.ana.submit(`${url}/draft`)
  expect(refused.status).toBe(422)
  expect(wordsOf(refused.page.querySelector("#take-error"))).toBe("Tick what the next revision should have.")
  expect((await findFormula(db, formulaId))!.draft).toEqual(tinLoaf)
})

test("students and assistants read the proposals but cannot draft them, and a stranger to the class finds nothing", async ({
  db,
  cast,
}) => {
  const { url } = await classOf(db, cast, longAndWarm)

  for (const who of [cast.ben, cast.asta]) {
    const page = await who.open(url)
    expect(wordsOf(page.page.querySelector(".proposals"))).toContain("Bulk 5 h 35 min – 8 h 25 min, not 4 h – 6 h")
    expect(page.page.querySelector(".proposals button")).toBeNull()
    expect((await who.submit(`${url}/draft`, { take: "length bulk" })).status).toBe(403)
  }
  expect((await cast.cleo.open(url)).status).toBe(404)
  expect((await cast.cleo.submit(`${url}/draft`, { take: "length bulk" })).status).toBe(404)
})

test("without a target rise the page still stands", async ({ db, cast }) => {
  const { url, day } = await classOf(db, cast, spread)
  await db.update(bakeDays).set({ targetRise: null, targetDoughC: null }).where(eq(bakeDays.id, day.bakeDayId))

  const page = await cast.ana.open(url)
  expect(page.status).toBe(200)
  expect(section(page, "timed")).toContain("No such bakes; it takes five.")
})

test("a bake at the oven whose times are missing is named with the reason", async ({ db, cast }) => {
  const { url, day } = await classOf(db, cast, spread)
  const { proof, bake } = onPlan
  const [row] = await db
    .insert(bakes)
    .values({ ...day, userId: cast.ben.id, onTableAt: new Date(), finishedAt: new Date() })
    .returning()
  await db.insert(marks).values(log({ proof, bake }).marks.map((mark) => ({ ...mark, bakeId: row!.id })))

  expect(section(await cast.ana.open(url), "causes")).toContain("(the start of bulk is not marked)")
})
