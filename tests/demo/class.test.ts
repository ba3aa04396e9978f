import { findBySignInName } from "../../server/accounts/queries.ts"
import { findBakeDay } from "../../server/bake-days/queries.ts"
import { windowNow } from "../../server/bake-days/window.ts"
import type { Db } from "../../server/db.ts"
import { findDemo, seedDemo } from "../../server/demo/class.ts"
import { doughIn } from "../../server/demo/kitchen-dough.ts"
import { levainShare, secondTinLoaf, tinLoaf } from "../../server/demo/tin-loaf.ts"
import { workOut } from "../../server/dough/formula/formula.ts"
import { photoStore } from "../../server/photos/storage.ts"
import { listAnswered, listOpen } from "../../server/questions/queries.ts"
import { memberships } from "../../server/schema.ts"
import { listBakesOf, listNotStarted } from "../../server/table/queries.ts"
import { layRow } from "../../server/table/row.ts"
import { expect, test } from "../test.ts"

const noon = new Date("2026-11-14T12:00:00Z")

async function layTable(db: Db, dataDir: string, now = noon) {
  const { bakeDayId } = await seedDemo({ db, photoStore: photoStore(dataDir), now, pictures: false })
  const bakeDay = (await findBakeDay(db, bakeDayId))!
  const bakes = await listBakesOf(db, bakeDayId, { viewer: { id: 0 }, role: "instructor" })
  const rows = new Map(
    bakes.map((bake) => [
      bake.nth > 1 ? `${bake.name} ${bake.nth}` : bake.name,
      layRow(bake, bake.content.stages, bakeDay, now),
    ]),
  )
  return { bakeDay, bakes, rows }
}

test("twelve students, of whom one has not begun and one has written nothing down", async ({ db, dataDir }) => {
  const { bakeDay, bakes, rows } = await layTable(db, dataDir)

  const people = await db.select().from(memberships)
  expect(people.filter(({ role }) => role === "student")).toHaveLength(12)
  expect(bakes).toHaveLength(12)
  expect(await listNotStarted(db, bakeDay.id, bakeDay.classId)).toEqual(["Ivo T."])
  expect(rows.get("Gregor P.")).toMatchObject({ state: "nothing", verdict: { call: "not enough to say" } })
})

test("each bake comes out as its kitchen, its hours and its levain made it", async ({ db, dataDir }) => {
  const { rows } = await layTable(db, dataDir)

  const calls = Object.fromEntries([...rows].map(([name, { verdict }]) => [name, verdict.call]))
  expect(calls).toMatchObject({
    "Amparo L.": "well",
    "Bodil H.": "well",
    "Caspar W.": "over",
    "Caspar W. 2": "well",
    "Delphine O.": "over",
    "Eamon R.": "under",
    "Juno B.": "well",
    "Kasimir D.": "well",
  })
  const mainReason = (name: string) => rows.get(name)!.differences[0]
  expect(mainReason("Caspar W.")).toMatchObject({ kind: "warmth" })
  expect(mainReason("Delphine O.")).toMatchObject({ kind: "length", stage: "Bulk", min: 150 })
  expect(mainReason("Eamon R.")).toMatchObject({ kind: "warmth" })
  const first = rows.get("Farida N.")!.verdict.suspects.slice(0, 2)
  expect(first.map(({ key }) => key)).toContain("levain weak")
  expect(rows.get("Hana S.")!.state).toBe("abandoned")
  expect(rows.get("Lioba F.")!.state).toBe("running")
})

for (const now of ["2026-11-14T12:00:00Z", "2026-03-29T00:05:00Z", "2026-10-25T23:55:00Z"]) {
  test(`seen at ${now}, nothing lies in the future and the bake day is open`, async ({ db, dataDir }) => {
    const { bakeDay, bakes } = await layTable(db, dataDir, new Date(now))

    expect(windowNow(bakeDay, new Date(now))).toBe("open")
    const instants = bakes.flatMap(({ marks, readings, finishedAt, abandonedAt }) => [
      ...marks.flatMap(({ startedAt, endedAt }) => [startedAt, endedAt]),
      ...readings.map(({ takenAt }) => takenAt),
      ...[finishedAt, abandonedAt],
    ])
    expect(instants.filter((at) => at && at > new Date(now))).toEqual([])
    expect(bakes.filter(({ finishedAt }) => finishedAt)).toHaveLength(9)
  })
}

test("the formula works out without a remark, in both revisions", () => {
  const figures = workOut(tinLoaf)
  expect(figures.cannot).toEqual([])
  expect(figures.prefermented!.low).toBeCloseTo(levainShare, 2)
  expect(workOut(secondTinLoaf).cannot).toEqual([])
})

test("a dough settles toward its kitchen, and rises more where it is warmer", () => {
  const cellar = doughIn({ roomC: 18, mixedC: 22 })
  const veranda = doughIn({ roomC: 27, mixedC: 24 })
  expect(cellar.doughC(0)).toBe(22)
  expect(cellar.doughC(12)).toBeCloseTo(18, 1)
  expect(veranda.rise(0, 5)).toBeGreaterThan(2 * cellar.rise(0, 5))
})

test("one question waits for an answer, and one has got it", async ({ db, dataDir }) => {
  await seedDemo({ db, photoStore: photoStore(dataDir), now: noon, pictures: false })
  const marta = (await findBySignInName(db, "marta"))!
  expect((await listOpen(db, marta)).map(({ baker }) => baker)).toEqual(["Lioba F."])
  expect((await listAnswered(db, marta)).map(({ baker, reading }) => [baker, reading?.kind])).toEqual([
    ["Bodil H.", "rise"],
  ])
})

test("it knows its own class again", async ({ db, dataDir }) => {
  const { bakeDayId } = await seedDemo({ db, photoStore: photoStore(dataDir), now: noon, pictures: false })
  expect(await findDemo(db)).toEqual({ bakeDayId })
})

test("it takes nobody else's accounts for its own", async ({ db, cast }) => {
  expect(cast.olga.id).toBeGreaterThan(0)
  expect(await findDemo(db)).toBeUndefined()
})
