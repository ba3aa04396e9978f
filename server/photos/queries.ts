import { eq } from "drizzle-orm"
import { touchBake } from "../bakes/entries.ts"
import type { Db } from "../db.ts"
import { bakes, photos } from "../schema.ts"

type NewPhoto = Omit<typeof photos.$inferInsert, "madeAt"> & { id: string }

export async function addPhoto(db: Db, photo: NewPhoto) {
  await db.insert(photos).values(photo)
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

export async function showToClass(db: Db, id: string, forClass: boolean) {
  await db.transaction(async (tx) => {
    const [photo] = await tx.update(photos).set({ forClass }).where(eq(photos.id, id)).returning()
    if (photo?.bakeId) await touchBake(tx, photo.bakeId)
  })
}

export async function removePhoto(db: Db, id: string) {
  await db.transaction(async (tx) => {
    const [photo] = await tx.delete(photos).where(eq(photos.id, id)).returning()
    if (photo?.bakeId) await touchBake(tx, photo.bakeId)
  })
}
