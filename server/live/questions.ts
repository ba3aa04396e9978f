import type { FastifyRequest } from "fastify"
import { sayTo } from "../accounts/say.ts"
import { livingSessions } from "../accounts/sessions.ts"
import { questionsPage } from "../questions/page.ts"
import { staffSomewhere, versionOfTalk } from "../questions/queries.ts"
import { viewerOf } from "../web/access.ts"
import { regionsIn } from "./fragments.ts"
import { hidden, signedOut } from "./standing.ts"
import type { LivePage } from "./stream.ts"

/** The open list of questions, which is everybody's own: of the classes in which they are staff. */
export function liveQuestions(request: FastifyRequest): LivePage {
  const { server: app } = request
  const viewer = viewerOf(request)
  return {
    topic: "every bake",
    lists: [],
    beatsPerLook: 4,
    version: () => versionOfTalk(app.db),
    refusal: async ({ follower }) => {
      if ((await livingSessions(app.db, [follower.sessionId])).length === 0) return signedOut
      return (await staffSomewhere(app.db, viewer)) ? "" : hidden
    },
    look: async () => {
      const page = { ...(await questionsPage(request)), viewer, say: sayTo(viewer), path: "/questions" }
      return regionsIn(await app.view("questions/index", { ...page, openQuestions: page.open.length }))
    },
  }
}
