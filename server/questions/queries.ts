import {
  and,
  asc,
  desc,
  eq,
  exists,
  getTableColumns,
  gt,
  inArray,
  isNull,
  min,
  ne,
  not,
  notExists,
  or,
  sql,
} from "drizzle-orm"
import { alias } from "drizzle-orm/pg-core"
import type { Db } from "../db.ts"
import {
  bakeDays,
  bakes,
  classes,
  comments,
  memberships,
  photos,
  type Role,
  readings,
  revisions,
  users,
} from "../schema.ts"
import type { Viewer } from "../web/access.ts"

export type Comment = Awaited<ReturnType<typeof listComments>>[number]
export type Question = Awaited<ReturnType<typeof listOpen>>[number]
type NewComment = Omit<typeof comments.$inferInsert, "id" | "removedAt">

const staff: Role[] = ["instructor", "assistant"]
const [reply, replier, replierThere] = [
  alias(comments, "reply"),
  alias(users, "replier"),
  alias(memberships, "replier_there"),
]

/** The replies to a comment: what was said under the same thing and arrived after it. */
const replies = and(
  eq(reply.bakeId, comments.bakeId),
  sql`${reply.photoId} is not distinct from ${comments.photoId}`,
  sql`${reply.readingId} is not distinct from ${comments.readingId}`,
  // by arrival: what was asked without a network was read by nobody before it came
  gt(reply.id, comments.id),
  isNull(reply.removedAt),
)

/** Words of the staff answer somebody else's question; a comment of its asker that says nothing settles it. */
const ends = or(
  and(ne(reply.userId, comments.userId), or(replier.isOwner, inArray(replierThere.role, staff))),
  and(eq(reply.userId, comments.userId), eq(reply.words, ""), not(reply.asks)),
)

/** Whether a comment is a question that still waits; for a query that has the comment's bake day beside it. */
function waiting(db: Db) {
  const ending = db
    .select({ id: reply.id })
    .from(reply)
    .innerJoin(replier, eq(replier.id, reply.userId))
    .leftJoin(replierThere, and(eq(replierThere.userId, reply.userId), eq(replierThere.classId, bakeDays.classId)))
    .where(and(replies, ends))
  return and(isQuestion, notExists(ending))!
}
const isQuestion = and(comments.asks, isNull(comments.removedAt))

/** Everything said about these bakes, in the order in which it arrived, with who said it. */
export async function listComments(db: Db, bakeIds: number[]) {
  return db
    .select({
      ...getTableColumns(comments),
      name: sql<string>`coalesce(${memberships.shownName}, case when ${users.isOwner} then 'the owner' else 'somebody who left' end)`,
      ofStaff: sql<boolean>`${users.isOwner} or coalesce(${inArray(memberships.role, staff)}, false)`,
      waits: sql<boolean>`${waiting(db)}`,
    })
    .from(comments)
    .innerJoin(bakes, eq(bakes.id, comments.bakeId))
    .innerJoin(bakeDays, eq(bakeDays.id, bakes.bakeDayId))
    .innerJoin(users, eq(users.id, comments.userId))
    .leftJoin(memberships, and(eq(memberships.classId, bakeDays.classId), eq(memberships.userId, comments.userId)))
    .where(inArray(comments.bakeId, bakeIds))
    .orderBy(asc(comments.id))
}

/** A comment with what decides who sees it: its bake, and whether its photo is for the class (true without a photo). */
export async function findComment(db: Db, id: number) {
  const [row] = await db
    .select({
      ...getTableColumns(comments),
      forClass: sql<boolean>`coalesce(${photos.forClass}, true)`,
      classId: bakeDays.classId,
    })
    .from(comments)
    .innerJoin(bakes, eq(bakes.id, comments.bakeId))
    .innerJoin(bakeDays, eq(bakeDays.id, bakes.bakeDayId))
    .leftJoin(photos, eq(photos.id, comments.photoId))
    .where(eq(comments.id, id))
  return row
}

export async function hasReading(db: Db, bakeId: number, id: number) {
  return (await db.$count(readings, and(eq(readings.bakeId, bakeId), eq(readings.id, id)))) > 0
}

export async function addComment(db: Db, comment: NewComment) {
  await db.insert(comments).values(comment)
}

/** Leaves the comment's place in its thread, and none of its words. */
export async function takeBack(db: Db, id: number) {
  await db
    .update(comments)
    .set({ words: "", removedAt: new Date() })
    .where(and(eq(comments.id, id), isNull(comments.removedAt)))
}

/** Whether somebody is of the staff of any class. */
export async function staffSomewhere(db: Db, viewer: Viewer) {
  if (viewer.isOwner) return true
  const theirs = and(eq(memberships.userId, viewer.id), inArray(memberships.role, staff))
  return (await db.query.memberships.findFirst({ where: theirs, columns: { role: true } })) !== undefined
}

