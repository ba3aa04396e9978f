import { rm } from "node:fs/promises"
import { and, eq, inArray } from "drizzle-orm"
import { touchBake } from "../bakes/entries.ts"
import type { Db } from "../db.ts"
import type { photoStore } from "../photos/storage.ts"
import { measurements, photos } from "../schema.ts"
import type { KeptCrumb } from "./kept.ts"
import type { MeasuringThread } from "./thread.ts"

export type Measuring = { db: Db; store: ReturnType<typeof photoStore>; thread: Pick<MeasuringThread, "measure"> }

/**
 * Measures the crumb of a photo as it is asked for now, and keeps what came of it, once: what was asked anew meanwhile, or
 * is done already, is left alone. Throws what the thread throws, and the row waits on.
 */
export async function measurePhoto({ db, store, thread }: Measuring, photoId: string) {
  const [row] = await db
    .update(measurements)
    .set({ state: "running" })
    .where(unfinished(photoId))
    .returning({ asked: measurements.asked })
  const photo = row && (await db.query.photos.findFirst({ where: eq(photos.id, photoId) }))
  if (!photo) return

  const { crumbArea: area, acrossMm } = photo
  const { kept, even } = await thread.measure({ file: store.path(photoId, "large"), area, acrossMm })
  // first the file: a row that speaks of a picture that is not there would be a lie
  if (even) await store.keepEven(photoId, even)
  await keepResult(db, photoId, row.asked, kept)
  if (!(await db.query.photos.findFirst({ where: eq(photos.id, photoId), columns: { id: true } })))
    await rm(store.path(photoId, "even"), { force: true })
}

/** Says of a photo on which measuring broke each time that it cannot be measured. */
export async function giveUp(db: Db, photoId: string) {
  const row = await db.query.measurements.findFirst({ where: unfinished(photoId), columns: { asked: true } })
  if (row) await keepResult(db, photoId, row.asked, { kind: "broke" })
}

async function keepResult(db: Db, photoId: string, asked: string, result: KeptCrumb) {
  await db.transaction(async (tx) => {
    const state = result.kind === "measured" ? "measured" : "cannot"
    const written = await tx
      .update(measurements)
      .set({ state, result, doneAt: new Date() })
      .where(and(unfinished(photoId), eq(measurements.asked, asked)))
      .returning({ photoId: measurements.photoId })
    if (written.length === 0) return
    const photo = await tx.query.photos.findFirst({ where: eq(photos.id, photoId), columns: { bakeId: true } })
    if (photo?.bakeId) await touchBake(tx, photo.bakeId)
  })
}

const unfinished = (photoId: string) =>
  and(eq(measurements.photoId, photoId), inArray(measurements.state, ["waiting", "running"]))
