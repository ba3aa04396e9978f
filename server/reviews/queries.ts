import { and, asc, desc, eq, gte, inArray, max, sql } from "drizzle-orm"
import type { Db } from "../db.ts"
import { bakeDays, bakes, classes, editions, memberships, photos, reviewComments, reviews, users } from "../schema.ts"
import type { EditionContent, ReviewContent } from "./content.ts"

export type Review = NonNullable<Awaited<ReturnType<typeof findReview>>>

/** The name in the class of whoever a query has beside it as `users`, with their membership there, if any. */
const shownName = sql<string>`coalesce(${memberships.shownName}, case when ${users.isOwner} then 'the owner' else 'somebody who left' end)`

export async function findReview(db: Db, bakeDayId: number) {
  return db.query.reviews.findFirst({ where: eq(reviews.bakeDayId, bakeDayId) })
}

type Saving = { draft: ReviewContent; basedOn: string; over: string; now: Date }

/**
 * Keeps a draft if it was written on top of the one that is kept, or another saving of the same opened form; `over` names
 * the version that it is meant to replace all the same. Otherwise nothing changes and what is kept comes back.
 */
export async function saveDraft(
  db: Db,
  bakeDayId: number,
  { draft, basedOn, over, now }: Saving,
): Promise<{ saved: Review } | { theirs: Review }> {
  return db.transaction(async (tx) => {
    const first = { bakeDayId, draft, madeAt: now, changedAt: now }
    const [made] = await tx.insert(reviews).values(first).onConflictDoNothing().returning()
    if (made) return { saved: made }
    const [kept] = await tx.select().from(reviews).where(eq(reviews.bakeDayId, bakeDayId)).for("update")
    const sameForm = draft.saved !== undefined && kept!.draft.saved?.form === draft.saved.form
    if (![basedOn, over].includes(versionOf(kept!)) && !sameForm) return { theirs: kept! }
    // never the version that another form began from
    const changedAt = new Date(Math.max(+now, +kept!.changedAt + 1))
    const [saved] = await tx.update(reviews).set({ draft, changedAt }).where(eq(reviews.id, kept!.id)).returning()
    return { saved: saved! }
  })
}

/** Which draft a form began from. */
export const versionOf = ({ changedAt }: Pick<Review, "changedAt">) => String(+changedAt)

type NewEdition = { content: EditionContent; whatChanged: string; publishedBy: number; publishedAt?: Date }

/** Publishes the next edition, and returns its number. */
export async function addEdition(db: Db, reviewId: number, edition: NewEdition) {
  return db.transaction(async (tx) => {
    await tx.select({ id: reviews.id }).from(reviews).where(eq(reviews.id, reviewId)).for("update")
    const [last] = await tx
      .select({ number: max(editions.number) })
      .from(editions)
      .where(eq(editions.reviewId, reviewId))
    const number = (last?.number ?? 0) + 1
    await tx.insert(editions).values({ ...edition, reviewId, number })
    return number
  })
}

/** Every edition without what it says, the newest first: when, by whom, and what was changed. */
export async function listEditions(db: Db, bakeDayId: number) {
  return selectEditions(db).where(eq(reviews.bakeDayId, bakeDayId)).orderBy(desc(editions.number))
}

function selectEditions(db: Db) {
  return db
    .select({
      number: editions.number,
      whatChanged: editions.whatChanged,
      publishedAt: editions.publishedAt,
      by: shownName,
      reviewId: editions.reviewId,
    })
    .from(editions)
    .innerJoin(reviews, eq(reviews.id, editions.reviewId))
    .innerJoin(bakeDays, eq(bakeDays.id, reviews.bakeDayId))
    .innerJoin(users, eq(users.id, editions.publishedBy))
    .leftJoin(memberships, and(eq(memberships.classId, bakeDays.classId), eq(memberships.userId, editions.publishedBy)))
}
/** One edition, or the newest. */
export async function findEdition(db: Db, bakeDayId: number, number?: number) {
  const [row] = await db
    .select({ number: editions.number, content: editions.content, reviewId: editions.reviewId })
    .from(editions)
    .innerJoin(reviews, eq(reviews.id, editions.reviewId))
    .where(and(eq(reviews.bakeDayId, bakeDayId), number === undefined ? undefined : eq(editions.number, number)))
    .orderBy(desc(editions.number))
    .limit(1)
  return row
}

