import { and, asc, count, eq, getTableColumns, inArray, isNull, lt, sql } from "drizzle-orm"
import type { Db } from "../db.ts"
import { bakeDays, bakes, classes, handCounts, measurements, memberships, photos, users } from "../schema.ts"

export type Crumb = NonNullable<Awaited<ReturnType<typeof findCrumb>>>
export type HandCount = Awaited<ReturnType<typeof listCounts>>[number]

/** A photo of a bake with what was measured on it, if anything was asked, and whose bake it shows. */
export async function findCrumb(db: Db, photoId: string) {
  return (await listCrumbs(db, [photoId]))[0]
}

/** The same of several, in no order. */
export async function listCrumbs(db: Db, photoIds: string[]) {
  return crumbsWhere(db, inArray(photos.id, photoIds))
}

/** Every crumb of a class's bakes on which somebody counted cells. */
export async function listCountedCrumbs(db: Db, classId: number) {
  const counted = db.select({ id: handCounts.photoId }).from(handCounts).where(isNull(handCounts.removedAt))
  return crumbsWhere(db, and(eq(classes.id, classId), inArray(photos.id, counted)))
}

function crumbsWhere(db: Db, which: ReturnType<typeof and>) {
  return db
    .select({
      photo: getTableColumns(photos),
      measurement: getTableColumns(measurements),
      bake: {
        id: bakes.id,
        userId: bakes.userId,
        shared: bakes.shared,
        bakeDayId: bakes.bakeDayId,
        title: bakeDays.title,
        classId: classes.id,
        zone: classes.zone,
        version: bakes.version,
        name: sql<string>`coalesce(${memberships.shownName}, 'Somebody who has left the class')`,
      },
    })
    .from(photos)
    .innerJoin(bakes, eq(bakes.id, photos.bakeId))
    .innerJoin(bakeDays, eq(bakeDays.id, bakes.bakeDayId))
    .innerJoin(classes, eq(classes.id, bakeDays.classId))
    .leftJoin(memberships, and(eq(memberships.classId, classes.id), eq(memberships.userId, bakes.userId)))
    .leftJoin(measurements, eq(measurements.photoId, photos.id))
    .where(which)
    .orderBy(asc(photos.takenAt), asc(photos.id))
}

/** How many photos were asked for before this one and still wait or are being measured. */
export async function countAhead(db: Db, askedAt: Date) {
  const unfinished = inArray(measurements.state, ["waiting", "running"])
  const [row] = await db
    .select({ ahead: count() })
    .from(measurements)
    .where(and(unfinished, lt(measurements.askedAt, askedAt)))
  return row!.ahead
}

/** What was counted by hand on these photos and not taken back, each with the name of who counted. */
export async function listCounts(db: Db, photoIds: string[]) {
  return db
    .select({
      ...getTableColumns(handCounts),
      name: sql<string>`coalesce(${memberships.shownName}, ${users.signInName})`,
    })
    .from(handCounts)
    .innerJoin(photos, eq(photos.id, handCounts.photoId))
    .innerJoin(bakes, eq(bakes.id, photos.bakeId))
    .innerJoin(bakeDays, eq(bakeDays.id, bakes.bakeDayId))
    .innerJoin(users, eq(users.id, handCounts.userId))
    .leftJoin(memberships, and(eq(memberships.classId, bakeDays.classId), eq(memberships.userId, handCounts.userId)))
    .where(and(inArray(handCounts.photoId, photoIds), isNull(handCounts.removedAt)))
    .orderBy(asc(handCounts.id))
}

export async function addCount(db: Db, counted: typeof handCounts.$inferInsert) {
  await db.insert(handCounts).values(counted)
}

export async function findCountsMaker(db: Db, id: number) {
  const row = await db.query.handCounts.findFirst({ where: eq(handCounts.id, id), columns: { userId: true } })
  return row?.userId
}

/** Takes a count back; gives the photo it was made on. */
export async function takeBackCount(db: Db, id: number) {
  const [row] = await db
    .update(handCounts)
    .set({ removedAt: new Date() })
    .where(eq(handCounts.id, id))
    .returning({ photoId: handCounts.photoId })
  return row?.photoId
}
