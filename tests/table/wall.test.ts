import { randomUUID } from "node:crypto"
import { eq } from "drizzle-orm"
import type { Db } from "../../server/db.ts"
import { photos } from "../../server/schema.ts"
import { started } from "../bench.ts"
import type { Cast } from "../cast.ts"
import { giveBakeDay } from "../class-day.ts"
import { expect, test } from "../test.ts"
import { type Page, wordsOf } from "../visitor.ts"
import { addBake, type Day } from "./class.ts"
import { at, log, onPlan } from "./log.ts"

async function hang(db: Db, day: Day, userId: number, values: Partial<typeof photos.$inferInsert>, doughC = 24) {
  const bakeId = await addBake(
    db,
    day,
    userId,
    log(onPlan, [
      ["dough", "09:00", doughC],
      ["dough", "16:20", doughC],
    ]),
  )
  const photo = { userId, bakeId, subject: "crumb" as const, takenAt: at("18:30"), forClass: true }
  const [row] = await db
    .insert(photos)
    .values({ ...photo, width: 800, height: 600, ...values })
    .returning()
  return row!.id
}

const wallOf = ({ bakeDayId }: Day) => `/bake-days/${bakeDayId}/wall`
const hung = ({ page }: Page) => page.querySelectorAll(".hung figcaption b a").map(wordsOf)

test("photos hang at one scale, each as wide as what it shows, beside a rule of 100 mm", async ({ db, cast }) => {
  const day = await giveBakeDay(db, cast)
  await hang(db, day, cast.ben.id, { acrossMm: 120 })
  await hang(db, day, cast.bea.id, { acrossMm: 150, width: 600, height: 800 })

  const wall = await cast.ben.open(wallOf(day))

  const sizes = wall.page
    .querySelectorAll(".to-scale")
    .map((svg) => [svg.getAttribute("width"), svg.getAttribute("height")])
  expect(sizes).toEqual([
    ["15em", "20em"],
    ["12em", "9em"],
  ])
  const rule = wall.page.querySelector(".ruler svg")!
  const [first, ...rest] = rule
    .querySelectorAll("line")
    .slice(1)
    .map((line) => Number.parseFloat(line.getAttribute("x1")!))
  const tenths = Number.parseFloat(rule.getAttribute("width")!)
  expect(((rest.at(-1)! - first!) / 100) * tenths).toBeCloseTo(10, 2)
})

test("a photo without a scale hangs apart, and the page says why", async ({ db, cast }) => {
  const day = await giveBakeDay(db, cast)
  await hang(db, day, cast.ben.id, { acrossMm: 120 })
  const unknown = await hang(db, day, cast.bea.id, { acrossMm: null })

  const wall = await cast.ben.open(wallOf(day))

  expect(wall.page.querySelectorAll(".to-scale")).toHaveLength(1)
  expect(wall.page.querySelector(`img[src="/photos/${unknown}/small"]`)!.getAttribute("alt")).toContain(
    "no scale known",
  )
  expect(wordsOf(wall.page.querySelector("section"))).toContain("No scale known Do not compare their sizes")
})

test("the wall is in order of name or of verdict", async ({ db, cast }) => {
  const day = await giveBakeDay(db, cast)
  await hang(db, day, cast.ben.id, { acrossMm: 120 }, 18)
  await hang(db, day, cast.bea.id, { acrossMm: 120 }, 29)

  expect(hung(await cast.ben.open(wallOf(day)))).toEqual(["Bea", "Ben"])
  expect(hung(await cast.ben.open(`${wallOf(day)}?sort=verdict`))).toEqual(["Ben", "Bea"])
  expect(hung(await cast.ben.open(`${wallOf(day)}?sort=verdict&way=down`))).toEqual(["Bea", "Ben"])
  expect(hung(await cast.ben.open(`${wallOf(day)}?sort=price&way=loss`))).toEqual(["Bea", "Ben"])
})

test("crumbs and crusts hang apart; dough does not hang", async ({ db, cast }) => {
  const day = await giveBakeDay(db, cast)
  await hang(db, day, cast.ben.id, { acrossMm: 120 })
  await hang(db, day, cast.bea.id, { acrossMm: 240, subject: "crust" })
  await hang(db, day, cast.bea.id, { acrossMm: 300, subject: "dough" })

  const wall = await cast.ben.open(wallOf(day))

  expect(wall.page.querySelectorAll("h2").map(wordsOf)).toEqual(["Crumbs", "Crusts"])
  expect(hung(wall)).toEqual(["Ben", "Bea"])
})

