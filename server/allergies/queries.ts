import { and, asc, eq, or, sql } from "drizzle-orm"
import type { Db } from "../db.ts"
import { type Allergies, bakeDays, classes, memberships } from "../schema.ts"
import type { Viewer } from "../web/access.ts"

export type Person = { userId: number; shownName: string; allergies: Allergies }

const columns = {
  userId: memberships.userId,
  shownName: memberships.shownName,
  allergies: memberships.allergies,
}
const stated = or(
  sql`jsonb_array_length(${memberships.allergies} -> 'keys') > 0`,
  sql`${memberships.allergies} ->> 'words' <> ''`,
)

/** Everybody in a class who has stated an allergy. Only for its instructors: who asks has to have been looked at before. */
export async function listAllergies(db: Db, classId: number): Promise<Person[]> {
  return db
    .select(columns)
    .from(memberships)
    .where(and(eq(memberships.classId, classId), stated))
    .orderBy(asc(memberships.shownName))
}

/** What one person has stated in a class; undefined for who is not in it. */
export async function findAllergies(db: Db, classId: number, userId: number): Promise<Person | undefined> {
  const theirs = and(eq(memberships.classId, classId), eq(memberships.userId, userId))
  return (await db.select(columns).from(memberships).where(theirs))[0]
}

/** False when that person is not in the class. */
export async function keepAllergies(db: Db, classId: number, userId: number, allergies: Allergies): Promise<boolean> {
  const kept = await db
    .update(memberships)
    .set({ allergies })
    .where(and(eq(memberships.classId, classId), eq(memberships.userId, userId)))
    .returning({ userId: memberships.userId })
  return kept.length > 0
}

/** The classes that were given a revision and that somebody is in, with their role there; all of them for the owner. */
export async function listClassesGiven(db: Db, viewer: Viewer, revisionId: number) {
  const mine = and(eq(memberships.classId, classes.id), eq(memberships.userId, viewer.id))
  const rows = await db
    .selectDistinct({
      ...{ id: classes.id, name: classes.name, allergenList: classes.allergenList, role: memberships.role },
    })
    .from(bakeDays)
    .innerJoin(classes, eq(classes.id, bakeDays.classId))
    .leftJoin(memberships, mine)
    .where(eq(bakeDays.revisionId, revisionId))
    .orderBy(asc(classes.name))
  return rows.flatMap(({ role, ...row }) => {
    const seen = viewer.isOwner ? "instructor" : role
    return seen ? [{ ...row, role: seen }] : []
  })
}
