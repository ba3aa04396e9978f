import { randomUUID } from "node:crypto"
import type { FastifyInstance } from "fastify"
import { listCurrent } from "../bake-days/queries.ts"
import { listOwnUnfinished } from "../bakes/queries.ts"
import { listClasses } from "../classes/queries.ts"
import { notesFor } from "../follow-up/notes.ts"
import { listWishesFor } from "../likeness/queries.ts"
import { listReviewsOut } from "../reviews/queries.ts"
import { signedIn, viewerOf } from "../web/access.ts"
import { dayOf } from "../web/zones.ts"

/** The front page: what somebody can do now. */
export default async function now(app: FastifyInstance) {
  app.get("/", { config: { access: signedIn } }, async (request, reply) => {
    const viewer = viewerOf(request)
    const today = dayOf(new Date(), viewer.zone)
    return reply.view("now/show", {
      bakes: await listOwnUnfinished(app.db, viewer.id),
      reminders: await notesFor(app.db, viewer),
      wishes: await listWishesFor(app.db, viewer.id),
      reviews: await listReviewsOut(app.db, { userId: viewer.id, since: new Date(Date.now() - newsMs) }),
      newEntryId: () => randomUUID(),
      bakeDays: await listCurrent(app.db, viewer, today),
      classes: await listClasses(app.db, viewer),
    })
  })
}

// A review is news for three weeks; afterwards its class and its bake day still say it.
const newsMs = 21 * 24 * 60 * 60_000
