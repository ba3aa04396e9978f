import { and, asc, desc, eq, gt, inArray, isNull, lte, sql } from "drizzle-orm"
import { alias } from "drizzle-orm/pg-core"
import type { Db } from "../db.ts"
import { bakeDays, bakes, classes, memberships, plans, reminders } from "../schema.ts"
import type { Viewer } from "../web/access.ts"

export type Reminder = Awaited<ReturnType<typeof listLastReminders>>[number]

/** The students of a class with their plans for one of its bake days, by name. */
export async function listStudents(db: Db, { id, classId }: { id: number; classId: number }) {
  const theirPlan = and(eq(plans.bakeDayId, id), eq(plans.userId, memberships.userId))
  return db
    .select({
      userId: memberships.userId,
      name: memberships.shownName,
      joinedAt: memberships.joinedAt,
      onTableAt: plans.onTableAt,
    })
    .from(memberships)
    .leftJoin(plans, theirPlan)
    .where(and(eq(memberships.classId, classId), eq(memberships.role, "student")))
    .orderBy(asc(memberships.shownName))
}

const sender = alias(memberships, "sender")
const senderHere = and(eq(sender.classId, bakeDays.classId), eq(sender.userId, reminders.sentBy))
const by = sql<string>`coalesce(${sender.shownName}, 'the staff')`

/** Who was reminded of a bake day, each with the newest reminder. */
export async function listLastReminders(db: Db, bakeDayId: number) {
  return db
    .selectDistinctOn([reminders.userId], {
      userId: reminders.userId,
      madeAt: reminders.madeAt,
      seenAt: reminders.seenAt,
      by,
    })
    .from(reminders)
    .innerJoin(bakeDays, eq(bakeDays.id, reminders.bakeDayId))
    .leftJoin(sender, senderHere)
    .where(eq(reminders.bakeDayId, bakeDayId))
    .orderBy(reminders.userId, desc(reminders.id))
}

/** Nobody is reminded of the same bake day again before so much time has passed. Our own choice. */
export const betweenRemindersMs = 24 * 3_600_000

type Reminding = { bakeDayId: number; userIds: number[]; sentBy: number; words: string }

/** Reminds those of them who were not reminded within a day: two taps at once remind once. */
export async function remind(db: Db, { bakeDayId, userIds, sentBy, words }: Reminding, now = new Date()) {
  await db.transaction(async (tx) => {
    // the second of two taps waits here until the first is done
    await tx.select({ id: bakeDays.id }).from(bakeDays).where(eq(bakeDays.id, bakeDayId)).for("no key update")
    const since = new Date(+now - betweenRemindersMs)
    const lately = await tx
      .select({ userId: reminders.userId })
      .from(reminders)
      .where(and(eq(reminders.bakeDayId, bakeDayId), inArray(reminders.userId, userIds), gt(reminders.madeAt, since)))
    const rest = userIds.filter((userId) => lately.every((row) => row.userId !== userId))
    if (rest.length)
      await tx.insert(reminders).values(rest.map((userId) => ({ bakeDayId, userId, sentBy, words, madeAt: now })))
  })
}

/** What somebody is reminded of and has neither put away nor done since, the newest of each bake day, in their classes. */
export async function listRemindersFor(db: Db, { id: userId }: Pick<Viewer, "id">, bakeDayId?: number) {
  const mine = and(eq(memberships.classId, bakeDays.classId), eq(memberships.userId, userId))
  const rows = await db
    .selectDistinctOn([reminders.bakeDayId], {
      id: reminders.id,
      bakeDayId: reminders.bakeDayId,
      title: bakeDays.title,
      className: classes.name,
      words: reminders.words,
      madeAt: reminders.madeAt,
      by,
    })
    .from(reminders)
    .innerJoin(bakeDays, eq(bakeDays.id, reminders.bakeDayId))
    .innerJoin(classes, eq(classes.id, bakeDays.classId))
    .innerJoin(memberships, mine)
    .leftJoin(sender, senderHere)
    .where(
      and(
        eq(reminders.userId, userId),
        isNull(reminders.seenAt),
        bakeDayId === undefined ? undefined : eq(reminders.bakeDayId, bakeDayId),
      ),
    )
    .orderBy(reminders.bakeDayId, desc(reminders.id))
  if (!rows.length) return []
  const theirs = await listOwnBakes(
    db,
    userId,
    rows.map((row) => row.bakeDayId),
  )
  return rows.flatMap((row) => {
    const bake = theirs.findLast((one) => one.bakeDayId === row.bakeDayId) ?? null
    return bake && hasMoved(bake, row.madeAt) ? [] : [{ ...row, bake }]
  })
}

async function listOwnBakes(db: Db, userId: number, bakeDayIds: number[]) {
  return db.query.bakes.findMany({
    where: and(eq(bakes.userId, userId), inArray(bakes.bakeDayId, bakeDayIds)),
    columns: { id: true, bakeDayId: true, madeAt: true, finishedAt: true, abandonedAt: true },
    orderBy: asc(bakes.id),
  })
}

/** Whether a bake was begun, finished or given up after the reminder: then that was heard. */
const hasMoved = (
  { madeAt, finishedAt, abandonedAt }: Pick<typeof bakes.$inferSelect, "madeAt" | "finishedAt" | "abandonedAt">,
  remindedAt: Date,
) => [madeAt, finishedAt, abandonedAt].some((at) => at && at > remindedAt)

export async function findReminder(db: Db, id: number) {
  return db.query.reminders.findFirst({ where: eq(reminders.id, id) })
}

/** Puts a reminder away, and with it those of the same bake day that it took the place of. */
export async function putAway(db: Db, { id, userId, bakeDayId }: typeof reminders.$inferSelect) {
  const theirs = and(eq(reminders.userId, userId), eq(reminders.bakeDayId, bakeDayId), lte(reminders.id, id))
  await db
    .update(reminders)
    .set({ seenAt: new Date() })
    .where(and(theirs, isNull(reminders.seenAt)))
}
