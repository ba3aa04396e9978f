import { randomUUID } from "node:crypto"
import { eq } from "drizzle-orm"
import type { Db } from "../server/db.ts"
import { publish } from "../server/formulas/queries.ts"
import { bakeDays, bakes, changes, formulas, marks, photos, readings, revisions, users } from "../server/schema.ts"
import { giveBakeDay, tinLoaf } from "./class-day.ts"
import { at, log, onPlan } from "./table/log.ts"
import { expect, test } from "./test.ts"
import { type Page, type Visitor, wordsOf } from "./visitor.ts"

type Logged = ReturnType<typeof log>
type Day = { bakeDayId: number; revisionId: number }

async function addBake(
  db: Db,
  day: Day,
  who: Visitor,
  logged: Logged,
  changed: Partial<typeof bakes.$inferInsert> = {},
) {
  const { marks: theirMarks, readings: theirReadings, changes: _, ...times } = { ...logged, finishedAt: at("19:00") }
  const [row] = await db
    .insert(bakes)
    .values({ ...day, userId: who.id, ...times, ...changed })
    .returning()
  const bakeId = row!.id
  for (const mark of theirMarks) await db.insert(marks).values({ ...mark, bakeId })
  for (const reading of theirReadings)
    await db.insert(readings).values({ ...reading, bakeId, entryId: randomUUID(), typed: String(reading.value) })
  return bakeId
}

const warm = (c: number, endC = c): Parameters<typeof log>[1] => [
  ["dough", "09:00", c],
  ["dough", "16:20", endC],
  ["finger", "16:00", "slowly-partly"],
]
/** Bulk an hour shorter, everything after it likewise earlier. */
const shorter = {
  bulk: ["09:00", "13:00"],
  shape: ["13:00", "13:20"],
  proof: ["13:20", "15:20"],
  bake: ["15:20", "16:00"],
} satisfies typeof onPlan

const things = ({ page }: Page) =>
  page.querySelectorAll(".things tbody tr").map((row) => row.querySelectorAll("th, td").map(wordsOf))
const words = ({ page }: Page) => wordsOf(page.querySelector("main"))

test("one thing that changed is named with its size and what it did", async ({ db, cast }) => {
  const day = await giveBakeDay(db, cast)
  const first = await addBake(db, day, cast.ben, log(onPlan, warm(24)))
  const second = await addBake(db, day, cast.ben, log(shorter, warm(24)))

  const page = await cast.ben.open(`/bakes/${second}/again`)

  expect(things(page)).toEqual([["Bulk", "5 h", "4 h", "1 h shorter", "1 h less far"]])
  expect(words(page)).toContain("One thing changed. What came out otherwise may be put down to it")
  expect(words(page)).toContain("At the oven the dough was 1 h less far (1.0 reference hours) than the earlier one")
  expect(page.page.querySelector(".lede a:nth-of-type(2)")?.getAttribute("href")).toBe(`/bakes/${first}`)
})

test("of several things it is said that their shares are the model's", async ({ db, cast }) => {
  const day = await giveBakeDay(db, cast)
  await addBake(db, day, cast.ben, log(onPlan, warm(24)))
  const second = await addBake(db, day, cast.ben, log(shorter, warm(27)), { vessel: "pot" })
  await db.update(bakes).set({ vessel: "tin" }).where(eq(bakes.vessel, ""))
  await db.insert(changes).values({ bakeId: second, kind: "left-out", partKey: "dough", ingredient: "salt" })

  const page = await cast.ben.open(`/bakes/${second}/again`)

  expect(words(page)).toContain("Four things changed at once; the share is the model’s, not seen.")
  expect(things(page).map(([name]) => name)).toEqual([
    ...["Bulk", "Dough temperature, mean", "Otherwise than the formula", "Baked"],
  ])
  const [bulk, temperature, salt, vessel] = things(page)
  expect(temperature!.slice(1, 4)).toEqual(["24 °C", "27 °C", "3.0 °C warmer"])
  expect(temperature![4]).toMatch(/further on$/)
  expect(bulk![4]).toMatch(/less far$/)
  expect(salt!.slice(1)).toEqual(["as written", "Left out: 20 g salt", "only now", "not in the model"])
  expect(vessel!.slice(1)).toEqual(["in a tin", "in a pot", "elsewhere", "not in the model"])
})

test("a revised formula shows in what it did: levain, water and flour, not as a thing of its own", async ({
  db,
  cast,
}) => {
  const day = await giveBakeDay(db, cast)
  await addBake(db, day, cast.ben, log(onPlan, warm(24)))
  const [levain, dough] = structuredClone(tinLoaf.parts)
  levain!.lines[0]!.quantity = "150 g"
  levain!.lines[1]!.quantity = "150 g"
  dough!.lines[0]!.quantity = "840 g"
  dough!.lines[1]!.quantity = "540 g"
  await db.update(formulas).set({ draft: { ...tinLoaf, parts: [levain!, dough!] } })
  const { id: revisionId } = await publish(db, day.formulaId, "more levain")
  const second = await addBake(db, { ...day, revisionId }, cast.ben, log(onPlan, warm(24)))

  const page = await cast.ben.open(`/bakes/${second}/again`)

  expect(await db.$count(revisions)).toBe(2)
  expect(things(page).map(([name]) => name)).toEqual(["Levain’s flour, of all flour"])
  expect(things(page)[0]![4]).toMatch(/further on$/)
  expect(words(page)).toContain("Revision 1 then, 2 now.")
})

