import { randomUUID } from "node:crypto"
import type { FastifyInstance } from "fastify"
import { classes, memberships, type Role, sessions, users } from "../server/schema.ts"
import { Visitor } from "./visitor.ts"

export type Cast = Awaited<ReturnType<typeof gatherCast>>

const names = ["olga", "ana", "cleo", "asta", "ben", "bea", "dan"] as const
const dayMs = 86_400_000

/** The same people in every test; see tests/test.ts for who they are. In few statements, as nearly every test begins here. */
export async function gatherCast(app: FastifyInstance) {
  const { db } = app
  const rows = await db
    .insert(users)
    .values(
      names.map((signInName) => ({
        ...{ signInName, isOwner: signInName === "olga", passwordHash: "none", zone: "Europe/Lisbon" },
      })),
    )
    .returning()
  const signedIn = rows.map(({ id }) => ({
    id: randomUUID(),
    userId: id,
    expiresAt: new Date(Date.now() + 30 * dayMs),
  }))
  await db.insert(sessions).values(signedIn)
  const places = await db
    .insert(classes)
    .values([
      { name: "Thursday bakers", place: "Weavers' Hall", zone: "Europe/Lisbon" },
      { name: "Harbour bakers", place: "Net loft", zone: "UTC" },
    ])
    .returning()
  const [classId, otherClassId] = places.map(({ id }) => id) as [number, number]
  const member = (name: (typeof names)[number], of: number, role: Role) => ({
    ...{ classId: of, userId: rows[names.indexOf(name)]!.id, role },
    shownName: name[0]!.toUpperCase() + name.slice(1),
  })
  await db
    .insert(memberships)
    .values([
      member("ana", classId, "instructor"),
      member("cleo", otherClassId, "instructor"),
      member("asta", classId, "assistant"),
      member("ben", classId, "student"),
      member("bea", classId, "student"),
      member("dan", otherClassId, "student"),
    ])
  const people = Object.fromEntries(
    names.map((name, at) => [name, new Visitor(app, rows[at]!.id, `common_oven=${signedIn[at]!.id}`)]),
  ) as Record<(typeof names)[number], Visitor>
  return { classId, otherClassId, ...people, stranger: new Visitor(app) }
}
