import { and, asc, desc, eq, gte, notExists, sql } from "drizzle-orm"
import { alias } from "drizzle-orm/pg-core"
import type { Db } from "../db.ts"
import { bakeDays, bakes, classes, memberships, plans, revisions } from "../schema.ts"
import type { Viewer } from "../web/access.ts"

export type BakeDay = NonNullable<Awaited<ReturnType<typeof findBakeDay>>>
export type NewBakeDay = Omit<typeof bakeDays.$inferInsert, "id" | "madeAt">

const columns = {
  id: bakeDays.id,
  title: bakeDays.title,
  opensOn: bakeDays.opensOn,
  closesOn: bakeDays.closesOn,
  onTableTime: bakeDays.onTableTime,
  lookFor: bakeDays.lookFor,
  targetDoughC: bakeDays.targetDoughC,
  targetRise: bakeDays.targetRise,
  classId: classes.id,
  className: classes.name,
  zone: classes.zone,
  allergenList: classes.allergenList,
  revisionId: revisions.id,
  formulaId: revisions.formulaId,
  revisionNumber: revisions.number,
  formulaTitle: revisions.title,
}

const selectBakeDays = (db: Db) =>
  db
    .select(columns)
    .from(bakeDays)
    .innerJoin(classes, eq(classes.id, bakeDays.classId))
    .innerJoin(revisions, eq(revisions.id, bakeDays.revisionId))

/** A class's bake days, the newest window first. */
export async function listBakeDays(db: Db, { classId }: { classId: number }) {
  return selectBakeDays(db).where(eq(bakeDays.classId, classId)).orderBy(desc(bakeDays.opensOn), desc(bakeDays.id))
}

/** A bake day with its class's name and time zone and the revision it gives. */
export async function findBakeDay(db: Db, id: number) {
  const [row] = await db
    .select({ ...columns, content: revisions.content, ownIngredients: revisions.ownIngredients })
    .from(bakeDays)
    .innerJoin(classes, eq(classes.id, bakeDays.classId))
    .innerJoin(revisions, eq(revisions.id, bakeDays.revisionId))
    .where(eq(bakeDays.id, id))
  return row
}

/** The same as one person finds it: with what they are in its class; undefined for who is nothing there. */
export async function findBakeDayFor(db: Db, viewer: Viewer, id: number) {
  const [row] = await db
    .select({
      ...columns,
      content: revisions.content,
      ownIngredients: revisions.ownIngredients,
      role: memberships.role,
      notStarted: studentsWithoutBake(db),
    })
    .from(bakeDays)
    .innerJoin(classes, eq(classes.id, bakeDays.classId))
    .innerJoin(revisions, eq(revisions.id, bakeDays.revisionId))
    .leftJoin(memberships, and(eq(memberships.classId, classes.id), eq(memberships.userId, viewer.id)))
    .where(eq(bakeDays.id, id))
  const role = viewer.isOwner ? "instructor" : row?.role
  return row && role ? { ...row, role } : undefined
}

/** The names of the students who have not begun a bake of the bake day beside it, shared or not. */
function studentsWithoutBake(db: Db) {
  const theirs = and(eq(bakes.bakeDayId, bakeDays.id), eq(bakes.userId, students.userId))
  const none = notExists(db.select({ id: bakes.id }).from(bakes).where(theirs))
  return sql<string[]>`(select coalesce(json_agg(${students.shownName} order by ${students.shownName}), '[]')
    from ${memberships} "students" where ${and(eq(students.classId, bakeDays.classId), eq(students.role, "student"), none)})`
}
const students = alias(memberships, "students")

export async function classOfBakeDay(db: Db, id: number) {
  return (await db.query.bakeDays.findFirst({ where: eq(bakeDays.id, id), columns: { classId: true } }))?.classId
}

export async function addBakeDay(db: Db, values: NewBakeDay) {
  const [row] = await db.insert(bakeDays).values(values).returning({ id: bakeDays.id })
  return row!.id
}

export async function changeBakeDay(db: Db, id: number, values: Partial<NewBakeDay>) {
  await db.update(bakeDays).set(values).where(eq(bakeDays.id, id))
}

/** When somebody wants this bread on their table, how they make it and what they wish; undefined while they have not chosen. */
export async function findPlan(db: Db, bakeDayId: number, userId: number) {
  return db.query.plans.findFirst({ where: and(eq(plans.bakeDayId, bakeDayId), eq(plans.userId, userId)) })
}

export async function keepPlan(
  db: Db,
  bakeDayId: number,
  userId: number,
  plan: Pick<typeof plans.$inferSelect, "onTableAt" | "variant"> & Partial<Pick<typeof plans.$inferSelect, "wishes">>,
) {
  await db
    .insert(plans)
    .values({ bakeDayId, userId, ...plan })
    .onConflictDoUpdate({ target: [plans.bakeDayId, plans.userId], set: plan })
}

/** One person's bakes of a bake day, the newest first. */
export async function listBakesBy(db: Db, bakeDayId: number, userId: number) {
  return db.query.bakes.findMany({
    where: and(eq(bakes.bakeDayId, bakeDayId), eq(bakes.userId, userId)),
    orderBy: desc(bakes.id),
  })
}

/** Every bake day of somebody's classes whose window has not passed, with that person's plan, the next to close first. */
export async function listCurrent(db: Db, viewer: Viewer, today: string) {
  const mine = and(eq(memberships.classId, bakeDays.classId), eq(memberships.userId, viewer.id))
  return db
    .select({ ...columns, planned: plans.onTableAt })
    .from(bakeDays)
    .innerJoin(classes, eq(classes.id, bakeDays.classId))
    .innerJoin(revisions, eq(revisions.id, bakeDays.revisionId))
    .innerJoin(memberships, mine)
    .leftJoin(plans, and(eq(plans.bakeDayId, bakeDays.id), eq(plans.userId, viewer.id)))
    .where(gte(bakeDays.closesOn, today))
    .orderBy(asc(bakeDays.closesOn))
}

/** Takes back a bake day that nobody has baked yet; false when somebody has. */
export async function removeBakeDay(db: Db, id: number) {
  const unused = notExists(db.select({ id: bakes.id }).from(bakes).where(eq(bakes.bakeDayId, id)))
  const removed = await db
    .delete(bakeDays)
    .where(and(eq(bakeDays.id, id), unused))
    .returning({ id: bakeDays.id })
  return removed.length > 0
}
