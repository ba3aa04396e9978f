import { createHash, randomUUID } from "node:crypto"
import { eq, sql } from "drizzle-orm"
import type { FastifyRequest } from "fastify"
import { z } from "zod"
import type { Db } from "../db.ts"
import { bakes, entries } from "../schema.ts"
import { viewerOf } from "../web/access.ts"
import { notify } from "../web/notices.ts"

/** "again": the same was kept before. "otherwise": something else was kept under this number, and nothing is now. */
export type Arrival = "first" | "again" | "otherwise"
type Entry = Pick<typeof entries.$inferInsert, "id" | "bakeId" | "userId" | "digest">

/**
 * Does what one form of the bench says, once, however often and wherever it arrives: the form's own number and what it
 * wrote are kept together or not at all. Whoever follows the bake hears of it.
 */
export async function keepOnce(db: Db, entry: Entry, write: (tx: Db) => Promise<unknown>): Promise<Arrival> {
  return db.transaction(async (tx) => {
    // a second sending waits here until the first is done
    const added = await tx.insert(entries).values(entry).onConflictDoNothing().returning()
    if (added.length > 0) {
      await write(tx)
      await touchBake(tx, entry.bakeId)
      return "first"
    }
    const kept = await tx.query.entries.findFirst({ where: eq(entries.id, entry.id) })
    const same = kept?.bakeId === entry.bakeId && kept.userId === entry.userId && kept.digest === entry.digest
    return same ? "again" : "otherwise"
  })
}

/** The same for a form as a route gets it; who sends it, and with which number, is in the request. */
export function keep(
  request: FastifyRequest,
  bakeId: number,
  write: (tx: Db) => Promise<unknown>,
  said = request.body,
) {
  const entry = { ...entryIn(said), bakeId, userId: viewerOf(request).id }
  return keepOnce(request.server.db, entry, write)
}

/** Tells everybody who follows this bake, or its bake day, that it changed; they hear of it once the transaction is kept. */
export async function touchBake(db: Db, bakeId: number) {
  const [touched] = await db
    .update(bakes)
    .set({ version: sql`${bakes.version} + 1` })
    .where(eq(bakes.id, bakeId))
    .returning({ version: bakes.version, bakeDayId: bakes.bakeDayId })
  if (touched) await notify(db, { bakeId, ...touched })
}

/** The number of a form and what it says; a form without a number gets one, and is then not known again. */
function entryIn(fields: unknown) {
  const { entryId, ...said } = (fields ?? {}) as Record<string, unknown>
  const id = z.uuid().safeParse(entryId)
  const words = JSON.stringify(Object.entries(said).sort(([a], [b]) => (a < b ? -1 : 1)))
  const digest = createHash("sha256").update(words).digest("hex")
  return { id: id.success ? id.data.toLowerCase() : randomUUID(), digest }
}

export const saidOtherwise = "This form was sent before with another value; press the button again to add this one."
