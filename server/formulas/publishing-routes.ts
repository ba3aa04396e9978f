import type { FastifyInstance, FastifyRequest } from "fastify"
import { z } from "zod"
import { allergiesOfRevision } from "../allergies/page.ts"
import { recipeDataOf } from "../exchange/recipe-data.ts"
import { listOwnIngredientsFor } from "../ingredients/queries.ts"
import type { AllergenList } from "../schema.ts"
import { anyone, idOf, viewerOf } from "../web/access.ts"
import { found } from "../web/errors.ts"
import { maybeWords, readForm, refuse } from "../web/forms.ts"
import { itsReaders, itsWriter, mayEdit } from "./access.ts"
import { asked, formulaPage, readable } from "./page.ts"
import {
  findOpenRevision,
  findRevision,
  listStagePictures,
  makePublicLink,
  publish,
  type Revision,
  takeBackPublicLink,
} from "./queries.ts"
import { notReady } from "./reading.ts"

const writer = { config: { access: itsWriter } }

/** Freezing revisions, and reading them. */
export default async function publishing(app: FastifyInstance) {
  app.post("/formulas/:id/revisions", writer, async (request, reply) => {
    const { formula, latest, differs } = await formulaPage(request)
    const { values, form } = readForm(z.object({ whatChanged: maybeWords(300) }), request.body)
    const whatChanged = values?.whatChanged || (latest ? "" : "First published.")
    const reason = notReady(formula.draft) ?? (differs ? undefined : "Nothing has changed since the latest revision.")
    const refused = reason
      ? refuse(form, "publish", reason)
      : values && !whatChanged
        ? refuse(form, "whatChanged", "Say in a few words what has changed.")
        : form
    if (Object.keys(refused.errors).length)
      return reply.code(422).view("formulas/show", await formulaPage(request, refused))
    await publish(app.db, formula.id, whatChanged, await listOwnIngredientsFor(app.db, viewerOf(request)))
    return reply.redirect(`/formulas/${formula.id}`, 303)
  })

  app.get("/revisions/:id", { config: { access: itsReaders } }, async (request, reply) => {
    const revision = found(await findRevision(app.db, idOf(request)))
    const pictures = await listStagePictures(app.db, revision.formulaId)
    const editable = mayEdit(viewerOf(request), revision)
    const url = `/revisions/${revision.id}`
    const { list, inClasses } = await allergiesOfRevision(app.db, viewerOf(request), revision)
    const recipeData = recipeDataOf(request, revision, url)
    const shown = { revision, url, pictures, editable, inClasses, recipeData, ...readingOf(request, revision, list) }
    return reply.view("formulas/revision", shown)
  })

  app.post("/formulas/:id/public-link", writer, async (request, reply) => {
    await makePublicLink(app.db, idOf(request))
    return reply.redirect(`/formulas/${idOf(request)}`, 303)
  })

  app.post("/formulas/:id/public-link/removal", writer, async (request, reply) => {
    await takeBackPublicLink(app.db, idOf(request))
    return reply.redirect(`/formulas/${idOf(request)}`, 303)
  })

  app.get<{ Params: { token: string } }>("/open/:token", { config: { access: anyone } }, async (request, reply) => {
    const revision = found(await findOpenRevision(app.db, request.params.token))
    const pictures = await listStagePictures(app.db, revision.formulaId)
    const url = `/open/${request.params.token}`
    return reply.view("formulas/revision", {
      revision,
      url,
      pictures,
      editable: false,
      inClasses: [],
      recipeData: recipeDataOf(request, revision, url),
      ...readingOf(request, revision),
    })
  })
}

const readingOf = (request: FastifyRequest, { content, ownIngredients }: Revision, list: AllergenList = "both") =>
  readable(content, { own: ownIngredients, list, ...asked(request) })
