import type { FastifyInstance } from "fastify"
import { openClass } from "../server/classes/queries.ts"
import { memberships, type Role, users } from "../server/schema.ts"
import { Visitor } from "./visitor.ts"

export type Cast = Awaited<ReturnType<typeof gatherCast>>

/** The same people in every test; see tests/test.ts for who they are. */
export async function gatherCast(app: FastifyInstance) {
  const { db } = app
  const account = async (signInName: string, isOwner = false) => {
    const [user] = await db
      .insert(users)
      .values({ signInName, isOwner, passwordHash: "none", zone: "Europe/Lisbon" })
      .returning()
    const session = await app.people.createSession(user!.id, {})
    const visitor = new Visitor(app, user!.id, `common_oven=${session.id}`)
    return { visitor, viewer: user! }
  }
  const olga = await account("olga", true)
  const ana = await account("ana")
  const cleo = await account("cleo")
  const classId = await openClass(db, ana.viewer, {
    name: "Thursday bakers",
    place: "Weavers' Hall",
    zone: "Europe/Lisbon",
    shownName: "Ana",
  })
  const otherClassId = await openClass(db, cleo.viewer, {
    name: "Harbour bakers",
    place: "Net loft",
    zone: "UTC",
    shownName: "Cleo",
  })

  const member = async (signInName: string, of: number, role: Role) => {
    const { visitor } = await account(signInName)
    await db
      .insert(memberships)
      .values({ classId: of, userId: visitor.id, role, shownName: signInName[0]!.toUpperCase() + signInName.slice(1) })
    return visitor
  }
  return {
    classId,
    otherClassId,
    olga: olga.visitor,
    ana: ana.visitor,
    cleo: cleo.visitor,
    asta: await member("asta", classId, "assistant"),
    ben: await member("ben", classId, "student"),
    bea: await member("bea", classId, "student"),
    dan: await member("dan", otherClassId, "student"),
    stranger: new Visitor(app),
  }
}
