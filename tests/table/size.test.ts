import { gzipSync } from "node:zlib"
import type { Db } from "../../server/db.ts"
import type { Cast } from "../cast.ts"
import { giveBakeDay } from "../class-day.ts"
import { statementsOf } from "../statements.ts"
import { expect, test } from "../test.ts"
import { addStudents, addWholeClass } from "./class.ts"

async function classOf(db: Db, cast: Cast, count: number, students?: number[]) {
  const day = await giveBakeDay(db, cast)
  const theirs = students ?? (await addStudents(db, cast, count))
  const bakeIds = await addWholeClass(db, day, theirs.slice(0, count), 60)
  return { ...day, bakeIds, page: `/bake-days/${day.bakeDayId}` }
}

test("a table of 30 bakes with 60 readings each is light enough for a phone", async ({ db, cast }) => {
  const { page } = await classOf(db, cast, 30)

  const { text, page: table } = await cast.ana.open(`${page}/table`)

  expect(table.querySelectorAll("tbody.bake")).toHaveLength(30)
  expect(text).not.toMatch(/NaN|undefined|Infinity/)
  expect(Buffer.byteLength(text)).toBeLessThan(250_000)
  expect(gzipSync(text).length).toBeLessThan(60_000)
})

test.for(["/table", "/table?lined=reference&by=kitchen&sort=dough", "/wall"])(
  "%s asks the database as often for 30 bakes as for 3, and at most four times in all",
  async (path, { db, cast }) => {
    const students = await addStudents(db, cast, 30)
    const [few, many] = [await classOf(db, cast, 3, students), await classOf(db, cast, 30, students)]
    for (const who of [cast.ana, cast.ben, cast.olga]) {
      const counts: number[] = []
      for (const { page } of [few, many]) {
        const said = await statementsOf(db, async () => expect((await who.open(page + path)).status).toBe(200))
        counts.push(said.length)
      }
      expect(counts[0]).toBe(counts[1])
      expect(counts[1]).toBeGreaterThan(1)
      expect(counts[1]).toBeLessThanOrEqual(4)
    }
  },
)

test("so do the tables of a formula and of one student, and bakes compared", async ({ db, cast }) => {
  const { formulaId, bakeIds } = await classOf(db, cast, 5)
  const paths = [
    `/formulas/${formulaId}/table`,
    `/classes/${cast.classId}/students/${cast.ben.id}/table`,
    `/compare?bakes=${bakeIds[0]}&bakes=${bakeIds[3]}`,
  ]
  for (const path of paths) {
    const said = await statementsOf(db, async () => expect((await cast.ana.open(path)).status).toBe(200))
    expect(said.length).toBeLessThanOrEqual(4)
  }
})
