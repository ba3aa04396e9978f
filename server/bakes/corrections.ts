import { and, asc, eq, isNotNull, sql } from "drizzle-orm"
import type { Db } from "../db.ts"
import { bakeDays, bakes, corrections, marks, memberships, readings, users } from "../schema.ts"
import type { Times } from "./mark-form.ts"
import { stageKeyAt } from "./progress.ts"
import { listMarks, type Mark, type Reading } from "./queries.ts"

/** What a reading, a stage's times or a change said before, who changed it, and when. `was` null: it had not been there. */
export type Correction = Awaited<ReturnType<typeof listCorrections>>[number]
type Place = { bakeId: number; stageKey: string; userId: number }
type ReadingChange = Partial<Omit<Reading, "id" | "bakeId" | "entryId" | "madeAt">>

/** Gives a stage other times, or takes them back; what they were stays in the corrections. */
export async function correctMark(db: Db, { bakeId, stageKey, userId }: Place, times: Times | null) {
  const theMark = and(eq(marks.bakeId, bakeId), eq(marks.stageKey, stageKey))
  const [present] = await db.select().from(marks).where(theMark).for("update")
  if (isSame(present && timesOf(present), times)) return
  await db.insert(corrections).values({ bakeId, userId, stageKey, was: present ? markSaidIn(present) : null })
  if (!times) return db.delete(marks).where(theMark)
  // whoever told a time first stays its teller; times that are put back bring theirs
  const by = { startedBy: present ? present.startedBy : userId, endedBy: present?.endedAt ? present.endedBy : userId }
  const said = { ...by, ...times }
  if (present) await db.update(marks).set(said).where(theMark)
  else await db.insert(marks).values({ bakeId, stageKey, ...said })
}

/** Gives back the times of a stage that somebody took back; nothing when it has times, or never had. */
export async function putBackMark(db: Db, place: Place) {
  const { bakeId, stageKey } = place
  if ((await listMarks(db, bakeId)).some((mark) => mark.stageKey === stageKey)) return
  const [last] = (await listCorrections(db, bakeId))
    .filter((one) => one.stageKey === stageKey && one.was !== null)
    .slice(-1)
  if (last) await correctMark(db, place, timesThen(last.was!))
}

/** Changes a reading, takes it back or puts it back; what it said stays in the corrections. */
export async function correctReading(db: Db, reading: Reading, userId: number, change: ReadingChange) {
  const fields = Object.keys(change) as (keyof ReadingChange)[]
  const was = Object.fromEntries(fields.map((field) => [field, reading[field]]))
  if (isSame(was, change)) return
  await db
    .insert(corrections)
    .values({ bakeId: reading.bakeId, userId, readingId: reading.id, was: readingSaidIn(reading) })
  await db.update(readings).set(change).where(eq(readings.id, reading.id))
}

/** Everything that was corrected in a bake, the first first, with the name of who did it. */
export async function listCorrections(db: Db, bakeId: number) {
  return db
    .select({
      readingId: corrections.readingId,
      changeId: corrections.changeId,
      stageKey: corrections.stageKey,
      was: corrections.was,
      madeAt: corrections.madeAt,
      by: sql<string>`coalesce(${memberships.shownName}, case when ${users.isOwner} then 'the owner' else 'somebody who left' end)`,
    })
    .from(corrections)
    .innerJoin(bakes, eq(bakes.id, corrections.bakeId))
    .innerJoin(bakeDays, eq(bakeDays.id, bakes.bakeDayId))
    .innerJoin(users, eq(users.id, corrections.userId))
    .leftJoin(memberships, and(eq(memberships.classId, bakeDays.classId), eq(memberships.userId, corrections.userId)))
    .where(eq(corrections.bakeId, bakeId))
    .orderBy(asc(corrections.id))
}

export async function listRemovedReadings(db: Db, bakeId: number) {
  return db.query.readings.findMany({ where: and(eq(readings.bakeId, bakeId), isNotNull(readings.removedAt)) })
}

/** Gives every reading of a bake to the stage that was running when it was taken; to be done when a mark has changed. */
export async function assignStages(db: Db, bakeId: number) {
  const theirs = await listMarks(db, bakeId)
  const all = await db.query.readings.findMany({ where: eq(readings.bakeId, bakeId) })
  for (const { id, takenAt, stageKey } of all) {
    const running = stageKeyAt(theirs, takenAt) ?? null
    if (running !== stageKey) await db.update(readings).set({ stageKey: running }).where(eq(readings.id, id))
  }
}

/** A reading as it was before a correction. */
export const readingThen = (present: Reading, was: Record<string, unknown>): Reading => ({
  ...present,
  ...was,
  takenAt: instantIn(was.takenAt) ?? present.takenAt,
  removedAt: instantIn(was.removedAt),
})

/** A stage's times as they were before a correction. */
export const timesThen = (was: Record<string, unknown>): Times => {
  const times = was as unknown as Times
  return { ...times, startedAt: instantIn(was.startedAt)!, endedAt: instantIn(was.endedAt) }
}

const instantIn = (kept: unknown) => (typeof kept === "string" ? new Date(kept) : kept instanceof Date ? kept : null)

function timesOf({ bakeId: _bake, stageKey: _stage, startedBy: _start, endedBy: _end, ...times }: Mark): Times {
  return times
}
function markSaidIn({ bakeId: _bake, stageKey: _stage, ...said }: Mark) {
  return said
}
function readingSaidIn({ kind: _kind, id: _id, bakeId: _bake, entryId: _entry, madeAt: _made, ...said }: Reading) {
  return said
}
/** Whether both would be kept alike. */
const isSame = (a: unknown, b: unknown) => JSON.stringify(sorted(a)) === JSON.stringify(sorted(b))
const sorted = (said: unknown) => (said ? Object.entries(said).sort(([a], [b]) => (a < b ? -1 : 1)) : null)
