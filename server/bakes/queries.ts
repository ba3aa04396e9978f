import { and, asc, desc, eq, getTableColumns, inArray, isNull, ne, or, sql } from "drizzle-orm"
import { asBaked } from "../changes/as-baked.ts"
import { listChanges } from "../changes/queries.ts"
import type { Db } from "../db.ts"
import { bakeDays, bakes, classes, marks, memberships, photos, readings, revisions, users } from "../schema.ts"
import { notify } from "../web/notices.ts"
import { touchBake } from "./entries.ts"

import type { When } from "./when.ts"

export type Bake = NonNullable<Awaited<ReturnType<typeof findBake>>>
export type Mark = typeof marks.$inferSelect
export type Reading = typeof readings.$inferSelect
export type Photo = typeof photos.$inferSelect
/** That a stage begins, ends or goes on, when, and the user who says so. */
type Tap = { bakeId: number; stageKey: string; when: When; by: number }
type NewReading = Omit<typeof readings.$inferInsert, "id" | "madeAt">
type Result = Pick<Bake, "insideC" | "doughMassG" | "bakedMassG" | "heightMm" | "ownWords">

/**
 * A bake with its baker's name in the class, its bake day, and the formula it used, whose revision may be older than the
 * bake day's: `content` as its baker really made it, every change counted, and `asWritten` without the changes.
 */
export async function findBake(db: Db, id: number) {
  const [row] = await db
    .select({
      ...getTableColumns(bakes),
      shownName: sql<string>`coalesce(${memberships.shownName}, 'somebody who left')`,
      title: bakeDays.title,
      opensOn: bakeDays.opensOn,
      targetDoughC: bakeDays.targetDoughC,
      targetRise: bakeDays.targetRise,
      lookFor: bakeDays.lookFor,
      classId: classes.id,
      className: classes.name,
      zone: classes.zone,
      formulaId: revisions.formulaId,
      revisionNumber: revisions.number,
      content: revisions.content,
      ownIngredients: revisions.ownIngredients,
    })
    .from(bakes)
    .innerJoin(bakeDays, eq(bakeDays.id, bakes.bakeDayId))
    .innerJoin(classes, eq(classes.id, bakeDays.classId))
    .innerJoin(revisions, eq(revisions.id, bakes.revisionId))
    .leftJoin(memberships, and(eq(memberships.classId, classes.id), eq(memberships.userId, bakes.userId)))
    .where(eq(bakes.id, id))
  if (!row) return undefined
  return { ...row, ...asBaked(row, await listChanges(db, [id])) }
}

/** What decides who may see and change a bake. */
export async function findSharing(db: Db, id: number) {
  const [row] = await db
    .select({ userId: bakes.userId, shared: bakes.shared, classId: bakeDays.classId })
    .from(bakes)
    .innerJoin(bakeDays, eq(bakeDays.id, bakes.bakeDayId))
    .where(eq(bakes.id, id))
  return row
}

export async function listMarks(db: Db, bakeId: number) {
  return db.query.marks.findMany({ where: eq(marks.bakeId, bakeId), orderBy: [asc(marks.startedAt)] })
}

/** The readings that count, in order of time; those taken back are not among them. */
export async function listReadings(db: Db, bakeId: number) {
  return db.query.readings.findMany({
    where: and(eq(readings.bakeId, bakeId), isNull(readings.removedAt)),
    orderBy: [asc(readings.takenAt), asc(readings.id)],
  })
}

/** Every photo of a bake, those for instructors only as well. */
export async function listPhotos(db: Db, bakeId: number) {
  return db.query.photos.findMany({
    where: eq(photos.bakeId, bakeId),
    orderBy: [asc(photos.takenAt), asc(photos.madeAt)],
  })
}

/** Somebody's bakes that are neither finished nor abandoned, the newest first. */
export async function listOwnUnfinished(db: Db, userId: number) {
  return db
    .select({
      id: bakes.id,
      title: bakeDays.title,
      bakeDayId: bakes.bakeDayId,
      onTableAt: bakes.onTableAt,
      className: classes.name,
    })
    .from(bakes)
    .innerJoin(bakeDays, eq(bakeDays.id, bakes.bakeDayId))
    .innerJoin(classes, eq(classes.id, bakeDays.classId))
    .where(and(eq(bakes.userId, userId), unfinished))
    .orderBy(desc(bakes.id))
}

const unfinished = and(isNull(bakes.finishedAt), isNull(bakes.abandonedAt))

/** Starts a bake, or returns to the one that this person has not finished: two taps start one. */
export async function startBake(
  db: Db,
  values: Pick<Bake, "bakeDayId" | "revisionId" | "userId" | "onTableAt"> & Partial<Pick<Bake, "variant">>,
): Promise<number> {
  return db.transaction(async (tx) => {
    // the second of two taps waits here until the first has its bake
    await tx.select({ id: users.id }).from(users).where(eq(users.id, values.userId)).for("no key update")
    const theirs = and(eq(bakes.bakeDayId, values.bakeDayId), eq(bakes.userId, values.userId), unfinished)
    const present = await tx.query.bakes.findFirst({ where: theirs, columns: { id: true }, orderBy: desc(bakes.id) })
    if (present) return present.id
    const [row] = await tx.insert(bakes).values(values).returning({ id: bakes.id })
    await touchBake(tx, row!.id)
    return row!.id
  })
}

