import type { FastifyInstance } from "fastify"
import { listBakesOf } from "../table/queries.ts"
import { bakeDayFor, bakeDaySubject, membersOfDay } from "../table/subjects.ts"
import { viewerOf } from "../web/access.ts"
import { found } from "../web/errors.ts"
import { curvesPage } from "./page.ts"

export default async function curves(app: FastifyInstance) {
  app.get("/bake-days/:id/curves", { config: { access: membersOfDay } }, async (request, reply) => {
    const viewer = viewerOf(request)
    const bakeDay = found(await bakeDayFor(request))
    const subject = found(await bakeDaySubject(request))
    const bakes = await listBakesOf(app.db, subject.scope, { viewer, role: subject.role })
    return reply.view("curves/show", { bakeDay, ...curvesPage(bakes, subject, request.query, viewer, new Date()) })
  })
}
