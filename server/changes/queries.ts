import { and, asc, eq, inArray } from "drizzle-orm"
import type { Db } from "../db.ts"
import { changes, corrections } from "../schema.ts"

/** What one baker did otherwise, as it is kept; with `removedAt` it was taken back and counts nowhere. */
export type KeptChange = typeof changes.$inferSelect
/** What a form says of it. */
export type Said = Omit<typeof changes.$inferInsert, "id" | "bakeId" | "kind" | "madeAt" | "removedAt">

/** Everything that was done otherwise in these bakes, in the order it was told, what was taken back as well. */
export async function listChanges(db: Db, bakeIds: number[]): Promise<KeptChange[]> {
  if (bakeIds.length === 0) return []
  return db.query.changes.findMany({ where: inArray(changes.bakeId, bakeIds), orderBy: asc(changes.id) })
}

export async function findChange(db: Db, bakeId: number, id: number) {
  return db.query.changes.findFirst({ where: and(eq(changes.bakeId, bakeId), eq(changes.id, id)) })
}

export async function addChange(db: Db, bakeId: number, kind: KeptChange["kind"], said: Said) {
  await db.insert(changes).values({ ...said, bakeId, kind })
}

/** Says a change otherwise, takes it back or puts it back; what it said stays in the corrections. */
export async function correctChange(
  db: Db,
  { id, bakeId }: KeptChange,
  userId: number,
  values: Said | { removedAt: Date | null },
) {
  const [present] = await db.select().from(changes).where(eq(changes.id, id)).for("update")
  if (!present || Object.entries(values).every(([field, value]) => isSame(present[field as keyof KeptChange], value)))
    return
  await db.insert(corrections).values({ bakeId, userId, changeId: id, was: present })
  await db.update(changes).set(values).where(eq(changes.id, id))
}

const isSame = (one: unknown, other: unknown) => JSON.stringify(one) === JSON.stringify(other)

/** A change as it was before a correction. */
export const changeThen = (present: KeptChange, was: Record<string, unknown>): KeptChange => ({
  ...present,
  ...was,
  ...{ doneAt: instantIn(was.doneAt), removedAt: instantIn(was.removedAt), madeAt: present.madeAt },
})
const instantIn = (kept: unknown) => (typeof kept === "string" ? new Date(kept) : null)