test("what came out stands then and now: verdict, measures, what was seen, photos in pairs", async ({ db, cast }) => {
  const day = await giveBakeDay(db, cast)
  const cold: Parameters<typeof log>[1] = [...warm(18)!, ["rise", "13:50", 0.15]]
  const good: Parameters<typeof log>[1] = [...warm(24)!, ["rise", "13:50", 0.5]]
  const first = await addBake(db, day, cast.ben, log(onPlan, cold), { heightMm: 94, cues: ["no-spring", "burst"] })
  const second = await addBake(db, day, cast.ben, log(onPlan, good), { heightMm: 128, cues: ["burst", "good-ear"] })
  const picture = { userId: cast.ben.id, takenAt: at("19:00"), forClass: true, width: 60, height: 40 }
  await db.insert(photos).values([
    { ...picture, bakeId: first, subject: "crumb" },
    { ...picture, bakeId: second, subject: "crumb" },
    { ...picture, bakeId: second, subject: "crust", forClass: false },
  ])

  const page = await cast.ben.open(`/bakes/${second}/again`)

  const sides = page.page.querySelectorAll(".sides > div").map(wordsOf)
  expect(sides[0]).toContain("underproofed")
  expect(sides[1]).toContain("well proofed")
  const measures = page.page
    .querySelectorAll(".measures tbody tr")
    .map((row) => row.querySelectorAll("th, td").map(wordsOf).join(" "))
  expect(measures).toContain("Rise before shaping +15 % +50 %")
  expect(measures).toContain("Height of the loaf 94 mm 128 mm")
  expect(page.page.querySelectorAll(".seen dt").map(wordsOf)).toEqual(["Gone", "New", "Still there"])
  expect(page.page.querySelectorAll(".pair")).toHaveLength(2)
  expect((await cast.bea.open(`/bakes/${second}/again`)).page.querySelectorAll(".pair")).toHaveLength(1)
  expect(words(page)).toContain("Keep")
})

test("it proposes one thing, against where the bread went", async ({ db, cast }) => {
  const day = await giveBakeDay(db, cast)
  const longer = { ...onPlan, bulk: ["05:00", "14:00"] } satisfies typeof onPlan
  await addBake(db, day, cast.ben, log(onPlan, warm(24)))
  const hot = log(longer, [
    ["dough", "05:00", 26],
    ["dough", "16:20", 26],
    ["rise", "13:50", 1.1],
    ["finger", "16:00", "stays"],
  ])
  const second = await addBake(db, day, cast.ben, hot)

  const next = wordsOf((await cast.ben.open(`/bakes/${second}/again`)).page.querySelector(".try-next"))

  expect(next).toMatch(/Change only the bulk: .* shorter\. Keep the rest as this time\./)
  expect(next).toContain("further on than intended")
})

test("any earlier one may be chosen, the one before is shown first", async ({ db, cast }) => {
  const day = await giveBakeDay(db, cast)
  const first = await addBake(db, day, cast.ben, log(onPlan, warm(20)))
  await addBake(db, day, cast.ben, log(onPlan, warm(24)))
  const third = await addBake(db, day, cast.ben, log(onPlan, warm(24)))
  const others = await addBake(db, day, cast.bea, log(onPlan, warm(24)))
  const url = `/bakes/${third}/again`

  expect(words(await cast.ben.open(url))).toContain("Nothing that was logged changed.")
  const chosen = await cast.ben.open(`${url}?than=${first}`)
  expect(things(chosen)[0]![3]).toBe("4.0 °C warmer")
  expect(chosen.page.querySelector(`option[value="${first}"]`)!.hasAttribute("selected")).toBe(true)
  for (const than of [others, third, 999999, "constructor"])
    expect((await cast.ben.open(`${url}?than=${than}`)).status).toBe(404)
})

test("who may not read the earlier one is told of none", async ({ db, cast }) => {
  const day = await giveBakeDay(db, cast)
  const first = await addBake(db, day, cast.ben, log(onPlan, warm(20)), { shared: false })
  const second = await addBake(db, day, cast.ben, log(onPlan, warm(24)))
  const url = `/bakes/${second}/again`

  expect(words(await cast.bea.open(url))).toContain("This is Ben’s first bake of this formula that you may see.")
  expect((await cast.bea.open(`${url}?than=${first}`)).status).toBe(404)
  expect((await cast.asta.open(url)).page.querySelector(".things")).not.toBeNull()
  expect((await cast.dan.open(url)).status).toBe(404)
  expect((await cast.bea.open(`/bakes/${second}`)).text).not.toContain(url)
  expect((await cast.ben.open(`/bakes/${second}`)).text).toContain(url)
  expect((await cast.ben.open(`/bakes/${first}`)).text).not.toContain(`/bakes/${first}/again`)
})

test("a bake that is under way, or says too little, is compared as far as it goes", async ({ db, cast }) => {
  const day = await giveBakeDay(db, cast)
  await addBake(db, day, cast.ben, log(onPlan, warm(24)))
  const bare = await addBake(db, day, cast.ben, log({}))

  const page = await cast.ben.open(`/bakes/${bare}/again`)

  expect(page.status).toBe(200)
  expect(words(page)).toContain("What it did to fermentation cannot be reckoned.")
  expect(words(page)).toContain("One thing to try next")
})

test("temperatures are in the reader's unit", async ({ db, cast }) => {
  const day = await giveBakeDay(db, cast)
  await addBake(db, day, cast.ben, log(onPlan, warm(20)))
  const second = await addBake(db, day, cast.ben, log(onPlan, warm(24)))
  await db.update(users).set({ temperatureUnit: "F" }).where(eq(users.id, cast.ben.id))

  const page = await cast.ben.open(`/bakes/${second}/again`)

  expect(things(page)[0]!.slice(1, 4)).toEqual(["68 °F", "75.2 °F", "7.2 °F warmer"])
  expect((await db.select().from(bakeDays)).length).toBe(1)
})
