import type { FastifyInstance } from "fastify"
import { itsReaders, itsWriter } from "../formulas/access.ts"
import { findFormula, findRevision } from "../formulas/queries.ts"
import { listOwnIngredientsFor } from "../ingredients/queries.ts"
import { idOf, viewerOf } from "../web/access.ts"
import { found } from "../web/errors.ts"
import { waterPage } from "./page.ts"

export default async function water(app: FastifyInstance) {
  app.get("/formulas/:id/water", { config: { access: itsWriter } }, async (request, reply) => {
    const { id, title, draft } = found(await findFormula(app.db, idOf(request)))
    const own = await listOwnIngredientsFor(app.db, viewerOf(request))
    return reply.view("water/show", waterPage(request, { title, content: draft, own, url: `/formulas/${id}` }))
  })

  app.get("/revisions/:id/water", { config: { access: itsReaders } }, async (request, reply) => {
    const { id, title, content, ownIngredients } = found(await findRevision(app.db, idOf(request)))
    const url = `/revisions/${id}`
    return reply.view("water/show", waterPage(request, { title, content, own: ownIngredients, url }))
  })
}
