import { and, eq } from "drizzle-orm"
import type { Db } from "../db.ts"
import { memberships, type Role } from "../schema.ts"
import type { Ask, Rule, Viewer } from "../web/access.ts"

/** What somebody is in a class; the owner teaches every class, strangers are undefined. */
export async function roleIn(db: Db, viewer: Viewer, classId: number): Promise<Role | undefined> {
  if (viewer.isOwner) return "instructor"
  const mine = and(eq(memberships.classId, classId), eq(memberships.userId, viewer.id))
  return (await db.query.memberships.findFirst({ where: mine, columns: { role: true } }))?.role
}

/** Whether somebody teaches any class, and so may write formulas and open classes. */
export async function teachesSomewhere(db: Db, viewer: Pick<Viewer, "id" | "isOwner">) {
  if (viewer.isOwner) return true
  const teaching = and(eq(memberships.userId, viewer.id), eq(memberships.role, "instructor"))
  return (await db.query.memberships.findFirst({ where: teaching, columns: { role: true } })) !== undefined
}

export const teachers: Rule = {
  who: "the owner, and instructors of any class",
  allows: async ({ db, viewer }) => ((await teachesSomewhere(db, viewer)) ? "yes" : "no"),
}

/** Finds the class that a route's :id belongs to; undefined when there is no such thing. */
export type ClassOf = (db: Db, id: number) => Promise<number | undefined>
export const itself: ClassOf = async (_db, id) => id

export const membersOf = (classOf: ClassOf) =>
  rule("members of the class", classOf, ["student", "assistant", "instructor"])
export const staffOf = (classOf: ClassOf) =>
  rule("assistants and instructors of the class", classOf, ["assistant", "instructor"])
export const instructorsOf = (classOf: ClassOf) => rule("instructors of the class", classOf, ["instructor"])

function rule(who: string, classOf: ClassOf, may: Role[]): Rule {
  return {
    who,
    allows: async ({ db, viewer, id }: Ask) => {
      const classId = await classOf(db, id)
      const role = classId === undefined ? undefined : await roleIn(db, viewer, classId)
      if (!role) return "hidden"
      return may.includes(role) ? "yes" : "no"
    },
  }
}