/**
 * What the head of every page says to somebody, in one statement: whether they teach any class, and how many questions
 * wait in the classes of which they are staff, null for who is staff nowhere.
 */
export async function findHead(db: Db, viewer: Viewer): Promise<{ teaches: boolean; openQuestions: number | null }> {
  const as = (...roles: Role[]) =>
    viewer.isOwner
      ? sql`true`
      : exists(
          db
            .select({ one: sql`1` })
            .from(memberships)
            .where(and(eq(memberships.userId, viewer.id), inArray(memberships.role, roles))),
        )
  const [row] = await db
    .select({
      teaches: sql<boolean>`${as("instructor")}`,
      openQuestions: sql<number | null>`case when ${as(...staff)} then (${open(db, viewer)}) end`,
    })
    .from(users)
    .where(eq(users.id, viewer.id))
  return row ?? { teaches: false, openQuestions: null }
}

/** How many questions wait in the classes of which somebody is staff. */
export async function countOpen(db: Db, viewer: Viewer) {
  const [row] = await open(db, viewer)
  return row!.count
}

const open = (db: Db, viewer: Viewer) =>
  db
    .select({ count: sql<number>`count(*)::int` })
    .from(comments)
    .innerJoin(bakes, eq(bakes.id, comments.bakeId))
    .innerJoin(bakeDays, eq(bakeDays.id, bakes.bakeDayId))
    .where(and(waiting(db), inTheirClasses(db, viewer)))

/** All that is said anywhere, in one word: another as soon as anything was said or taken back. */
export async function versionOfTalk(db: Db) {
  const [row] = await db
    .select({
      version: sql<string>`coalesce(max(${comments.id}), 0) || '-' || count(*) || '-' || count(${comments.removedAt})`,
    })
    .from(comments)
  return row!.version
}

/** How many questions wait at each bench of a bake day, and since when. */
export async function listWaiting(db: Db, bakeDayId: number) {
  return db
    .select({
      bakeId: comments.bakeId,
      count: sql<number>`count(*)::int`,
      since: sql<Date>`${min(comments.madeAt)}`.mapWith(comments.madeAt),
    })
    .from(comments)
    .innerJoin(bakes, eq(bakes.id, comments.bakeId))
    .innerJoin(bakeDays, eq(bakeDays.id, bakes.bakeDayId))
    .where(and(eq(bakeDays.id, bakeDayId), waiting(db)))
    .groupBy(comments.bakeId)
}

/** The questions that wait in those classes, the oldest first. */
export async function listOpen(db: Db, viewer: Viewer) {
  return selectQuestions(db)
    .where(and(waiting(db), inTheirClasses(db, viewer)))
    .orderBy(asc(comments.madeAt), asc(comments.id))
}

/** The questions there that were answered or settled, the latest first. */
export async function listAnswered(db: Db, viewer: Viewer, most = 20) {
  const latest = db
    .select({ id: sql`max(${reply.id})` })
    .from(reply)
    .where(replies)
  return selectQuestions(db)
    .where(and(isQuestion, not(waiting(db)), inTheirClasses(db, viewer)))
    .orderBy(desc(sql`${latest}`))
    .limit(most)
}

/** One of those questions, answered or not. */
export async function findQuestion(db: Db, id: number) {
  const [row] = await selectQuestions(db).where(and(isQuestion, eq(comments.id, id)))
  return row
}

const inTheirClasses = (db: Db, viewer: Viewer) =>
  viewer.isOwner
    ? undefined
    : inArray(
        bakeDays.classId,
        db
          .select({ id: memberships.classId })
          .from(memberships)
          .where(and(eq(memberships.userId, viewer.id), inArray(memberships.role, staff))),
      )

const selectQuestions = (db: Db) =>
  db
    .select({
      id: comments.id,
      bakeId: comments.bakeId,
      photoId: comments.photoId,
      readingId: comments.readingId,
      stageKey: sql<string | null>`coalesce(${comments.stageKey}, ${photos.stageKey}, ${readings.stageKey})`,
      madeAt: comments.madeAt,
      baker: sql<string>`coalesce(${memberships.shownName}, 'somebody who left')`,
      title: bakeDays.title,
      bakeDayId: bakeDays.id,
      classId: classes.id,
      className: classes.name,
      photo: photos,
      reading: readings,
      content: revisions.content,
    })
    .from(comments)
    .innerJoin(bakes, eq(bakes.id, comments.bakeId))
    .innerJoin(bakeDays, eq(bakeDays.id, bakes.bakeDayId))
    .innerJoin(classes, eq(classes.id, bakeDays.classId))
    .innerJoin(revisions, eq(revisions.id, bakes.revisionId))
    .leftJoin(memberships, and(eq(memberships.classId, classes.id), eq(memberships.userId, bakes.userId)))
    .leftJoin(photos, eq(photos.id, comments.photoId))
    .leftJoin(readings, eq(readings.id, comments.readingId))
