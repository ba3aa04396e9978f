import { eq } from "drizzle-orm"
import type { Db } from "../../server/db.ts"
import type { KeptCrumb } from "../../server/measuring/kept.ts"
import { bakes, changes, measurements, photos } from "../../server/schema.ts"
import type { Cast } from "../cast.ts"
import { giveBakeDay } from "../class-day.ts"
import { measuredCrumb } from "../measured-crumb.ts"
import { expect, test } from "../test.ts"
import { type Page, type Visitor, wordsOf } from "../visitor.ts"
import { addBake } from "./class.ts"
import { at, log, onPlan } from "./log.ts"

async function pair(db: Db, cast: Cast) {
  const day = await giveBakeDay(db, cast)
  const warm = log(onPlan, [
    ["dough", "09:00", 24],
    ["dough", "16:20", 24],
    ["rise", "13:50", 0.5],
  ])
  const cold = log({ ...onPlan, bulk: ["07:00", "14:00"] }, [
    ["dough", "07:00", 18],
    ["dough", "16:20", 18],
  ])
  const bens = await addBake(db, day, cast.ben.id, warm, { vessel: "tin", insideC: 97 })
  const beas = await addBake(db, day, cast.bea.id, cold, { vessel: "tin", kitchen: "cellar" })
  await db
    .insert(changes)
    .values({ bakeId: beas, kind: "added", partKey: "dough", instead: "water", quantity: "20 g", massG: 20 })
  return { day, bens, beas, url: `/compare?bakes=${bens}&bakes=${beas}` }
}

/** The lines of the part under this heading, each as its cells. */
function linesUnder({ page }: Page, heading: string) {
  const part = page.querySelectorAll(".in-full tbody").find((one) => wordsOf(one.querySelector("h2")) === heading)
  return Object.fromEntries(
    (part?.querySelectorAll("tr:not(.part)") ?? []).map((row) => {
      const [head, ...cells] = row.querySelectorAll("th, td").map(wordsOf)
      return [head!, cells]
    }),
  )
}

test("two bakes stand beside each other: what differed, in words, before what became of it and what was the same", async ({
  db,
  cast,
}) => {
  const { url } = await pair(db, cast)

  const page = await cast.ana.open(url)

  expect(page.status).toBe(200)
  expect(page.text).not.toMatch(/NaN|undefined|Infinity/)
  expect(page.page.querySelectorAll(".in-full h2").map(wordsOf)).toEqual([
    "What differed",
    "What became of it",
    "What was the same",
  ])
  const differed = linesUnder(page, "What differed")
  expect(differed["Bulk differs by 2 h"]).toEqual(["5 h 09:00 – 14:00, plan 5 h", "7 h 07:00 – 14:00, plan 5 h"])
  expect(differed["Dough differs by 6.0 °C"]).toEqual(["24 °C 2 readings", "18 °C 2 readings"])
  expect(differed["Changed differs"]).toEqual(["nothing", "+20 g water"])
  const same = linesUnder(page, "What was the same")
  expect(same.Proof).toEqual(["2 h 14:20 – 16:20, plan 2 h", "2 h 14:20 – 16:20, plan 2 h"])
  expect(same.Baked).toEqual(["in a tin", "in a tin"])
})

test("verdict, evidence, causes and photos of each are there", async ({ db, cast }) => {
  const { url, bens } = await pair(db, cast)
  const photo = { bakeId: bens, userId: cast.ben.id, subject: "crumb" as const, takenAt: at("18:30"), forClass: true }
  const [crumb] = await db
    .insert(photos)
    .values({ ...photo, width: 800, height: 600, acrossMm: 150 })
    .returning()

  const page = await cast.bea.open(url)

  const became = linesUnder(page, "What became of it")
  expect(became.Verdict![1]).toContain("underproofed")
  expect(became.Evidence![0]).toContain("Risen by 50 % against a target of 50 %: pulls toward well proofed")
  expect(became.Causes![1]).toContain("behind plan.")
  expect(became["Rise before shaping"]).toEqual(["+50 % target +50 %", "not known"])
  expect(page.page.querySelector(`.in-full .to-scale image`)!.getAttribute("href")).toBe(`/photos/${crumb!.id}/small`)
  expect(page.page.querySelectorAll(".ribbon")).toHaveLength(2)
})

