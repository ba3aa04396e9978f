import { and, desc, eq, getTableColumns, isNull, sql } from "drizzle-orm"
import type { Db } from "../db.ts"
import { calendarFeeds, plans, users } from "../schema.ts"
import { newToken, tokenHash } from "../web/tokens.ts"
import type { Version } from "./events.ts"

const { passwordHash, madeAt, ...person } = getTableColumns(users)

/** Somebody's private address, while it is not revoked. */
export async function findFeed(db: Db, userId: number) {
  const mine = and(eq(calendarFeeds.userId, userId), isNull(calendarFeeds.revokedAt))
  return db.query.calendarFeeds.findFirst({ where: mine, orderBy: desc(calendarFeeds.id) })
}

/** A private address for somebody; the one they had ends with it. */
export async function makeFeed(db: Db, userId: number) {
  await db.transaction(async (tx) => {
    // so that two that come at once leave one address, not two
    await tx.select({ id: users.id }).from(users).where(eq(users.id, userId)).for("update")
    await revokeFeed(tx, userId)
    await tx.insert(calendarFeeds).values({ userId, token: newToken() })
  })
}

export async function revokeFeed(db: Pick<Db, "update">, userId: number) {
  const mine = and(eq(calendarFeeds.userId, userId), isNull(calendarFeeds.revokedAt))
  await db.update(calendarFeeds).set({ revokedAt: new Date() }).where(mine)
}

/**
 * Whose private address this is. Hashes are compared, not tokens, so that the time it takes says nothing of how much of a
 * guess was right.
 */
export async function findPersonOfFeed(db: Db, token: string) {
  const [row] = await db
    .select(person)
    .from(calendarFeeds)
    .innerJoin(users, eq(users.id, calendarFeeds.userId))
    .where(and(isNull(calendarFeeds.revokedAt), eq(hashOf(calendarFeeds.token), tokenHash(token))))
  return row
}
const hashOf = (token: typeof calendarFeeds.token) => sql<string>`encode(sha256(convert_to(${token}, 'UTF8')), 'hex')`

/**
 * How far a kept plan has moved, counting the move to this digest, in one statement so that two who ask at once count it
 * once; undefined while nobody has kept one.
 */
export async function versionOf(
  db: Db,
  { bakeDayId, userId }: { bakeDayId: number; userId: number },
  digest: string,
  now: Date,
): Promise<Version> {
  const mine = and(eq(plans.bakeDayId, bakeDayId), eq(plans.userId, userId))
  const told = { sequence: plans.sequence, movedAt: plans.movedAt }
  const [kept] = await db
    .select({ ...told, digest: plans.digest })
    .from(plans)
    .where(mine)
  if (!kept || kept.digest === digest) return kept
  const same = sql`${plans.digest} = ${digest}`
  const [moved] = await db
    .update(plans)
    .set({
      digest,
      sequence: sql`case when ${same} then ${plans.sequence} else ${plans.sequence} + 1 end`,
      movedAt: sql`case when ${same} then ${plans.movedAt} else ${now.toISOString()}::timestamptz end`,
    })
    .where(mine)
    .returning(told)
  return moved
}
