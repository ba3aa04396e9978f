import { and, desc, eq, exists, inArray, isNull, ne, or, sql } from "drizzle-orm"
import type { Bake } from "../bakes/queries.ts"
import { asBaked } from "../changes/as-baked.ts"
import { listChanges } from "../changes/queries.ts"
import type { Db } from "../db.ts"
import { bakeDays, bakes, marks, readings, revisions } from "../schema.ts"
import { type Lesson, type Lessons, lessonOf } from "./learned.ts"
import { type Raised, raisedBy } from "./leaven.ts"
import type { Marked } from "./rising.ts"
import type { Read } from "./warmth.ts"

/**
 * What the other bakes of this baker, in any class, and those of the class teach about leavens: of those with a rise, the
 * newest ten of the baker, and the newest two of each classmate.
 */
export async function listLessons(
  db: Db,
  { id, userId, classId }: Pick<Bake, "id" | "userId" | "classId">,
): Promise<Lessons> {
  const rows = await listBakesWithRises(db, { id, userId, classId })
  const kept = rows.filter((row) => {
    const theirs = rows.filter((other) => other.userId === row.userId)
    return theirs.indexOf(row) < (row.userId === userId ? 10 : 2)
  })
  const lessons = await lessonsIn(db, kept)
  const of = (who: number) => kept.flatMap((row) => (row.userId === who ? (lessons.get(row.id) ?? []) : []))
  const others = [...new Set(kept.map((row) => row.userId))].filter((who) => who !== userId)
  return { own: of(userId), others: others.map(of) }
}

type Known = Pick<Bake, "id" | "userId" | "version" | "targetRise">

function listBakesWithRises(
  db: Db,
  { id, userId, classId }: Pick<Bake, "id" | "userId" | "classId">,
): Promise<Known[]> {
  const rise = db
    .select({ one: sql`1` })
    .from(readings)
    .where(and(eq(readings.bakeId, bakes.id), isACountedRise))
  return db
    .select({ id: bakes.id, userId: bakes.userId, version: bakes.version, targetRise: bakeDays.targetRise })
    .from(bakes)
    .innerJoin(bakeDays, eq(bakeDays.id, bakes.bakeDayId))
    .where(and(ne(bakes.id, id), or(eq(bakes.userId, userId), eq(bakeDays.classId, classId)), exists(rise)))
    .orderBy(desc(bakes.id))
    .limit(200)
}
const isACountedRise = and(eq(readings.kind, "rise"), isNull(readings.removedAt), ne(readings.of, "levain"))

/**
 * What was learnt of each bake, kept for as long as nothing more is logged in it. Each process may keep its own, as it only
 * saves work.
 */
const remembered = new WeakMap<Db, Map<number, { as: string; lessons: Lesson[] }>>()

async function lessonsIn(db: Db, rows: Known[]): Promise<Map<number, Lesson[]>> {
  const kept = remembered.get(db) ?? new Map<number, { as: string; lessons: Lesson[] }>()
  remembered.set(db, kept)
  const asOf = ({ version, targetRise }: Known) => `${version} ${targetRise}`
  const unknown = rows.filter((row) => kept.get(row.id)?.as !== asOf(row))
  for (const { id, lesson } of await readLessons(db, unknown)) {
    const as = asOf(unknown.find((row) => row.id === id)!)
    kept.set(id, { as, lessons: lesson ? [lesson] : [] })
  }
  return new Map(rows.map(({ id }) => [id, kept.get(id)?.lessons ?? []]))
}

async function readLessons(db: Db, rows: Known[]) {
  const ids = rows.map(({ id }) => id)
  if (!ids.length) return []
  const logs = await db
    .select({
      id: bakes.id,
      revisionId: bakes.revisionId,
      variant: bakes.variant,
      targetDoughC: bakeDays.targetDoughC,
      targetRise: bakeDays.targetRise,
      content: revisions.content,
      ownIngredients: revisions.ownIngredients,
      marks: sql<Written<Marked>[]>`(select coalesce(json_agg(json_build_object(
        'stageKey', ${marks.stageKey}, 'startedAt', ${marks.startedAt}, 'endedAt', ${marks.endedAt},
        'startedAboutMin', ${marks.startedAboutMin}, 'pauses', ${marks.pauses})), '[]')
        from ${marks} where ${marks.bakeId} = ${bakes.id})`,
      readings: sql<Written<Read>[]>`(select coalesce(json_agg(json_build_object(
        'kind', ${readings.kind}, 'takenAt', ${readings.takenAt}, 'takenAboutMin', ${readings.takenAboutMin},
        'known', ${readings.known}, 'of', ${readings.of}, 'value', ${readings.value}, 'typed', ${readings.typed})
        order by ${readings.takenAt}), '[]')
        from ${readings} where ${readings.bakeId} = ${bakes.id} and ${readings.removedAt} is null
        and ${readings.kind} in ('dough', 'room', 'fridge', 'rise'))`,
    })
    .from(bakes)
    .innerJoin(bakeDays, eq(bakeDays.id, bakes.bakeDayId))
    .innerJoin(revisions, eq(revisions.id, bakes.revisionId))
    .where(inArray(bakes.id, ids))
  const changes = await listChanges(db, ids)
  return logs.map((log) => {
    const made = asBaked(
      log,
      changes.filter(({ bakeId }) => bakeId === log.id),
    )
    const raised = raisedIn(db, { ...log, ...made })
    const logged = {
      ...{ stages: made.content.stages, targetDoughC: log.targetDoughC, targetRise: log.targetRise },
      marks: log.marks.map((mark) => ({ ...mark, startedAt: new Date(mark.startedAt), endedAt: dateOf(mark.endedAt) })),
      readings: log.readings.map((reading) => ({ ...reading, takenAt: new Date(reading.takenAt) })),
    }
    return { id: log.id, lesson: "why" in raised ? undefined : lessonOf(logged, raised, new Date()) }
  })
}

/**
 * What raises a bake's dough; kept for as long as the process lives where the baker changed nothing, as a revision never
 * changes and working it out costs more than all the rest of a page.
 */
export function raisedIn(
  db: Db,
  bake: Pick<Bake, "revisionId" | "variant" | "content" | "asWritten" | "ownIngredients" | "changes">,
): Raised {
  if (bake.changes.length) return raisedBy(bake.content, bake.ownIngredients, bake.asWritten)
  const kept = workedOut.get(db) ?? new Map<string, Raised>()
  workedOut.set(db, kept)
  const way = `${bake.revisionId} ${bake.variant}`
  const raised = kept.get(way) ?? raisedBy(bake.content, bake.ownIngredients)
  kept.set(way, raised)
  return raised
}
const workedOut = new WeakMap<Db, Map<string, Raised>>()

/** A row as JSON writes it. */
type Written<Row> = {
  [Field in keyof Row]: Row[Field] extends Date ? string : Row[Field] extends Date | null ? string | null : Row[Field]
}
const dateOf = (text: string | null) => (text === null ? null : new Date(text))
