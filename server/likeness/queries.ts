import { and, asc, desc, eq, isNull, sql } from "drizzle-orm"
import type { Db } from "../db.ts"
import { bakeDays, bakes, formulas, type Look, memberships, photos, photoWishes, revisions } from "../schema.ts"

type NewWish = Pick<typeof photoWishes.$inferInsert, "photoId" | "formulaId" | "stageKey" | "look" | "askedBy">
export type Wish = Awaited<ReturnType<typeof listWishesOf>>[number]

/** Every wish to show a photo of this bake, the newest last, with the name of who asked. */
export async function listWishesOf(db: Db, bakeId: number) {
  return selectWishes(db).where(eq(photos.bakeId, bakeId)).orderBy(asc(photoWishes.id))
}

/** The wishes that wait for somebody's yes or no, the newest first. */
export async function listWishesFor(db: Db, userId: number) {
  const theirs = and(eq(bakes.userId, userId), eq(photos.userId, userId), isNull(photoWishes.answer))
  const rows = await selectWishes(db).where(theirs).orderBy(desc(photoWishes.id))
  return rows.map(({ content, ...wish }) => ({
    ...wish,
    stageName: content.stages.find(({ key }) => key === wish.stageKey)?.name ?? "a stage",
  }))
}

export async function findWish(db: Db, bakeId: number, id: number) {
  const [row] = await selectWishes(db).where(and(eq(photoWishes.id, id), eq(photos.bakeId, bakeId)))
  return row
}

/** Who wrote the formula of a bake, and in which class it was baked: what decides who may wish for its photos. */
export async function findFormulaOfBake(db: Db, bakeId: number) {
  const [row] = await db
    .select({ formulaId: formulas.id, ownerId: formulas.ownerId, classId: bakeDays.classId })
    .from(bakes)
    .innerJoin(bakeDays, eq(bakeDays.id, bakes.bakeDayId))
    .innerJoin(revisions, eq(revisions.id, bakes.revisionId))
    .innerJoin(formulas, eq(formulas.id, revisions.formulaId))
    .where(eq(bakes.id, bakeId))
  return row
}

/** Asks for a photo; while nobody has answered, asking again may change the look. An answered wish stays as it is. */
export async function ask(db: Db, wish: NewWish) {
  const { photoId, formulaId, stageKey, answer } = photoWishes
  await db
    .insert(photoWishes)
    .values(wish)
    .onConflictDoUpdate({
      target: [photoId, formulaId, stageKey],
      set: { look: wish.look, askedBy: wish.askedBy, askedAt: new Date() },
      setWhere: isNull(answer),
    })
}

/** The student's yes to this look: the photo's copy, whose files are there under `copyId`, becomes a picture of the stage. */
export async function sayYes(db: Db, wish: { id: number; photoId: string; look: Look }, copyId: string) {
  // whoever removes the photo meanwhile waits, and then finds the copy as well
  const [photo] = await db.select().from(photos).where(eq(photos.id, wish.photoId)).for("no key update")
  const unsaid = and(
    eq(photoWishes.id, wish.id),
    eq(photoWishes.look, wish.look),
    sql`${photoWishes.answer} is distinct from 'yes'`,
  )
  const [said] = await db.update(photoWishes).set(answered("yes")).where(unsaid).returning()
  if (!photo || !said) return
  const { userId, subject, takenAt, takenBy, width, height } = photo
  const { formulaId, stageKey, look } = said
  const ofStage = { formulaId, stageKey, look, copiedFrom: photo.id, forClass: true }
  await db.insert(photos).values({ id: copyId, userId, subject, takenAt, takenBy, width, height, ...ofStage })
}

/** The student's no, at first or after a yes. Returns the ids of the copies that were shown, whose files are still there. */
export async function sayNo(db: Db, wish: Pick<Wish, "id" | "photoId" | "formulaId" | "stageKey">) {
  await db.update(photoWishes).set(answered("no")).where(eq(photoWishes.id, wish.id))
  return removeCopies(db, wish)
}

/** The wish as if it had never been; returns what `sayNo` does. */
export async function removeWish(db: Db, wish: Pick<Wish, "id" | "photoId" | "formulaId" | "stageKey">) {
  await db.delete(photoWishes).where(eq(photoWishes.id, wish.id))
  return removeCopies(db, wish)
}

async function removeCopies(
  db: Db,
  { photoId, formulaId, stageKey }: Pick<Wish, "photoId" | "formulaId" | "stageKey">,
) {
  const shown = and(eq(photos.copiedFrom, photoId), eq(photos.formulaId, formulaId), eq(photos.stageKey, stageKey))
  const copies = await db.delete(photos).where(shown).returning({ id: photos.id })
  return copies.map(({ id }) => id)
}

const answered = (answer: "yes" | "no") => ({ answer, answeredAt: new Date() })

const selectWishes = (db: Db) =>
  db
    .select({
      id: photoWishes.id,
      photoId: photoWishes.photoId,
      formulaId: photoWishes.formulaId,
      stageKey: photoWishes.stageKey,
      look: photoWishes.look,
      answer: photoWishes.answer,
      askedBy: sql<string>`coalesce(${memberships.shownName}, 'Your instructor')`,
      bakeId: bakes.id,
      bakerId: bakes.userId,
      senderId: photos.userId,
      title: bakeDays.title,
      content: revisions.content,
    })
    .from(photoWishes)
    .innerJoin(photos, eq(photos.id, photoWishes.photoId))
    .innerJoin(bakes, eq(bakes.id, photos.bakeId))
    .innerJoin(bakeDays, eq(bakeDays.id, bakes.bakeDayId))
    .innerJoin(revisions, eq(revisions.id, bakes.revisionId))
    .leftJoin(memberships, and(eq(memberships.classId, bakeDays.classId), eq(memberships.userId, photoWishes.askedBy)))