/** Of these bakes those that the class still sees, with the photos that are for the class; `name` null for who has left it. */
export async function listStillShared(db: Db, bakeIds: number[]) {
  const shared = await db
    .select({ id: bakes.id, userId: bakes.userId, name: memberships.shownName })
    .from(bakes)
    .innerJoin(bakeDays, eq(bakeDays.id, bakes.bakeDayId))
    .leftJoin(memberships, and(eq(memberships.classId, bakeDays.classId), eq(memberships.userId, bakes.userId)))
    .where(and(inArray(bakes.id, bakeIds), eq(bakes.shared, true)))
  const ids = shared.map(({ id }) => id)
  const theirs = await db
    .select({
      id: photos.id,
      bakeId: photos.bakeId,
      subject: photos.subject,
      width: photos.width,
      height: photos.height,
    })
    .from(photos)
    .where(and(inArray(photos.bakeId, ids), eq(photos.forClass, true)))
  return shared.map((bake) => ({ ...bake, photos: theirs.filter(({ bakeId }) => bakeId === bake.id) }))
}

export async function listReviewComments(db: Db, reviewId: number) {
  return db
    .select({
      id: reviewComments.id,
      userId: reviewComments.userId,
      words: reviewComments.words,
      madeAt: reviewComments.madeAt,
      removedAt: reviewComments.removedAt,
      name: shownName,
    })
    .from(reviewComments)
    .innerJoin(reviews, eq(reviews.id, reviewComments.reviewId))
    .innerJoin(bakeDays, eq(bakeDays.id, reviews.bakeDayId))
    .innerJoin(users, eq(users.id, reviewComments.userId))
    .leftJoin(
      memberships,
      and(eq(memberships.classId, bakeDays.classId), eq(memberships.userId, reviewComments.userId)),
    )
    .where(eq(reviewComments.reviewId, reviewId))
    .orderBy(asc(reviewComments.id))
}

export async function addReviewComment(db: Db, comment: { reviewId: number; userId: number; words: string }) {
  const [row] = await db.insert(reviewComments).values(comment).returning({ id: reviewComments.id })
  return row!.id
}

/** A comment with the class and the bake day that it is said in. */
export async function findReviewComment(db: Db, id: number) {
  const [row] = await db
    .select({ id: reviewComments.id, userId: reviewComments.userId, bakeDayId: bakeDays.id, classId: bakeDays.classId })
    .from(reviewComments)
    .innerJoin(reviews, eq(reviews.id, reviewComments.reviewId))
    .innerJoin(bakeDays, eq(bakeDays.id, reviews.bakeDayId))
    .where(eq(reviewComments.id, id))
  return row
}

/** Leaves the comment's place, and none of its words. */
export async function takeBackReviewComment(db: Db, id: number) {
  await db.update(reviewComments).set({ words: "", removedAt: new Date() }).where(eq(reviewComments.id, id))
}

/** The reviews that are out: of one class, of one bake day, or those published lately in all classes somebody is in. */
export async function listReviewsOut(
  db: Db,
  of: { classId: number } | { bakeDayId: number } | { userId: number; since: Date },
) {
  const publishedAt = sql<Date>`${max(editions.publishedAt)}`.mapWith(editions.publishedAt)
  const theirs = (userId: number) =>
    inArray(
      bakeDays.classId,
      db.select({ id: memberships.classId }).from(memberships).where(eq(memberships.userId, userId)),
    )
  return db
    .select({
      bakeDayId: bakeDays.id,
      title: bakeDays.title,
      className: classes.name,
      number: sql<number>`${max(editions.number)}`.mapWith(Number),
      publishedAt,
    })
    .from(editions)
    .innerJoin(reviews, eq(reviews.id, editions.reviewId))
    .innerJoin(bakeDays, eq(bakeDays.id, reviews.bakeDayId))
    .innerJoin(classes, eq(classes.id, bakeDays.classId))
    .where(
      "classId" in of
        ? eq(bakeDays.classId, of.classId)
        : "bakeDayId" in of
          ? eq(bakeDays.id, of.bakeDayId)
          : theirs(of.userId),
    )
    .groupBy(bakeDays.id, classes.id)
    .having("since" in of ? gte(max(editions.publishedAt), of.since) : undefined)
    .orderBy(desc(max(editions.publishedAt)))
}
