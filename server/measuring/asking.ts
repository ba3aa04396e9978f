import { createHash } from "node:crypto"
import { and, eq, isNotNull, isNull, ne, notLike, or, sql } from "drizzle-orm"
import type { Db } from "../db.ts"
import { measurements, photos } from "../schema.ts"

/** Goes up with every change of how crumbs are measured that changes a number: then each is measured anew. */
const method = "method 2"

/** On which it is said that the crumb of a photo is to be measured; the words are the photo's id. */
export const channel = "common_oven_crumb"

/**
 * Has the crumb of a photo measured, unless the same was asked before: its row waits, and whoever measures hears of it,
 * once the transaction is kept. A photo that shows no crumb loses its measurement.
 */
export async function askMeasurement(db: Db, photoId: string) {
  const photo = await db.query.photos.findFirst({
    where: eq(photos.id, photoId),
    columns: { subject: true, bakeId: true, crumbArea: true, acrossMm: true },
  })
  if (photo?.subject !== "crumb" || !photo.bakeId) {
    await db.delete(measurements).where(eq(measurements.photoId, photoId))
    return
  }
  const asked = askedOf(photo)
  const anew = { asked, state: "waiting" as const, result: null, askedAt: sql`now()`, doneAt: null }
  const changed = await db
    .insert(measurements)
    .values({ photoId, ...anew })
    .onConflictDoUpdate({ target: measurements.photoId, set: anew, setWhere: ne(measurements.asked, asked) })
    .returning({ photoId: measurements.photoId })
  if (changed.length > 0) await say(db, photoId)
}

const say = (db: Db, photoId: string) => db.execute(sql`select pg_notify(${channel}, ${photoId})`)

/** Has a photo measured once more on which measuring broke, or whose file could not be read; any other is left alone. */
export async function askAgain(db: Db, photoId: string) {
  const again = await db
    .update(measurements)
    .set({ state: "waiting", result: null, askedAt: sql`now()`, doneAt: null })
    .where(and(eq(measurements.photoId, photoId), sql`${measurements.result} ->> 'kind' in ('broke', 'unreadable')`))
    .returning({ photoId: measurements.photoId })
  if (again.length > 0) await say(db, photoId)
}

/** The same for every photo of a crumb that was never measured, or by an earlier method. */
export async function askForAll(db: Db) {
  const rows = await db
    .select({ id: photos.id })
    .from(photos)
    .leftJoin(measurements, eq(measurements.photoId, photos.id))
    .where(
      and(
        ...[eq(photos.subject, "crumb"), isNotNull(photos.bakeId)],
        or(isNull(measurements.photoId), notLike(measurements.asked, `${method}:%`)),
      ),
    )
  for (const { id } of rows) await askMeasurement(db, id)
}

function askedOf({ crumbArea, acrossMm }: Pick<typeof photos.$inferSelect, "crumbArea" | "acrossMm">) {
  // jsonb keeps an object's keys in an order of its own
  const corners = crumbArea?.map(({ x, y }) => [x, y]) ?? null
  return `${method}:${createHash("sha256")
    .update(JSON.stringify([corners, acrossMm]))
    .digest("hex")
    .slice(0, 24)}`
}
