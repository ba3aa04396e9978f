import type { FastifyInstance, FastifyReply, FastifyRequest } from "fastify"
import type { Db } from "../db.ts"
import { problem } from "./errors.ts"
import { isKeptEntry } from "./sender.ts"

/** Who is asking; undefined for somebody who is not signed in. */
export type Viewer = {
  id: number
  signInName: string
  isOwner: boolean
  temperatureUnit: "C" | "F"
  massUnit: "g" | "oz"
  measures: "us" | "us-label" | "metric" | "imperial"
  clock: "24" | "12"
  zone: string
}
export type Ask = { db: Db; viewer: Viewer; id: number; request: FastifyRequest }
/** "hidden": to this person the thing does not exist (404). "no": they may see it, but not do this (403). */
export type Answer = "yes" | "no" | "hidden"
type Allows<Who> = (ask: Who) => Promise<Answer> | Answer
/**
 * Who may call a route. An `open` rule is asked about visitors too; any other sends them to sign in. For a route under
 * /:id the rule gets that id, a whole number from 1; anything else is not found before the rule is asked. Ids that are
 * not numbers are in `request.params`.
 */
export type Rule =
  | { who: string; open?: false; allows: Allows<Ask> }
  | { who: string; open: true; allows: Allows<Omit<Ask, "viewer"> & { viewer: Viewer | undefined }> }

declare module "fastify" {
  interface FastifyContextConfig {
    access?: Rule
  }
  interface FastifyInstance {
    db: Db
  }
  interface FastifyRequest {
    viewer: Viewer | undefined
  }
}

export const anyone: Rule = { who: "anyone", open: true, allows: () => "yes" }
export const signedIn: Rule = { who: "anyone signed in", allows: () => "yes" }
export const theOwner: Rule = { who: "the owner", allows: ({ viewer }) => (viewer.isOwner ? "yes" : "no") }

/** Files that belong to the pages themselves; they are registered by a plugin and open to anyone. */
const assets = /^\/assets\//

/**
 * From here on every route must say who may call it (`config: { access: rule }`): registering one that does not throws,
 * and each request is refused unless its rule says yes.
 */
export function guardRoutes(app: FastifyInstance) {
  app.addHook("onRoute", (route) => {
    if (assets.test(route.url)) route.config = { ...route.config, access: anyone }
    if (!route.config?.access) throw new Error(`${route.method} ${route.url} does not say who may call it.`)
  })
  app.addHook("onRequest", async (request, reply) => {
    const rule = request.routeOptions.config.access
    if (!rule) return // only the page that says "not found"
    const [ask, { viewer }] = [{ db: app.db, id: idOf(request), request }, request]
    if (!rule.open && !viewer) return sendToSignIn(request, reply)
    const answer = rule.open ? await rule.allows({ ...ask, viewer }) : await rule.allows({ ...ask, viewer: viewer! })
    if (answer === "hidden") throw problem(404)
    if (answer === "no") throw problem(403)
  })
}

/** The person asking, on a route that is not open. */
export function viewerOf(request: FastifyRequest): Viewer {
  if (!request.viewer) throw problem(403)
  return request.viewer
}

/** The whole number in /:id, or 0 on a route without one; larger ones would reach PostgreSQL's integer as a 500. */
export function idOf(request: FastifyRequest): number {
  const { id } = request.params as { id?: string }
  if (id === undefined) return 0
  if (!/^[1-9]\d{0,9}$/.test(id) || Number(id) > 2147483647) throw problem(404)
  return Number(id)
}

function sendToSignIn(request: FastifyRequest, reply: FastifyReply) {
  if (isKeptEntry(request)) return reply.code(401).send()
  // fetch would follow a plain redirect, and htmx would look for its piece in the sign-in page
  if (request.headers["hx-request"]) return reply.code(401).header("HX-Redirect", "/sign-in").send()
  const back = request.method === "GET" && request.url !== "/" ? `?next=${encodeURIComponent(request.url)}` : ""
  return reply.redirect(`/sign-in${back}`, 303)
}
