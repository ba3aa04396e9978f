import { and, asc, count, desc, eq, inArray, isNull, or } from "drizzle-orm"
import type { Db } from "../db.ts"
import { bakeDays, bakes, judgements, memberships, photos, readings, revisions } from "../schema.ts"
import { type Asking, listBakesOf, type TableBake } from "../table/queries.ts"
import { slugsOf } from "./file-names.ts"

export type Exported = Awaited<ReturnType<typeof listExported>>[number]
export type Reading = typeof readings.$inferSelect

const isStaff = ({ role }: Asking) => role === "instructor" || role === "assistant"
const theirs = (asking: Asking) =>
  isStaff(asking) ? undefined : or(eq(bakes.userId, asking.viewer.id), eq(bakes.shared, true))

/**
 * The bakes of a bake day that this person may see, in the order of the table, without what is logged in them: `nth` counts
 * a baker's bakes among those seen, `slug` stands for the baker in file names, for each another.
 */
export async function listExported(db: Db, bakeDayId: number, asking: Asking) {
  const rows = await db
    .select({
      id: bakes.id,
      userId: bakes.userId,
      revisionId: bakes.revisionId,
      shownName: memberships.shownName,
    })
    .from(bakes)
    .innerJoin(bakeDays, eq(bakeDays.id, bakes.bakeDayId))
    .leftJoin(memberships, and(eq(memberships.classId, bakeDays.classId), eq(memberships.userId, bakes.userId)))
    .where(and(eq(bakes.bakeDayId, bakeDayId), theirs(asking)))
    .orderBy(asc(memberships.shownName), asc(bakes.userId), asc(bakes.id))
  const slugs = slugsOf(rows.map(({ userId, shownName }) => ({ userId, name: shownName ?? "left the class" })))
  const counts = new Map<number, number>()
  return rows.map(({ id, userId, revisionId }) => {
    const nth = (counts.get(userId) ?? 0) + 1
    counts.set(userId, nth)
    return { id, revisionId, nth, slug: slugs.get(userId)! }
  })
}

/** So many bakes are in memory at a time, however many there are. Our own choice. */
const atOnce = 20

/** The bakes in full, a few at a time. Who may see them is asked again for each few: what was withdrawn meanwhile is left out. */
export async function* bakesInFull(
  db: Db,
  listed: Exported[],
  asking: Asking,
): AsyncGenerator<(TableBake & Exported)[]> {
  const known = new Map(listed.map((one) => [one.id, one]))
  for (let from = 0; from < listed.length; from += atOnce) {
    const bakeIds = listed.slice(from, from + atOnce).map(({ id }) => id)
    const full = await listBakesOf(db, { bakeIds }, asking)
    yield full.map((bake) => ({ ...bake, ...known.get(bake.id)! }))
  }
}

/** All readings of these bakes that count, those of the levain as well, in the order of time; by bake. */
export async function readingsOf(db: Db, bakeIds: number[]): Promise<Map<number, Reading[]>> {
  const rows = await db.query.readings.findMany({
    where: and(inArray(readings.bakeId, bakeIds), isNull(readings.removedAt)),
    orderBy: [asc(readings.takenAt), asc(readings.id)],
  })
  const byBake = new Map(bakeIds.map((id) => [id, [] as Reading[]]))
  for (const reading of rows) byBake.get(reading.bakeId)!.push(reading)
  return byBake
}

/** What baker and instructors say of these bakes, by bake: the newest of each that nobody took back. */
export async function judgementsOf(db: Db, bakeIds: number[]) {
  const rows = await db
    .selectDistinctOn([judgements.bakeId, judgements.by], {
      bakeId: judgements.bakeId,
      by: judgements.by,
      call: judgements.call,
    })
    .from(judgements)
    .where(and(inArray(judgements.bakeId, bakeIds), isNull(judgements.removedAt)))
    .orderBy(judgements.bakeId, judgements.by, desc(judgements.id))
  const said = (bakeId: number, by: "baker" | "instructor") =>
    rows.find((row) => row.bakeId === bakeId && row.by === by)?.call ?? null
  return (bakeId: number) => ({ baker: said(bakeId, "baker"), instructor: said(bakeId, "instructor") })
}

/** The revisions that these bakes used. */
export async function listRevisions(db: Db, ids: number[]) {
  return db.query.revisions.findMany({
    where: inArray(revisions.id, ids),
    columns: { id: true, number: true, title: true, content: true },
    orderBy: asc(revisions.number),
  })
}

/** How many readings and photos somebody would get. */
export async function countExported(db: Db, bakeDayId: number, asking: Asking) {
  const seen = and(eq(bakes.bakeDayId, bakeDayId), theirs(asking))
  const [logged] = await db
    .select({ readings: count() })
    .from(readings)
    .innerJoin(bakes, eq(bakes.id, readings.bakeId))
    .where(and(seen, isNull(readings.removedAt)))
  const { id } = asking.viewer
  const shown = or(eq(photos.forClass, true), eq(photos.userId, id), eq(bakes.userId, id))
  const [pictured] = await db
    .select({ photos: count() })
    .from(photos)
    .innerJoin(bakes, eq(bakes.id, photos.bakeId))
    .where(and(seen, isStaff(asking) ? undefined : shown))
  return { readings: logged!.readings, photos: pictured!.photos }
}
