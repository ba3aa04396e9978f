import { and, asc, eq, isNotNull, or, sql } from "drizzle-orm"
import type { Db } from "../db.ts"
import { bakeDays, bringings, memberships, users } from "../schema.ts"

/** Who of a class brings what to a bake day, by the name that the class knows; not those who have left it. */
export async function listBringings(db: Db, bakeDayId: number) {
  const asMember = and(eq(memberships.classId, bakeDays.classId), eq(memberships.userId, bringings.userId))
  return db
    .select({
      id: bringings.id,
      userId: bringings.userId,
      thing: bringings.thing,
      amount: bringings.amount,
      name: sql<string>`coalesce(${memberships.shownName}, ${users.signInName})`,
    })
    .from(bringings)
    .innerJoin(bakeDays, eq(bakeDays.id, bringings.bakeDayId))
    .innerJoin(users, eq(users.id, bringings.userId))
    .leftJoin(memberships, asMember)
    .where(and(eq(bringings.bakeDayId, bakeDayId), or(isNotNull(memberships.userId), eq(users.isOwner, true))))
    .orderBy(asc(bringings.id))
}
export type Bringing = Awaited<ReturnType<typeof listBringings>>[number]

/** Puts somebody down for a thing; again, it changes how much. */
export async function bring(
  db: Db,
  values: Pick<typeof bringings.$inferInsert, "bakeDayId" | "userId" | "thing" | "amount">,
) {
  const { amount } = values
  await db
    .insert(bringings)
    .values(values)
    .onConflictDoUpdate({ target: [bringings.bakeDayId, bringings.thing, bringings.userId], set: { amount } })
}

/** One of them with the class that it is for. */
export async function findBringing(db: Db, id: number) {
  const [row] = await db
    .select({ id: bringings.id, userId: bringings.userId, bakeDayId: bakeDays.id, classId: bakeDays.classId })
    .from(bringings)
    .innerJoin(bakeDays, eq(bakeDays.id, bringings.bakeDayId))
    .where(eq(bringings.id, id))
  return row
}

export async function takeBack(db: Db, id: number) {
  await db.delete(bringings).where(eq(bringings.id, id))
}

/** How many students a class has. */
export async function countStudents(db: Db, classId: number) {
  return db.$count(memberships, and(eq(memberships.classId, classId), eq(memberships.role, "student")))
}
