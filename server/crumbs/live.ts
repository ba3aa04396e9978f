import type { FastifyRequest } from "fastify"
import { sayTo } from "../accounts/say.ts"
import { livingSessions } from "../accounts/sessions.ts"
import { regionsIn } from "../live/fragments.ts"
import { hidden, signedOut } from "../live/standing.ts"
import type { LivePage } from "../live/stream.ts"
import { maySee, photoIn } from "../photos/access.ts"
import { viewerOf } from "../web/access.ts"
import { crumbIn, crumbPage, versionOf } from "./page.ts"
import { findCrumb } from "./queries.ts"

/** The open page of one crumb: its place among those that wait, and then what was measured. */
export async function liveCrumb(request: FastifyRequest): Promise<LivePage> {
  const { server: app } = request
  const viewer = viewerOf(request)
  const { photo, bake } = await crumbIn(request)
  return {
    topic: `bake ${bake.id}`,
    lists: [],
    beatsPerLook: 1,
    version: async () => {
      const crumb = await findCrumb(app.db, photo.id)
      return crumb ? versionOf(crumb) : "gone"
    },
    refusal: async ({ follower }) => {
      if ((await livingSessions(app.db, [follower.sessionId])).length === 0) return signedOut
      const present = await photoIn(app.db, request).catch(() => undefined)
      return present && (await maySee(app.db, viewer, present)) ? "" : hidden
    },
    look: async () => {
      const page = { ...(await crumbPage(request)), viewer, say: sayTo(viewer), path: `/photos/${photo.id}/crumb` }
      return regionsIn(await app.view("crumbs/show", page))
    },
  }
}
