import { and, desc, eq, inArray, isNotNull, or } from "drizzle-orm"
import type { Db } from "../db.ts"
import { askMeasurement } from "../measuring/asking.ts"
import { bakes, photos } from "../schema.ts"

export type NewPhoto = Omit<typeof photos.$inferInsert, "madeAt"> & { id: string }

/** Keeps a photo and, where it shows a crumb, has it measured: both or neither, in the transaction of whoever keeps it. */
export async function addPhoto(tx: Db, photo: NewPhoto) {
  await tx.insert(photos).values(photo)
  if (photo.subject === "crumb") await askMeasurement(tx, photo.id)
}

/** A photo, `bakerId` being whose bake it is of; null for the picture of a formula's stage. */
export async function findPhoto(db: Db, id: string) {
  const [row] = await db
    .select({
      id: photos.id,
      userId: photos.userId,
      bakeId: photos.bakeId,
      formulaId: photos.formulaId,
      forClass: photos.forClass,
      bakerId: bakes.userId,
    })
    .from(photos)
    .leftJoin(bakes, eq(bakes.id, photos.bakeId))
    .where(eq(photos.id, id))
  return row
}

/** Of these ids those that a photo has. */
export async function listPresent(db: Db, ids: string[]): Promise<string[]> {
  const rows = await db.select({ id: photos.id }).from(photos).where(inArray(photos.id, ids))
  return rows.map(({ id }) => id)
}

/** Whether this person let the camera say when their last photo of a bake was taken, and so is likely to again. */
export async function trustsCamera(db: Db, userId: number) {
  const last = await db.query.photos.findFirst({
    where: and(eq(photos.userId, userId), isNotNull(photos.bakeId)),
    orderBy: desc(photos.madeAt),
    columns: { takenBy: true },
  })
  return last?.takenBy === "camera"
}

export async function changePhoto(
  db: Db,
  id: string,
  values: Partial<Pick<NewPhoto, "forClass" | "subject" | "stageKey" | "acrossMm" | "ruler" | "crumbArea">>,
) {
  await db.transaction(async (tx) => {
    await tx.update(photos).set(values).where(eq(photos.id, id))
    await askMeasurement(tx, id)
  })
}

/** Removes a photo and every picture copied from it, with what hangs on them. Returns the ids of all, whose files are still there. */
export async function removePhoto(db: Db, id: string): Promise<string[]> {
  return db.transaction(async (tx) => {
    // a copy that is being made is there once this lock is ours
    await tx.select({ id: photos.id }).from(photos).where(eq(photos.id, id)).for("update")
    const gone = await tx
      .delete(photos)
      .where(or(eq(photos.id, id), eq(photos.copiedFrom, id)))
      .returning({ id: photos.id })
    return gone.map((photo) => photo.id)
  })
}
