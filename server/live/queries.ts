import { and, eq, inArray, max, sql } from "drizzle-orm"
import type { Reading } from "../bakes/queries.ts"
import type { Db } from "../db.ts"
import { listComments } from "../questions/queries.ts"
import { bakes, entries } from "../schema.ts"
import { listBakesOf } from "../table/queries.ts"
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
  const all = await listBakesOf(db, bakeDayId, { viewer: { id: 0 }, role: "instructor" })
  const ids = all.map(({ id }) => id)
  const sent = await listLastSent(db, ids)
  const waiting = (await listComments(db, ids)).filter(({ waits }) => waits)
  const rows = all.map((bake) => {
    const { id: bakeId, userId, name, nth, shared, way, marks, readings, photos } = bake
    const seen = [
      ...marks.flatMap(({ startedAt, endedAt }) => [startedAt, endedAt ?? startedAt]),
      ...[...readings, ...photos].map(({ takenAt }) => takenAt),
      ...(sent.get(bakeId) ?? []),
    ]
    // one that was only begun was heard of then
    const heardAt = latest(seen, now) ?? bake.madeAt
    const asked = waiting.filter((comment) => comment.bakeId === bakeId)
    const bench = benchAt({ ...bake, stages: bake.content.stages, heardAt }, now)
    const last = readings.findLast(({ kind }) => kind !== "note") ?? null
    const asks = asked[0] ? { count: asked.length, since: asked[0].madeAt } : null
    return { ...{ bakeId, userId, name, nth, shared, way }, bench, heardAt, last, asks }
  })
  return rows.toSorted((a, b) => byName.compare(a.name, b.name) || a.bakeId - b.bakeId)
}

const byName = new Intl.Collator("en")

/** The latest of these, none of them ahead of us: a time typed by hand may be. */
function latest(instants: Date[], now: Date) {
  const past = instants.filter((at) => at <= now)
  return past.length ? new Date(Math.max(...past.map(Number))) : undefined
}

/** When a baker last sent anything at all themselves, whatever time it speaks of. */
async function listLastSent(db: Db, bakeIds: number[]) {
  const theirs = and(eq(bakes.id, entries.bakeId), eq(bakes.userId, entries.userId))
  const rows = await db
    .select({ bakeId: entries.bakeId, at: max(entries.keptAt) })
    .from(entries)
    .innerJoin(bakes, theirs)
    .where(inArray(entries.bakeId, bakeIds))
    .groupBy(entries.bakeId)
  return new Map(rows.map(({ bakeId, at }) => [bakeId, at ? [at] : []]))
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
