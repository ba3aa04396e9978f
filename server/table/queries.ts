import { and, asc, eq, getTableColumns, inArray, isNull, ne, or } from "drizzle-orm"
import { asBaked } from "../changes/as-baked.ts"
import { type KeptChange, listChanges } from "../changes/queries.ts"
import type { Db } from "../db.ts"
import type { Culture } from "../dough/fermentation/growth.ts"
import { type Raised, raisedBy } from "../estimate/leaven.ts"
import { cultureOf } from "../formulas/content.ts"
import { bakeDays, bakes, marks, memberships, photos, type Role, readings, revisions } from "../schema.ts"
import type { Viewer } from "../web/access.ts"

export type TableBake = Awaited<ReturnType<typeof listBakesOf>>[number]
type Asking = { viewer: Pick<Viewer, "id">; role: Role | undefined }

const isStaff = ({ role }: Asking) => role === "instructor" || role === "assistant"

/**
 * All bakes of a bake day that this person may see, by name and then in the order they were begun, each with the formula
 * as its baker really made it, every change counted, its marks, its readings and its visible photos, crumb first.
 * Students see their own and what is shared, staff all. `nth` counts a person's bakes among those seen, so that it betrays none.
 */
export async function listBakesOf(db: Db, bakeDayId: number, asking: Asking) {
  const own = eq(bakes.userId, asking.viewer.id)
  const rows = await db
    .select({ bake: bakes, shownName: memberships.shownName })
    .from(bakes)
    .innerJoin(bakeDays, eq(bakeDays.id, bakes.bakeDayId))
    .leftJoin(memberships, and(eq(memberships.classId, bakeDays.classId), eq(memberships.userId, bakes.userId)))
    .where(and(eq(bakes.bakeDayId, bakeDayId), isStaff(asking) ? undefined : or(own, eq(bakes.shared, true))))
    .orderBy(asc(memberships.shownName), asc(bakes.userId), asc(bakes.id))

  const ids = rows.map(({ bake }) => bake.id)
  const logged = await listLogged(db, ids, asking)
  const made = await listMade(
    db,
    rows.map(({ bake }) => bake),
  )
  return rows.map(({ bake, shownName }) => {
    const theirs = rows.filter((other) => other.bake.userId === bake.userId)
    return {
      ...bake,
      name: shownName ?? "Somebody who has left the class",
      nth: theirs.findIndex((other) => other.bake.id === bake.id) + 1,
      ...made.get(bake.id)!,
      marks: logged.marks.filter(({ bakeId }) => bakeId === bake.id),
      readings: logged.readings.filter(({ bakeId }) => bakeId === bake.id),
      photos: logged.photos.filter(({ bakeId }) => bakeId === bake.id),
    }
  })
}

async function listLogged(db: Db, ids: number[], asking: Asking) {
  const theirMarks = await db.select().from(marks).where(inArray(marks.bakeId, ids))
  const theirReadings = await db
    .select()
    .from(readings)
    .where(and(inArray(readings.bakeId, ids), isNull(readings.removedAt), ne(readings.of, "levain")))
    .orderBy(asc(readings.takenAt), asc(readings.id))
  const theirOwn = or(eq(photos.userId, asking.viewer.id), eq(bakes.userId, asking.viewer.id))
  const visible = or(eq(photos.forClass, true), theirOwn)
  const theirPhotos = await db
    .select(getTableColumns(photos))
    .from(photos)
    .innerJoin(bakes, eq(bakes.id, photos.bakeId))
    .where(and(inArray(photos.bakeId, ids), isStaff(asking) ? undefined : visible))
    .orderBy(asc(photos.takenAt), asc(photos.madeAt))
  const bySubject = theirPhotos.toSorted((a, b) => tellingFirst.indexOf(a.subject) - tellingFirst.indexOf(b.subject))
  return { marks: theirMarks, readings: theirReadings, photos: bySubject }
}

/** What a photo shows, by how much it tells of how the bread became. Our own choice. */
const tellingFirst = ["crumb", "crust", "shaped", "dough", "starter", "other"]

type Baked = Pick<typeof bakes.$inferSelect, "id" | "revisionId" | "variant">
type Made = ReturnType<typeof asBaked> & { culture: Culture; raised: { planned: Raised; actual: Raised } }

/** The formula of each bake as it was made, worked out once for all who made it alike. */
async function listMade(db: Db, baked: Baked[]): Promise<Map<number, Made>> {
  const ids = [...new Set(baked.map(({ revisionId }) => revisionId))]
  const rows = await db.query.revisions.findMany({ where: inArray(revisions.id, ids) })
  const kept = await listChanges(
    db,
    baked.map(({ id }) => id),
  )
  const alike = new Map<string, Made>()
  return new Map(
    baked.map(({ id, revisionId, variant }) => {
      const theirs = kept.filter(({ bakeId }) => bakeId === id)
      const key = theirs.length ? `bake ${id}` : `${revisionId}/${variant}`
      const made = alike.get(key) ?? madeIn(rows.find((row) => row.id === revisionId)!, variant, theirs)
      alike.set(key, made)
      return [id, made]
    }),
  )
}

function madeIn(revision: typeof revisions.$inferSelect, variant: string, kept: KeptChange[]): Made {
  const made = asBaked({ ...revision, variant }, kept)
  const own = revision.ownIngredients
  const actual = raisedBy(made.content, own, made.asWritten)
  const planned = made.content === made.asWritten ? actual : raisedBy(made.asWritten, own)
  return { ...made, culture: cultureOf(made.content, own), raised: { planned, actual } }
}

/** Students of the class who have not begun a bake for this bake day, shared or not. */
export async function listNotStarted(db: Db, bakeDayId: number, classId: number) {
  const begun = await db.select({ userId: bakes.userId }).from(bakes).where(eq(bakes.bakeDayId, bakeDayId))
  const students = await db
    .select({ userId: memberships.userId, name: memberships.shownName })
    .from(memberships)
    .where(and(eq(memberships.classId, classId), eq(memberships.role, "student")))
    .orderBy(asc(memberships.shownName))
  const ids = new Set(begun.map(({ userId }) => userId))
  return students.filter(({ userId }) => !ids.has(userId)).map(({ name }) => name)
}
