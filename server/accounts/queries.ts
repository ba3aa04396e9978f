import { and, asc, eq, gt, isNotNull, sql } from "drizzle-orm"
import type { Db } from "../db.ts"
import { classes, memberships, oneTimeLinks, sessions, users } from "../schema.ts"
import { newToken, tokenHash } from "../web/tokens.ts"

const dayMs = 24 * 60 * 60 * 1000

export type NewAccount = { signInName: string; passwordHash: string; zone: string; isOwner?: boolean }

export async function isEmpty(db: Db) {
  return (await db.$count(users)) === 0
}

export async function findBySignInName(db: Db, signInName: string) {
  return db.query.users.findFirst({ where: eq(sql`lower(${users.signInName})`, signInName.toLowerCase()) })
}

/** The new account's id, or undefined when the sign-in name is taken. */
export async function addAccount(db: Db, account: NewAccount): Promise<number | undefined> {
  const [row] = await db.insert(users).values(account).onConflictDoNothing().returning({ id: users.id })
  return row?.id
}

/** How long a password link works: over a weekend. Our own choice. */
export const linkDays = 3

/** A link that works once within `days`; only its hash is kept. */
export async function makeLink(
  db: Db,
  link: { purpose: "setup" } | { purpose: "password"; userId: number },
  days: number,
) {
  const token = newToken()
  const expiresAt = new Date(Date.now() + days * dayMs)
  await db.insert(oneTimeLinks).values({ ...link, tokenHash: tokenHash(token), expiresAt })
  return token
}

export async function findLink(db: Db, token: string, purpose: "setup" | "password") {
  const mine = and(eq(oneTimeLinks.tokenHash, tokenHash(token)), eq(oneTimeLinks.purpose, purpose))
  return db.query.oneTimeLinks.findFirst({ where: and(mine, gt(oneTimeLinks.expiresAt, new Date())) })
}

/** Makes the owner's account and ends every setup link. Undefined when another request was quicker. */
export async function makeOwner(db: Db, token: string, account: NewAccount) {
  return db.transaction(async (tx) => {
    const [used] = await tx
      .delete(oneTimeLinks)
      .where(eq(oneTimeLinks.tokenHash, tokenHash(token)))
      .returning()
    if (!used || !(await isEmpty(tx))) return undefined
    await tx.delete(oneTimeLinks).where(eq(oneTimeLinks.purpose, "setup"))
    return addAccount(tx, { ...account, isOwner: true })
  })
}

/** Sets a new password by a link, ends the link and every session of that account. Undefined when the link was used. */
export async function resetPassword(db: Db, token: string, passwordHash: string) {
  return db.transaction(async (tx) => {
    const mine = and(eq(oneTimeLinks.tokenHash, tokenHash(token)), isNotNull(oneTimeLinks.userId))
    const [used] = await tx.delete(oneTimeLinks).where(mine).returning()
    if (!used?.userId) return undefined
    await changePassword(tx, used.userId, passwordHash)
    return used.userId
  })
}

export async function changePassword(db: Db, userId: number, passwordHash: string) {
  await db.update(users).set({ passwordHash }).where(eq(users.id, userId))
  await db.delete(sessions).where(eq(sessions.userId, userId))
}

export async function changePreferences(
  db: Db,
  userId: number,
  preferences: Pick<typeof users.$inferInsert, "temperatureUnit" | "massUnit" | "measures" | "clock" | "zone">,
) {
  await db.update(users).set(preferences).where(eq(users.id, userId))
}

/** Every account with the names of its classes, by sign-in name. */
export async function listAccounts(db: Db) {
  return db
    .select({
      id: users.id,
      signInName: users.signInName,
      isOwner: users.isOwner,
      madeAt: users.madeAt,
      classes: sql<string | null>`string_agg(${classes.name}, ', ' order by ${classes.name})`,
    })
    .from(users)
    .leftJoin(memberships, eq(memberships.userId, users.id))
    .leftJoin(classes, eq(classes.id, memberships.classId))
    .groupBy(users.id)
    .orderBy(asc(users.signInName))
}

export async function findOwner(db: Db) {
  return db.query.users.findFirst({ where: eq(users.isOwner, true) })
}
