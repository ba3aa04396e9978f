import type { FastifyInstance, FastifyReply, FastifyRequest } from "fastify"
import { sayTo } from "../accounts/say.ts"
import { teachers } from "../classes/access.ts"
import { idOf, viewerOf } from "../web/access.ts"
import { found } from "../web/errors.ts"
import { itsWriter } from "./access.ts"
import { draftedIn } from "./drafted.ts"
import { editPage, readEdit } from "./editing.ts"
import { formulaPage } from "./page.ts"
import picturesOfStages from "./picture-routes.ts"
import publishing from "./publishing-routes.ts"
import { addFormula, findFormula, keepDraft, listFormulas } from "./queries.ts"
import { startingFormula } from "./starting.ts"
import { typedFrom, typedOf, withSpareLines } from "./typed.ts"

const writer = { config: { access: itsWriter } }

export default async function formulas(app: FastifyInstance) {
  app.get("/formulas", { config: { access: teachers } }, async (request, reply) => {
    return reply.view("formulas/index", { formulas: await listFormulas(app.db, viewerOf(request)) })
  })

  app.get("/formulas/new", { config: { access: teachers } }, async (request, reply) => {
    const { temperatureUnit, measures } = viewerOf(request)
    return reply.view("formulas/edit", await editPage(request, startingFormula(temperatureUnit, measures)))
  })

  app.post("/formulas", { config: { access: teachers } }, async (request, reply) => {
    const edit = await readEdit(request)
    if (!edit.written) return reply.code(edit.status).view("formulas/edit", edit.page)
    return reply.redirect(`/formulas/${await addFormula(app.db, viewerOf(request).id, edit.written)}`, 303)
  })

  // of what stands in the form and kept nowhere, so that a formula has figures before it is first saved
  app.post("/formulas/figures", { config: { access: teachers } }, figuresAsTyped)
  app.post("/formulas/:id/figures", writer, figuresAsTyped)

  app.get("/formulas/:id", writer, async (request, reply) => {
    return reply.view("formulas/show", await formulaPage(request))
  })

  app.get("/formulas/:id/edit", writer, async (request, reply) => {
    const { title, draft } = found(await findFormula(app.db, idOf(request)))
    const say = sayTo(viewerOf(request))
    const page = await editPage(request, withSpareLines(typedOf(title, draft, say)))
    return reply.view("formulas/edit", { ...page, drafted: draftedIn(request.query, draft, say) })
  })

  app.post("/formulas/:id", writer, async (request, reply) => {
    const edit = await readEdit(request)
    if (!edit.written) return reply.code(edit.status).view("formulas/edit", edit.page)
    await keepDraft(app.db, idOf(request), edit.written)
    return reply.redirect(`/formulas/${idOf(request)}`, 303)
  })

  app.register(publishing)
  app.register(picturesOfStages)
}

async function figuresAsTyped(request: FastifyRequest, reply: FastifyReply) {
  return reply.view("formulas/figures", await editPage(request, typedFrom(request.body)))
}