/** Starts a stage and ends, at the same instant, the one that is running. A stage that has started already stays as it is. */
export async function startStage(db: Db, tap: Tap) {
  const { bakeId, stageKey, when, by } = tap
  const start = { startedAt: when.at, startedTyped: when.typed, startedAboutMin: when.aboutMin, startedBy: by }
  const started = await db
    .insert(marks)
    .values({ bakeId, stageKey, ...start })
    .onConflictDoNothing()
    .returning()
  if (started.length > 0) await endOthers(db, tap)
}

export async function endStage(db: Db, tap: Tap) {
  await db
    .update(marks)
    .set(endingAt(tap))
    .where(and(running(tap.bakeId), eq(marks.stageKey, tap.stageKey)))
}

/** Goes on with a stage that has ended: the time since then becomes a pause, and another stage that is running ends. */
export async function resumeStage(db: Db, tap: Tap) {
  const { bakeId, stageKey, when } = tap
  const theMark = and(eq(marks.bakeId, bakeId), eq(marks.stageKey, stageKey))
  const [mark] = await db.select().from(marks).where(theMark).for("update")
  if (!mark?.endedAt) return
  const { endedAt, pauses } = mark
  const pause = { from: endedAt.toISOString(), to: when.at.toISOString() }
  await db
    .update(marks)
    .set({
      endedAt: null,
      endedTyped: "",
      endedAboutMin: null,
      endedBy: null,
      pauses: when.at > endedAt ? [...pauses, pause] : pauses,
    })
    .where(theMark)
  await endOthers(db, tap)
}

const endOthers = (db: Db, tap: Tap) =>
  db
    .update(marks)
    .set(endingAt(tap))
    .where(and(running(tap.bakeId), ne(marks.stageKey, tap.stageKey)))
const running = (bakeId: number) => and(eq(marks.bakeId, bakeId), isNull(marks.endedAt))
// two phones may tap at once, and no stage ends before it starts
const endingAt = ({ when: { at, typed, aboutMin }, by }: Tap) => ({
  endedAt: sql`greatest(${marks.startedAt}, ${at.toISOString()}::timestamptz)`,
  endedTyped: typed,
  endedAboutMin: aboutMin,
  endedBy: by,
})

export async function addReading(db: Db, values: NewReading) {
  await db.insert(readings).values(values)
}

export async function findReading(db: Db, bakeId: number, id: number) {
  return db.query.readings.findFirst({ where: and(eq(readings.bakeId, bakeId), eq(readings.id, id)) })
}

export async function keepResult(db: Db, id: number, result: Result) {
  await db.update(bakes).set(result).where(eq(bakes.id, id))
}

export async function keepPieces(db: Db, id: number, values: Pick<Bake, "pieceMassesTyped" | "pieceMassesG">) {
  await db.update(bakes).set(values).where(eq(bakes.id, id))
}

export async function keepKitchen(db: Db, id: number, values: Pick<Bake, "kitchen" | "shared">) {
  await db.update(bakes).set(values).where(eq(bakes.id, id))
}

export async function finish(db: Db, id: number) {
  await db.update(bakes).set({ finishedAt: new Date(), abandonedAt: null }).where(eq(bakes.id, id))
}

export async function abandon(db: Db, id: number) {
  await db.update(bakes).set({ abandonedAt: new Date(), finishedAt: null }).where(eq(bakes.id, id))
}

/** Goes on with a bake; false while this person has another one unfinished for the same bake day. */
export async function reopen(db: Db, { id, bakeDayId, userId }: Pick<Bake, "id" | "bakeDayId" | "userId">) {
  const others = and(eq(bakes.bakeDayId, bakeDayId), eq(bakes.userId, userId), unfinished, ne(bakes.id, id))
  if ((await db.$count(bakes, others)) > 0) return false
  await db.transaction(async (tx) => {
    await tx.update(bakes).set({ finishedAt: null, abandonedAt: null }).where(eq(bakes.id, id))
    await touchBake(tx, id)
  })
  return true
}

/** Deletes a bake with all that was logged. Returns the ids of its photos and their copies, whose files are still there. */
export async function deleteBake(db: Db, id: number): Promise<string[]> {
  return db.transaction(async (tx) => {
    // a yes to showing one of them, given at this moment, is waited for, so that its copy is found too
    const originals = await tx.select({ id: photos.id }).from(photos).where(eq(photos.bakeId, id)).for("update")
    const copies = inArray(
      photos.copiedFrom,
      originals.map((photo) => photo.id),
    )
    const theirs = await tx
      .delete(photos)
      .where(or(eq(photos.bakeId, id), copies))
      .returning({ id: photos.id })
    const [gone] = await tx.delete(bakes).where(eq(bakes.id, id)).returning()
    if (gone) await notify(tx, { bakeId: id, bakeDayId: gone.bakeDayId, version: gone.version + 1 })
    return theirs.map((photo) => photo.id)
  })
}