test("what was measured on their crumbs is compared, and rows are sorted by it; not on photos one may not see", async ({
  db,
  cast,
}) => {
  const { url, bens, beas } = await pair(db, cast)
  const crumbOf = async (bakeId: number, userId: number, forClass: boolean, result: KeptCrumb) => {
    const photo = { bakeId, userId, subject: "crumb" as const, takenAt: at("18:30"), forClass }
    const [row] = await db
      .insert(photos)
      .values({ ...photo, width: 800, height: 600 })
      .returning()
    await db.insert(measurements).values({ photoId: row!.id, asked: "once", state: "measured", result })
  }
  const tight = { ...measuredCrumb, features: { ...measuredCrumb.features, visibleCellShare: 0.3 }, scaled: null }
  await crumbOf(bens, cast.ben.id, true, measuredCrumb)
  await crumbOf(beas, cast.bea.id, false, tight)

  const became = linesUnder(await cast.ana.open(url), "What became of it")
  expect(became["Visible cell area of the crumb differs by 10 points"]).toEqual([
    "40 % 38 % to 43 %",
    "30 % 38 % to 43 %",
  ])
  expect(became["Largest cell of the crumb"]).toEqual(["22 mm²", "not known"])

  const day = (await db.query.bakes.findFirst({ where: eq(bakes.id, bens) }))!.bakeDayId
  const names = async (who: Visitor, query: string) =>
    (await who.open(`/bake-days/${day}/table?${query}`)).page
      .querySelectorAll(".bake .name a:first-of-type")
      .map(wordsOf)
  expect(await names(cast.ana, "sort=crumb&way=up")).toEqual(["Bea", "Ben"])
  expect(await names(cast.ana, "sort=crumb&way=down")).toEqual(["Ben", "Bea"])
  const { page } = await cast.ben.open(`/bake-days/${day}/table`)
  expect(page.querySelectorAll("td.photos .cells").map(wordsOf)).toHaveLength(1)
})

test.for([
  ["", "Choose two to four bakes; none is chosen."],
  ["bakes=1", "Choose two to four bakes; only one is chosen."],
  ["bakes=1&bakes=1", "Choose two to four bakes; only one is chosen."],
  ["bakes=1&bakes=2&bakes=3&bakes=4&bakes=5", "5 bakes are chosen; two to four fit side by side."],
  ["bakes=x&bakes=-1&bakes=99999999999", "Choose two to four bakes; none is chosen."],
])("?%s is refused in plain words", async ([query, words], { cast }) => {
  const { status, page } = await cast.ana.open(`/compare?${query}`)

  expect(status).toBe(422)
  expect(wordsOf(page.querySelector('main [role="alert"]'))).toBe(words)
})

test("bakes of another class, and those that are not shared, cannot be compared", async ({ db, cast }) => {
  const { url, beas } = await pair(db, cast)
  expect((await cast.ben.open(url)).status).toBe(200)
  await db.update(bakes).set({ shared: false }).where(eq(bakes.id, beas))

  for (const [who, status] of [
    ...([
      [cast.ben, 404],
      [cast.bea, 200],
      [cast.asta, 200],
      [cast.cleo, 404],
      [cast.dan, 404],
    ] as const),
  ]) {
    const page = await who.open(url)
    expect(page.status).toBe(status)
    if (status === 404)
      expect(wordsOf(page.page.querySelector('main [role="alert"]'))).toBe(
        "One of these bakes is not there, or it is not shared with you.",
      )
    if (status === 404) expect(page.text).not.toContain("cellar")
  }
  expect((await cast.ana.open(`${url}&bakes=2147483`)).status).toBe(404)
  expect((await cast.stranger.open(url)).location).toContain("/sign-in")
})

test("the table's boxes lead there, and bakes of one person are told apart by their days", async ({ db, cast }) => {
  const { day, bens } = await pair(db, cast)
  const later = await giveBakeDay(db, cast)
  const again = await addBake(db, later, cast.ben.id, log(onPlan, [], { onTableAt: at("18:00", 21) }))

  const table = (await cast.ben.open(`/bake-days/${day.bakeDayId}/table`)).page
  expect(table.querySelector("#picking")!.getAttribute("action")).toBe("/compare")
  expect(table.querySelectorAll('input[form="picking"]').map((box) => box.getAttribute("name"))).toEqual([
    "bakes",
    "bakes",
  ])

  const both = await cast.ben.open(`/compare?bakes=${bens},${again}&lined=reference&for=projector`)
  expect(wordsOf(both.page.querySelector("h1"))).toBe("Ben, Sat 14 Nov and Ben, Sat 21 Nov")
  expect(both.page.querySelector(".projected")).not.toBeNull()
})
