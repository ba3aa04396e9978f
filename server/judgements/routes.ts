import type { FastifyInstance, FastifyRequest } from "fastify"
import { deletersOf, readersOf } from "../bakes/access.ts"
import { keep, saidOtherwise } from "../bakes/entries.ts"
import { itself, membersOf } from "../classes/access.ts"
import { idOf, viewerOf } from "../web/access.ts"
import { found, problem } from "../web/errors.ts"
import { type Form, readForm, refuse } from "../web/forms.ts"
import { pressedAt } from "../web/sender.ts"
import { calibrationPage } from "./calibration-page.ts"
import { judgementForm } from "./forms.ts"
import { judgedBake } from "./judged.ts"
import { modelIn, verdictPage } from "./page.ts"
import { addJudgement, findJudgement, takeBackJudgement } from "./queries.ts"

const readers = { config: { access: readersOf(itself) } }
/** A word on a bread is its baker's, and an instructor's: the same two who may delete it. */
const judges = { config: { access: deletersOf(itself) } }

/** What the facts of a bake say of it, what its baker and the instructors say, and how often the two agreed. */
export default async function judgements(app: FastifyInstance) {
  app.get("/bakes/:id/verdict", readers, async (request, reply) => {
    return reply.header("cache-control", "no-store").view("judgements/verdict", await verdictPage(request))
  })

  app.post("/bakes/:id/judgements", judges, async (request, reply) => {
    const { bake, row } = await judgedBake(app.db, viewerOf(request), idOf(request), pressedAt(request))
    const { values, form } = readForm(judgementForm, request.body)
    const refused = async (form: Form) => reply.code(422).view("judgements/verdict", await verdictPage(request, form))
    if (!values) return refused(form)
    const { id: userId } = viewerOf(request)
    const by = userId === bake.userId ? ("baker" as const) : ("instructor" as const)
    const judgement = { ...values, bakeId: bake.id, userId, by, model: modelIn(row), madeAt: pressedAt(request) }
    const arrival = await keep(request, bake.id, (tx) => addJudgement(tx, judgement))
    if (arrival === "otherwise") return refused(refuse(form, "call", saidOtherwise))
    return reply.redirect(`/bakes/${bake.id}/verdict#judgements`, 303)
  })

  app.post("/bakes/:id/judgements/:judgement/removal", judges, async (request, reply) => {
    const { id, bakeId, userId } = await judgementIn(request)
    if (userId !== viewerOf(request).id) throw problem(403)
    await keep(request, bakeId, (tx) => takeBackJudgement(tx, id))
    return reply.redirect(`/bakes/${bakeId}/verdict#judgements`, 303)
  })

  app.get("/classes/:id/calibration", { config: { access: membersOf(itself) } }, async (request, reply) => {
    return reply.view("judgements/calibration", await calibrationPage(request))
  })
}

async function judgementIn(request: FastifyRequest) {
  const { judgement } = request.params as { judgement: string }
  const id = /^[1-9]\d{0,8}$/.test(judgement) ? Number(judgement) : 0
  return found(await findJudgement(request.server.db, idOf(request), id))
}
