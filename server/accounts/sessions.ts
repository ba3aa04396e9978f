import { DrizzlePostgreSQLAdapter } from "@lucia-auth/adapter-drizzle"
import { and, gt, inArray } from "drizzle-orm"
import type { FastifyInstance, FastifyReply, FastifyRequest } from "fastify"
import { Lucia } from "lucia"
import type { Db } from "../db.ts"
import { sessions, users } from "../schema.ts"
import type { Viewer } from "../web/access.ts"

type People = ReturnType<typeof sessionKeeper>

declare module "lucia" {
  interface Register {
    Lucia: People
    UserId: number
    DatabaseUserAttributes: Omit<Viewer, "id">
  }
}
declare module "fastify" {
  interface FastifyInstance {
    people: People
  }
}

/** Sessions live in the database, so any process knows them; the cookie is sent over https alone when `secure`. */
function sessionKeeper(db: Db, secure: boolean) {
  return new Lucia(new DrizzlePostgreSQLAdapter(db, sessions, users), {
    sessionCookie: { name: "common_oven", attributes: { secure, sameSite: "lax" } },
    getUserAttributes: ({ signInName, isOwner, temperatureUnit, massUnit, measures, clock, zone }) => ({
      signInName,
      isOwner,
      temperatureUnit,
      massUnit,
      measures,
      clock,
      zone,
    }),
  })
}

/** Sets `request.viewer` from the session cookie, and renews the cookie when the session was prolonged. */
export function recogniseViewers(app: FastifyInstance, { secure }: { secure: boolean }) {
  app.decorate("people", sessionKeeper(app.db, secure))
  app.decorateRequest("viewer", undefined)
  app.addHook("onRequest", async (request, reply) => {
    const id = app.people.readSessionCookie(request.headers.cookie ?? "")
    if (!id) return
    const { session, user } = await app.people.validateSession(id)
    if (session?.fresh) reply.header("set-cookie", app.people.createSessionCookie(session.id).serialize())
    request.viewer = user ?? undefined
  })
}

/** The session a request came with, whether or not it still lives; "" when it came with none. */
export const sessionIdOf = (request: FastifyRequest) =>
  request.server.people.readSessionCookie(request.headers.cookie ?? "") ?? ""

/** Those of these sessions that have not ended. */
export async function livingSessions(db: Db, ids: string[]) {
  const living = and(inArray(sessions.id, ids), gt(sessions.expiresAt, new Date()))
  return (await db.select({ id: sessions.id }).from(sessions).where(living)).map(({ id }) => id)
}

export async function signIn(app: FastifyInstance, reply: FastifyReply, userId: number) {
  const session = await app.people.createSession(userId, {})
  reply.header("set-cookie", app.people.createSessionCookie(session.id).serialize())
}

export async function signOut(app: FastifyInstance, request: FastifyRequest, reply: FastifyReply) {
  const id = app.people.readSessionCookie(request.headers.cookie ?? "")
  if (id) await app.people.invalidateSession(id)
  reply.header("set-cookie", app.people.createBlankSessionCookie().serialize())
}
