import type { FastifyInstance, FastifyReply, FastifyRequest } from "fastify"
import { sessionIdOf } from "../accounts/sessions.ts"
import { classOfBakeDay } from "../bake-days/queries.ts"
import { readersOf } from "../bakes/access.ts"
import { itself, membersOf } from "../classes/access.ts"
import { staff } from "../questions/access.ts"
import { viewerOf } from "../web/access.ts"
import { sendEvents } from "../web/event-stream.ts"
import { liveBench } from "./bench.ts"
import { liveDay } from "./day.ts"
import { liveQuestions } from "./questions.ts"
import { eventsOf, type LivePage } from "./stream.ts"

/** Open pages that follow what happens. A stream is never asked for by HEAD: it would run without a reader. */
export default async function live(app: FastifyInstance) {
  const bench = { config: { access: readersOf(itself) }, exposeHeadRoute: false }
  app.get("/bakes/:id/live", bench, async (request, reply) => follow(request, reply, liveBench(request)))

  const list = { config: { access: staff }, exposeHeadRoute: false }
  app.get("/questions/live", list, async (request, reply) => follow(request, reply, liveQuestions(request)))

  const day = { config: { access: membersOf(classOfBakeDay) }, exposeHeadRoute: false }
  app.get("/bake-days/:id/live", day, async (request, reply) => follow(request, reply, liveDay(request)))
}

function follow(request: FastifyRequest, reply: FastifyReply, page: LivePage) {
  const { since } = request.query as { since?: string | string[] }
  const drawnFrom = String(request.headers["last-event-id"] ?? [since ?? ""].flat().at(-1))
  const follower = { viewer: viewerOf(request), sessionId: sessionIdOf(request) }
  return sendEvents(reply, (signal) => eventsOf(page, { hub: request.server.hub, follower, since: drawnFrom, signal }))
}
