import { randomUUID } from "node:crypto"
import { and, asc, desc, eq, isNotNull, max, sql } from "drizzle-orm"
import type { Db } from "../db.ts"
import type { Ingredient } from "../dough/ingredients/ingredient.ts"
import type { ProcessedPhoto } from "../photos/processing.ts"
import type { photoStore } from "../photos/storage.ts"
import { formulas, type Look, photos, photoWishes, revisions, users } from "../schema.ts"
import type { Viewer } from "../web/access.ts"
import { newToken } from "../web/tokens.ts"
import type { FormulaContent } from "./content.ts"

type PhotoStore = ReturnType<typeof photoStore>
type Written = { title: string; content: FormulaContent }

/**
 * The formulas somebody may edit, the newest change first: their own, and everybody's for the owner of the instance.
 * `number` is the latest revision's, null before the first; `differs` says whether the draft has moved on since.
 */
export async function listFormulas(db: Db, viewer: Viewer) {
  const last = newestRevisions(db)
  return db
    .select({
      id: formulas.id,
      title: formulas.title,
      writer: users.signInName,
      mine: sql<boolean>`${formulas.ownerId} = ${viewer.id}`,
      isPublic: isNotNull(formulas.publicToken).mapWith(Boolean),
      changedAt: formulas.changedAt,
      number: last.number,
      differs: sql<boolean>`${last.title} is distinct from ${formulas.title} or ${last.content} is distinct from ${formulas.draft}`,
    })
    .from(formulas)
    .innerJoin(users, eq(users.id, formulas.ownerId))
    .leftJoin(last, eq(last.formulaId, formulas.id))
    .where(editableBy(viewer))
    .orderBy(desc(formulas.changedAt), desc(formulas.id))
}

/** The newest revision of each formula that somebody may edit, by title: what they can give to a class. */
export async function listPublished(db: Db, viewer: Viewer) {
  const last = newestRevisions(db)
  return db
    .select({ revisionId: last.id, formulaId: formulas.id, title: last.title, number: last.number })
    .from(formulas)
    .innerJoin(last, eq(last.formulaId, formulas.id))
    .where(editableBy(viewer))
    .orderBy(asc(last.title), asc(last.id))
}

export async function findFormula(db: Db, id: number) {
  return db.query.formulas.findFirst({ where: eq(formulas.id, id) })
}

export async function addFormula(db: Db, ownerId: number, { title, content }: Written) {
  const [row] = await db.insert(formulas).values({ ownerId, title, draft: content }).returning({ id: formulas.id })
  return row!.id
}

/** Keeps what was written as the formula's draft; published revisions stay as they are. */
export async function keepDraft(db: Db, id: number, { title, content }: Written) {
  await db.update(formulas).set({ title, draft: content, changedAt: new Date() }).where(eq(formulas.id, id))
}

/** Changes the draft as it stands at this moment, whoever else is writing it. */
export async function changeDraft(db: Db, id: number, change: (draft: FormulaContent) => FormulaContent) {
  await db.transaction(async (tx) => {
    const [formula] = await tx.select().from(formulas).where(eq(formulas.id, id)).for("update")
    if (!formula) return
    const draft = change(formula.draft)
    if (draft !== formula.draft)
      await tx.update(formulas).set({ draft, changedAt: new Date() }).where(eq(formulas.id, id))
  })
}

/** Freezes the draft as the formula's next revision, with the ingredients its writer has added to the house's. */
export async function publish(db: Db, formulaId: number, whatChanged: string, ownIngredients: Ingredient[] = []) {
  return db.transaction(async (tx) => {
    // the lock makes a second publisher wait, so that two never take the same number
    const [formula] = await tx.select().from(formulas).where(eq(formulas.id, formulaId)).for("update")
    const { title, draft: content } = formula!
    const last = await tx
      .select({ number: max(revisions.number) })
      .from(revisions)
      .where(eq(revisions.formulaId, formulaId))
    const number = (last[0]?.number ?? 0) + 1
    const [row] = await tx
      .insert(revisions)
      .values({ formulaId, number, title, content, ownIngredients, whatChanged })
      .returning({ id: revisions.id, number: revisions.number })
    return row!
  })
}

