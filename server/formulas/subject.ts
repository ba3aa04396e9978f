import type { FastifyInstance, FastifyRequest } from "fastify"
import type { Ingredient } from "../dough/ingredients/ingredient.ts"
import { listOwnIngredientsFor } from "../ingredients/queries.ts"
import { idOf, viewerOf } from "../web/access.ts"
import { found } from "../web/errors.ts"
import { itsReaders, itsWriter } from "./access.ts"
import type { FormulaContent } from "./content.ts"
import { findFormula, findRevision } from "./queries.ts"

/** The formula that a page outside this folder is about; `own` are the ingredients it may use besides the house's, `url` is its own page. */
export type Subject = { title: string; content: FormulaContent; own: Ingredient[]; url: string }

/** A page about any formula, under that name: about the draft for its writer, about a revision for all who may read it. */
export function addPageAbout(
  app: FastifyInstance,
  name: string,
  { view, page }: { view: string; page: (request: FastifyRequest, subject: Subject) => object | Promise<object> },
) {
  app.get(`/formulas/:id/${name}`, { config: { access: itsWriter } }, async (request, reply) => {
    const { id, title, draft: content } = found(await findFormula(app.db, idOf(request)))
    const own = await listOwnIngredientsFor(app.db, viewerOf(request))
    return reply.view(view, await page(request, { title, content, own, url: `/formulas/${id}` }))
  })

  app.get(`/revisions/:id/${name}`, { config: { access: itsReaders } }, async (request, reply) => {
    const { id, title, content, ownIngredients: own } = found(await findRevision(app.db, idOf(request)))
    return reply.view(view, await page(request, { title, content, own, url: `/revisions/${id}` }))
  })
}
