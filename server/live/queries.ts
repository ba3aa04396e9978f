import { and, asc, desc, eq, getTableColumns, inArray, isNull, ne, type SQL, sql } from "drizzle-orm"
import type { Reading } from "../bakes/queries.ts"
import type { Db } from "../db.ts"
import { asMade, wayOf } from "../formulas/content.ts"
import { listWaiting } from "../questions/queries.ts"
import { bakeDays, bakes, entries, marks, memberships, photos, readings, revisions } from "../schema.ts"
import { type Bench, benchAt } from "./benches.ts"

/** One row of the bake day's page. `last` is the newest reading, `asks` the questions that wait for the staff. */
export type Row = {
  bakeId: number
  userId: number
  name: string
  /** Which of this person's bakes it is, 1 for the first. */
  nth: number
  shared: boolean
  way: string
  bench: Bench
  heardAt: Date
  last: Reading | null
  asks: { count: number; since: Date } | null
}

/** The benches of a bake day at an instant, every one of them, by name; who may see which is for the caller. */
export async function listBenches(db: Db, bakeDayId: number, now: Date): Promise<Row[]> {
  const all = await listBakes(db, bakeDayId, now)
  const made = await listMade(db, all)
  const marksOf = new Map(all.map(({ id }) => [id, [] as (typeof marks.$inferSelect)[]]))
  for (const mark of await listMarks(db, bakeDayId)) marksOf.get(mark.bakeId)?.push(mark)
  const lastOf = new Map((await listLast(db, bakeDayId)).map((reading) => [reading.bakeId, reading]))
  const asksOf = new Map((await listWaiting(db, bakeDayId)).map(({ bakeId, ...asks }) => [bakeId, asks]))
  const countOf = new Map<number, number>()

  const rows = all.map((bake): Row => {
    const { id: bakeId, userId, name, shared, heardAt } = bake
    const { stages, way } = made(bake)
    const nth = (countOf.get(userId) ?? 0) + 1
    countOf.set(userId, nth)
    const bench = benchAt({ ...bake, stages, marks: marksOf.get(bakeId) ?? [] }, now)
    const [last, asks] = [lastOf.get(bakeId) ?? null, asksOf.get(bakeId) ?? null]
    return { bakeId, userId, name, nth, shared, way, bench, heardAt, last, asks }
  })
  return rows.toSorted((a, b) => byName.compare(a.name, b.name) || a.bakeId - b.bakeId)
}
const byName = new Intl.Collator("en")

async function listBakes(db: Db, bakeDayId: number, now: Date) {
  const baker = and(eq(memberships.classId, bakeDays.classId), eq(memberships.userId, bakes.userId))
  return db
    .select({
      ...getTableColumns(bakes),
      name: sql<string>`coalesce(${memberships.shownName}, 'Somebody who has left the class')`,
      heardAt: heardAt(now),
    })
    .from(bakes)
    .innerJoin(bakeDays, eq(bakeDays.id, bakes.bakeDayId))
    .leftJoin(memberships, baker)
    .where(eq(bakes.bakeDayId, bakeDayId))
    .orderBy(asc(bakes.id))
}

/**
 * When a bench was last heard of: the latest time of anything logged there, and of anything its baker sent, whatever that
 * speaks of; one that was only begun, then. Nothing that lies ahead of `now`, as a time typed by hand may.
 */
function heardAt(now: Date) {
  const latest = (of: SQL, at: SQL) =>
    sql`(select max(${at}) from ${of} and ${at} <= ${now.toISOString()}::timestamptz)`
  const sent = sql`${entries} where ${entries.bakeId} = ${bakes.id} and ${entries.userId} = ${bakes.userId}`
  const times = [
    latest(sql`${readings} where ${readings.bakeId} = ${bakes.id}`, sql`${readings.takenAt}`),
    latest(sql`${photos} where ${photos.bakeId} = ${bakes.id}`, sql`${photos.takenAt}`),
    latest(sql`${marks} where ${marks.bakeId} = ${bakes.id}`, sql`greatest(${marks.startedAt}, ${marks.endedAt})`),
    latest(sent, sql`${entries.keptAt}`),
  ]
  return sql<Date>`coalesce(greatest(${sql.join(times, sql`, `)}), ${bakes.madeAt})`.mapWith(bakes.madeAt)
}

type Way = { revisionId: number; variant: string }

/** The stages of each way in which these were made, worked out once however many made it so. */
async function listMade(db: Db, ways: Way[]) {
  const ids = [...new Set(ways.map(({ revisionId }) => revisionId))]
  const rows = await db.query.revisions.findMany({
    where: inArray(revisions.id, ids),
    columns: { id: true, content: true },
  })
  const contents = new Map(rows.map(({ id, content }) => [id, content]))
  const known = new Map<string, ReturnType<typeof madeOf>>()
  const madeOf = ({ revisionId, variant }: Way) => {
    const content = contents.get(revisionId)!
    return { stages: asMade(content, variant).stages, way: wayOf(content, variant)?.name ?? "" }
  }
  return (way: Way) => {
    const key = `${way.revisionId}/${way.variant}`
    const made = known.get(key) ?? madeOf(way)
    known.set(key, made)
    return made
  }
}

const ofDay = (db: Db, bakeDayId: number) =>
  db.select({ id: bakes.id }).from(bakes).where(eq(bakes.bakeDayId, bakeDayId))

async function listMarks(db: Db, bakeDayId: number) {
  return db.query.marks.findMany({ where: inArray(marks.bakeId, ofDay(db, bakeDayId)), orderBy: asc(marks.startedAt) })
}

/** The newest reading of each dough; a note says nothing in a column of numbers, and a levain is none of the dough's. */
async function listLast(db: Db, bakeDayId: number): Promise<Reading[]> {
  const counts = and(isNull(readings.removedAt), ne(readings.kind, "note"), ne(readings.of, "levain"))
  return db
    .selectDistinctOn([readings.bakeId])
    .from(readings)
    .where(and(inArray(readings.bakeId, ofDay(db, bakeDayId)), counts))
    .orderBy(readings.bakeId, desc(readings.takenAt), desc(readings.id))
}

/** What happens at the benches of a bake day, in one word: another as soon as any of them changed. */
export async function versionOfDay(db: Db, bakeDayId: number) {
  const each = sql`${bakes.id} || ':' || ${bakes.version}`
  const [row] = await db
    .select({ version: sql<string>`md5(coalesce(string_agg(${each}, ' ' order by ${bakes.id}), ''))` })
    .from(bakes)
    .where(eq(bakes.bakeDayId, bakeDayId))
  return row!.version
}