test("a photo for the instructors does not hang before classmates, and strangers find no wall", async ({
  db,
  cast,
}) => {
  const day = await giveBakeDay(db, cast)
  await hang(db, day, cast.ben.id, { forClass: false })

  expect(hung(await cast.bea.open(wallOf(day)))).toEqual([])
  expect((await cast.bea.open(wallOf(day))).text).toContain("Nobody has a crumb or a crust to show yet")
  expect(hung(await cast.ana.open(wallOf(day)))).toEqual(["Ben"])
  expect((await cast.cleo.open(wallOf(day))).status).toBe(404)
})

/** Ben's bake with a crumb, and where its scale is told. */
async function crumbOf(db: Db, cast: Cast) {
  const { url, id: bakeId, bakeDayId } = await started(db, cast)
  const photo = { bakeId, userId: cast.ben.id, subject: "crumb" as const, takenAt: new Date(), forClass: true }
  const [row] = await db
    .insert(photos)
    .values({ ...photo, width: 800, height: 600 })
    .returning()
  const kept = async () => (await db.query.photos.findFirst({ where: eq(photos.id, row!.id) }))!.acrossMm
  const tell = (fields: Record<string, string>, who = cast.ben) =>
    who.submit(`${url}/photos/${row!.id}/scale`, {
      entryId: randomUUID(),
      acrossMm: "",
      knownMm: "",
      knownPercent: "",
      ...fields,
    })
  return { url, bakeDayId, photoId: row!.id, kept, tell }
}

test("whoever baked says how wide the whole picture is, or how much of it something known covers", async ({
  db,
  cast,
}) => {
  const { url, photoId, kept, tell } = await crumbOf(db, cast)

  const { status, location } = await tell({ acrossMm: "18 cm" })
  expect([status, location]).toEqual([303, `${url}#photo-${photoId}`])
  expect(await kept()).toBeCloseTo(180, 9)
  expect(wordsOf((await cast.ben.open(url)).page.querySelector(`#photo-${photoId} figcaption p`))).toContain(
    "180 mm across",
  )

  await tell({ knownMm: "90", knownPercent: "60 %" })
  expect(await kept()).toBeCloseTo(150, 9)
  await tell({}, cast.asta)
  expect(await kept()).toBeNull()
})

test.for([
  [{ acrossMm: "wide" }, "acrossMm", "Give the length in mm, cm or in, such as 95 mm."],
  [{ acrossMm: "150", knownMm: "90" }, "acrossMm", "Say it one way or the other, not both."],
  [{ knownMm: "90" }, "knownPercent", "Say how much of the width it covers."],
  [{ knownPercent: "40" }, "knownMm", "Say how long what covers it is."],
  [{ knownMm: "90", knownPercent: "400" }, "knownPercent", "It covers between 1 and 100 % of the width."],
  [{ knownMm: "90", knownPercent: "half" }, "knownPercent", "Give a per cent of the width, such as 40 %."],
  [
    { acrossMm: "3 mm" },
    "acrossMm",
    "The whole picture would be 3 mm across; bread is seen between 10 mm and 2000 mm wide.",
  ],
] as const)(
  "a scale that cannot be, %o, comes back as typed with its reason",
  async ([fields, field, words], { db, cast }) => {
    const { photoId, kept, tell } = await crumbOf(db, cast)

    const { status, page } = await tell(fields)

    const [name, typed] = Object.entries(fields)[0]!
    expect(status).toBe(422)
    expect(wordsOf(page.querySelector(`[id="scale-${photoId}-${field}-error"]`))).toBe(words)
    expect(page.querySelector(`[id="scale-${photoId}-${name}"]`)!.getAttribute("value")).toBe(typed)
    expect(await kept()).toBeNull()
  },
)

test("classmates may not give a photo its scale, nor is it told of another bake's photo", async ({ db, cast }) => {
  const { photoId, tell, kept } = await crumbOf(db, cast)
  const other = await cast.bea.submit(`/bake-days/${(await giveBakeDay(db, cast)).bakeDayId}/bakes`)

  expect((await tell({ acrossMm: "150" }, cast.bea)).status).toBe(403)
  expect((await tell({ acrossMm: "150" }, cast.cleo)).status).toBe(404)
  const elsewhere = `${other.location}/photos/${photoId}/scale`
  expect((await cast.bea.submit(elsewhere, { entryId: randomUUID(), acrossMm: "150" })).status).toBe(404)
  expect(await kept()).toBeNull()
})
