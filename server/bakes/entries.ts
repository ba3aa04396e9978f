import { createHash, randomUUID } from "node:crypto"
import { and, eq, ne, sql } from "drizzle-orm"
import type { FastifyRequest } from "fastify"
import { z } from "zod"
import type { Db } from "../db.ts"
import { bakes, entries, memberships, users } from "../schema.ts"
import { viewerOf } from "../web/access.ts"
import { notify } from "../web/notices.ts"

/** "again": the same was kept before. "otherwise": something else was kept under this number, and nothing is now. */
export type Arrival = "first" | "again" | "otherwise"
type Entry = Pick<typeof entries.$inferInsert, "id" | "bakeId" | "userId" | "digest">

/**
 * Does what one form of the bench says, once, however often and wherever it arrives: the form's own number and what it
 * wrote are kept together or not at all. Whoever follows the bake hears of it.
 */
async function keepOnce(db: Db, entry: Entry, write: (tx: Db) => Promise<unknown>): Promise<Arrival> {
  return db.transaction(async (tx) => {
    // a second sending waits here until the first is done
    const added = await tx.insert(entries).values(entry).onConflictDoNothing().returning()
    if (added.length > 0) {
      await write(tx)
      await touchBake(tx, entry.bakeId)
      return "first"
    }
    const kept = await tx.query.entries.findFirst({ where: eq(entries.id, entry.id) })
    return kept && isSame(kept, entry) ? "again" : "otherwise"
  })
}

/**
 * The same for a form as a route gets it; who sends it, and with which number, is in the request. `place` tells the
 * several things apart that one form brings, each of which is kept once.
 */
export function keep(
  request: FastifyRequest,
  bakeId: number,
  write: (tx: Db) => Promise<unknown>,
  said = request.body,
  place = 0,
) {
  return keepOnce(request.server.db, entryOf(request, bakeId, said, place), write)
}

/** Whether this very thing was kept before, for what takes long to make ready. */
export async function wasKept(request: FastifyRequest, bakeId: number, said: unknown, place: number) {
  const { id, ...same } = entryOf(request, bakeId, said, place)
  const kept = await request.server.db.query.entries.findFirst({ where: eq(entries.id, id) })
  return kept !== undefined && isSame(kept, same)
}

const entryOf = (request: FastifyRequest, bakeId: number, said: unknown, place: number): Entry => ({
  ...entryIn(said, place),
  ...{ bakeId, userId: viewerOf(request).id },
})

const isSame = (kept: Omit<Entry, "id">, { bakeId, userId, digest }: Omit<Entry, "id">) =>
  kept.bakeId === bakeId && kept.userId === userId && kept.digest === digest

/** Tells everybody who follows this bake, or its bake day, that it changed; they hear of it once the transaction is kept. */
export async function touchBake(db: Db, bakeId: number) {
  const [touched] = await db
    .update(bakes)
    .set({ version: sql`${bakes.version} + 1` })
    .where(eq(bakes.id, bakeId))
    .returning({ version: bakes.version, bakeDayId: bakes.bakeDayId })
  if (touched) await notify(db, { bakeId, ...touched })
}

/** Who logged for the baker: their names in the class, by user and by the number of each form they sent. */
export async function listLoggers(db: Db, bake: { id: number; userId: number; classId: number }) {
  const name = sql<string>`coalesce(${memberships.shownName}, case when ${users.isOwner} then 'the owner' else 'somebody who left' end)`
  const rows = await db
    .select({ id: entries.id, userId: entries.userId, name })
    .from(entries)
    .innerJoin(users, eq(users.id, entries.userId))
    .leftJoin(memberships, and(eq(memberships.classId, bake.classId), eq(memberships.userId, entries.userId)))
    .where(and(eq(entries.bakeId, bake.id), ne(entries.userId, bake.userId)))
  return {
    byUser: new Map(rows.map((row) => [row.userId, row.name])),
    byForm: new Map(rows.map((row) => [row.id, row.name])),
  }
}

/** The number of a form and what it says; a form without a number gets one, and is then not known again. */
function entryIn(fields: unknown, place: number) {
  const { entryId, ...said } = (fields ?? {}) as Record<string, unknown>
  const id = z.uuid().safeParse(entryId)
  const words = JSON.stringify(Object.entries(said).sort(([a], [b]) => (a < b ? -1 : 1)))
  return { id: id.success ? numberAt(id.data.toLowerCase(), place) : randomUUID(), digest: sha256(words) }
}

/** The number of what stands at a place of a form: the form's own for the first, one made from it for each other. */
function numberAt(id: string, place: number) {
  if (place === 0) return id
  const [a, b, c, d, e] = sha256(`${id}/${place}`)
    .match(/^(.{8})(.{4})(.{3})(.{3})(.{12})/)!
    .slice(1)
  return `${a}-${b}-8${c}-8${d}-${e}` // RFC 9562, version 8: made by a rule of one's own
}

const sha256 = (text: string) => createHash("sha256").update(text).digest("hex")

export const saidOtherwise = "This form was sent before with another value; press the button again to add this one."