/** A formula's revisions, the newest first. */
export async function listRevisions(db: Db, formulaId: number) {
  return db.query.revisions.findMany({
    where: eq(revisions.formulaId, formulaId),
    orderBy: desc(revisions.number),
  })
}

export type Revision = NonNullable<Awaited<ReturnType<typeof findRevision>>>

/** A frozen formula, with `ownerId`, who wrote it. */
export async function findRevision(db: Db, id: number) {
  const [row] = await selectRevisions(db).where(eq(revisions.id, id))
  return row
}

/** The newest revision of the formula whose public link this is. */
export async function findOpenRevision(db: Db, token: string) {
  const [row] = await selectRevisions(db)
    .where(eq(formulas.publicToken, token))
    .orderBy(desc(revisions.number))
    .limit(1)
  return row
}

export async function makePublicLink(db: Db, id: number) {
  const unlinked = and(eq(formulas.id, id), sql`${formulas.publicToken} is null`)
  await db.update(formulas).set({ publicToken: newToken() }).where(unlinked)
}

export async function takeBackPublicLink(db: Db, id: number) {
  await db.update(formulas).set({ publicToken: null }).where(eq(formulas.id, id))
}

export type StagePicture = Awaited<ReturnType<typeof listStagePictures>>[number]

/** The pictures of how a formula's stages look when they are ready, too early and too far. */
export async function listStagePictures(db: Db, formulaId: number) {
  return db.query.photos.findMany({
    where: eq(photos.formulaId, formulaId),
    orderBy: [asc(photos.madeAt), asc(photos.id)],
  })
}

export async function findStagePicture(db: Db, formulaId: number, id: string) {
  // compared as text, because PostgreSQL refuses to read just any text as a uuid
  const itself = and(sql`${photos.id}::text = ${id}`, eq(photos.formulaId, formulaId))
  return db.query.photos.findFirst({ where: itself })
}

/** Keeps the files before the row, so that no page ever shows a picture that is not there. */
export async function addStagePicture(
  db: Db,
  store: PhotoStore,
  photo: ProcessedPhoto,
  of: { formulaId: number; userId: number; stageKey: string; look?: Look },
) {
  const id = randomUUID()
  await store.keep(id, photo)
  const { width, height } = photo
  await db.insert(photos).values({ ...of, id, width, height, subject: "dough", takenAt: new Date(), forClass: true })
}

export async function removeStagePicture(db: Db, store: PhotoStore, picture: StagePicture) {
  const { id, formulaId, stageKey, copiedFrom } = picture
  await db.transaction(async (tx) => {
    await tx.delete(photos).where(eq(photos.id, id))
    // the student's yes was to this copy: for another one they are asked again
    if (formulaId && stageKey && copiedFrom) {
      const { photoId, formulaId: of, stageKey: stage } = photoWishes
      await tx.delete(photoWishes).where(and(eq(photoId, copiedFrom), eq(of, formulaId), eq(stage, stageKey)))
    }
  })
  await store.remove(id)
}

const editableBy = (viewer: Viewer) => (viewer.isOwner ? undefined : eq(formulas.ownerId, viewer.id))

const newestRevisions = (db: Db) =>
  db
    .selectDistinctOn([revisions.formulaId])
    .from(revisions)
    .orderBy(revisions.formulaId, desc(revisions.number))
    .as("newest")

const selectRevisions = (db: Db) =>
  db
    .select({
      id: revisions.id,
      formulaId: revisions.formulaId,
      number: revisions.number,
      title: revisions.title,
      content: revisions.content,
      ownIngredients: revisions.ownIngredients,
      whatChanged: revisions.whatChanged,
      publishedAt: revisions.publishedAt,
      ownerId: formulas.ownerId,
    })
    .from(revisions)
    .innerJoin(formulas, eq(formulas.id, revisions.formulaId))
