import { and, asc, eq, isNotNull, isNull, ne } from "drizzle-orm"
import { addAccount, type NewAccount } from "../accounts/queries.ts"
import type { Db } from "../db.ts"
import { type AllergenList, type Allergies, classes, invitations, memberships, type Role, users } from "../schema.ts"
import type { Viewer } from "../web/access.ts"
import { newToken } from "../web/tokens.ts"

export type NewClass = { name: string; place: string; zone: string; allergenList?: AllergenList; shownName: string }

/** The classes somebody is in, with their role; the owner sees all. */
export async function listClasses(db: Db, viewer: Viewer) {
  const mine = and(eq(memberships.classId, classes.id), eq(memberships.userId, viewer.id))
  return db
    .select({ id: classes.id, name: classes.name, place: classes.place, zone: classes.zone, role: memberships.role })
    .from(classes)
    .leftJoin(memberships, mine)
    .where(viewer.isOwner ? undefined : isNotNull(memberships.role))
    .orderBy(asc(classes.name))
}

/** The classes that somebody teaches. */
export async function listTaught(db: Db, viewer: Viewer) {
  return (await listClasses(db, viewer)).filter((row) => viewer.isOwner || row.role === "instructor")
}

export async function findClass(db: Db, id: number) {
  return db.query.classes.findFirst({ where: eq(classes.id, id) })
}

/** Opens a class whose first instructor is the one who opens it. */
export async function openClass(db: Db, viewer: Viewer, { shownName, ...values }: NewClass) {
  return db.transaction(async (tx) => {
    const [row] = await tx.insert(classes).values(values).returning({ id: classes.id })
    await tx.insert(memberships).values({ classId: row!.id, userId: viewer.id, role: "instructor", shownName })
    return row!.id
  })
}

export async function changeClass(db: Db, id: number, values: Omit<NewClass, "shownName">) {
  await db.update(classes).set(values).where(eq(classes.id, id))
}

export async function listPeople(db: Db, classId: number) {
  return db
    .select({
      userId: memberships.userId,
      role: memberships.role,
      shownName: memberships.shownName,
      joinedAt: memberships.joinedAt,
      signInName: users.signInName,
      isOwner: users.isOwner,
      zone: users.zone,
    })
    .from(memberships)
    .innerJoin(users, eq(users.id, memberships.userId))
    .where(eq(memberships.classId, classId))
    .orderBy(asc(memberships.shownName))
}

export async function findMember(db: Db, classId: number, userId: number) {
  return (await listPeople(db, classId)).find((person) => person.userId === userId)
}

export async function changeRole(db: Db, classId: number, userId: number, role: Role) {
  await db
    .update(memberships)
    .set({ role })
    .where(and(eq(memberships.classId, classId), eq(memberships.userId, userId)))
}

/** Takes somebody out of a class; their bakes stay on its tables. */
export async function leave(db: Db, classId: number, userId: number) {
  await db.delete(memberships).where(and(eq(memberships.classId, classId), eq(memberships.userId, userId)))
}

/** False when somebody else in the class already has that name. */
export async function renameMember(db: Db, classId: number, userId: number, shownName: string) {
  const others = await listPeople(db, classId)
  if (others.some((other) => other.userId !== userId && sameName(other.shownName, shownName))) return false
  await db
    .update(memberships)
    .set({ shownName })
    .where(and(eq(memberships.classId, classId), eq(memberships.userId, userId)))
  return true
}

const sameName = (one: string, other: string) => one.toLowerCase() === other.toLowerCase()

export async function listInvitations(db: Db, classId: number) {
  const live = and(eq(invitations.classId, classId), isNull(invitations.revokedAt))
  return db.query.invitations.findMany({ where: live, orderBy: asc(invitations.id) })
}

export async function invite(db: Db, classId: number, role: Role) {
  await db.insert(invitations).values({ classId, role, token: newToken() })
}

export async function findInvitation(db: Db, id: number) {
  return db.query.invitations.findFirst({ where: eq(invitations.id, id) })
}

export async function revokeInvitation(db: Db, id: number) {
  await db
    .update(invitations)
    .set({ revokedAt: new Date() })
    .where(and(eq(invitations.id, id), isNull(invitations.revokedAt)))
}

/** The invitation and its class, while nobody has revoked it. */
export async function openInvitation(db: Db, token: string) {
  const [row] = await db
    .select({
      id: invitations.id,
      role: invitations.role,
      classId: classes.id,
      name: classes.name,
      place: classes.place,
      zone: classes.zone,
    })
    .from(invitations)
    .innerJoin(classes, eq(classes.id, invitations.classId))
    .where(and(eq(invitations.token, token), isNull(invitations.revokedAt)))
  return row
}

/** "taken" when somebody else in the class has that name; joining twice changes nothing. */
export async function join(
  db: Db,
  classId: number,
  userId: number,
  role: Role,
  { shownName, allergies }: { shownName: string; allergies?: Allergies | undefined },
): Promise<"joined" | "taken"> {
  if (await findMember(db, classId, userId)) return "joined"
  const [row] = await db
    .insert(memberships)
    .values({ classId, userId, role, shownName, ...(allergies ? { allergies } : {}) })
    .onConflictDoNothing()
    .returning()
  return row ? "joined" : "taken"
}

/** An account and its place in the class together, or the field whose name is taken. */
export async function joinAsNew(
  db: Db,
  account: NewAccount,
  { allergies, ...place }: { classId: number; role: Role; shownName: string; allergies?: Allergies | undefined },
) {
  if ((await listPeople(db, place.classId)).some((other) => sameName(other.shownName, place.shownName)))
    return { taken: "shownName" }
  return db.transaction(async (tx) => {
    const userId = await addAccount(tx, account)
    if (userId === undefined) return { taken: "signInName" }
    await tx.insert(memberships).values({ ...place, userId, ...(allergies ? { allergies } : {}) })
    return { userId }
  })
}

export async function teachesAlone(db: Db, classId: number, userId: number) {
  const others = and(
    eq(memberships.classId, classId),
    eq(memberships.role, "instructor"),
    ne(memberships.userId, userId),
  )
  return (await db.$count(memberships, others)) === 0
}
