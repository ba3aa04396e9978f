import { and, asc, desc, eq, isNull, sql } from "drizzle-orm"
import type { Db } from "../db.ts"
import { bakeDays, bakes, judgements, memberships, users } from "../schema.ts"

export type Judgement = Awaited<ReturnType<typeof listJudgements>>[number]
type NewJudgement = Omit<typeof judgements.$inferInsert, "id" | "removedAt">

export async function addJudgement(db: Db, values: NewJudgement) {
  await db.insert(judgements).values(values)
}

export async function findJudgement(db: Db, bakeId: number, id: number) {
  return db.query.judgements.findFirst({ where: and(eq(judgements.bakeId, bakeId), eq(judgements.id, id)) })
}

/** Takes a judgement back; it stays in the history, and the one before it stands again. */
export async function takeBackJudgement(db: Db, id: number) {
  await db
    .update(judgements)
    .set({ removedAt: new Date() })
    .where(and(eq(judgements.id, id), isNull(judgements.removedAt)))
}

/** All that was said of a bake, the first first, what was taken back as well, with the name of who said it. */
export async function listJudgements(db: Db, { id, classId }: { id: number; classId: number }) {
  const { bakeId: _bake, ...columns } = judgementColumns
  return db
    .select({ ...columns, name })
    .from(judgements)
    .innerJoin(users, eq(users.id, judgements.userId))
    .leftJoin(memberships, and(eq(memberships.classId, classId), eq(memberships.userId, judgements.userId)))
    .where(eq(judgements.bakeId, id))
    .orderBy(asc(judgements.id))
}

const judgementColumns = {
  id: judgements.id,
  bakeId: judgements.bakeId,
  userId: judgements.userId,
  by: judgements.by,
  call: judgements.call,
  explanation: judgements.explanation,
  words: judgements.words,
  model: judgements.model,
  madeAt: judgements.madeAt,
  removedAt: judgements.removedAt,
}
const name = sql<string>`coalesce(${memberships.shownName}, case when ${users.isOwner} then 'the owner' else 'somebody who left' end)`

/** What the instructors of a class say of its bakes, the word that stands for each, with its baker's name; the newest bake first. */
export async function listCorrected(db: Db, classId: number) {
  const newest = db
    .selectDistinctOn([judgements.bakeId])
    .from(judgements)
    .where(and(eq(judgements.by, "instructor"), isNull(judgements.removedAt)))
    .orderBy(judgements.bakeId, desc(judgements.id))
    .as("newest")
  return db
    .select({
      bakeId: newest.bakeId,
      call: newest.call,
      model: newest.model,
      title: bakeDays.title,
      name: sql<string>`coalesce(${memberships.shownName}, 'somebody who left')`,
    })
    .from(newest)
    .innerJoin(bakes, eq(bakes.id, newest.bakeId))
    .innerJoin(bakeDays, eq(bakeDays.id, bakes.bakeDayId))
    .leftJoin(memberships, and(eq(memberships.classId, classId), eq(memberships.userId, bakes.userId)))
    .where(eq(bakeDays.classId, classId))
    .orderBy(desc(newest.bakeId))
}
