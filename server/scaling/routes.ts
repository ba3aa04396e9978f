import type { FastifyInstance } from "fastify"
import { itsReaders, itsWriter } from "../formulas/access.ts"
import { findFormula, findRevision } from "../formulas/queries.ts"
import { listOwnIngredientsFor } from "../ingredients/queries.ts"
import { idOf, viewerOf } from "../web/access.ts"
import { found } from "../web/errors.ts"
import { scalingPage } from "./page.ts"

export default async function scaling(app: FastifyInstance) {
  app.get("/formulas/:id/scale", { config: { access: itsWriter } }, async (request, reply) => {
    const { id, title, draft } = found(await findFormula(app.db, idOf(request)))
    const own = await listOwnIngredientsFor(app.db, viewerOf(request))
    return reply.view("scaling/show", scalingPage(request, { title, content: draft, own, url: `/formulas/${id}` }))
  })

  app.get("/revisions/:id/scale", { config: { access: itsReaders } }, async (request, reply) => {
    const { id, title, content, ownIngredients } = found(await findRevision(app.db, idOf(request)))
    const url = `/revisions/${id}`
    return reply.view("scaling/show", scalingPage(request, { title, content, own: ownIngredients, url }))
  })
}
