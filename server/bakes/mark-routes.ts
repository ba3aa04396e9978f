import type { FastifyInstance, FastifyReply, FastifyRequest } from "fastify"
import { itself } from "../classes/access.ts"
import { idOf } from "../web/access.ts"
import { found } from "../web/errors.ts"
import { blank, readForm, refuse } from "../web/forms.ts"
import { writersOf } from "./access.ts"
import { keep } from "./entries.ts"
import { markForm } from "./forms.ts"
import { benchPage, readerOf } from "./page.ts"
import { type Bake, endStage, findBake, keepMark, listMarks, removeMark, startStage } from "./queries.ts"

const writers = { config: { access: writersOf(itself) } }

/** When the stages of a bake really started and ended. */
export default async function marks(app: FastifyInstance) {
  app.post("/bakes/:id/marks", writers, async (request, reply) => {
    const bake = found(await findBake(app.db, idOf(request)))
    const { stageKey, action } = (request.body ?? {}) as { stageKey?: unknown; action?: unknown }
    if (!hasStage(bake, stageKey) || (action !== "start" && action !== "end")) return refuseStage(request, reply)
    const mark = action === "start" ? startStage : endStage
    const { now } = readerOf(request, bake)
    await keep(request, bake.id, (tx) => mark(tx, bake.id, stageKey, now))
    return reply.redirect(`/bakes/${bake.id}`, 303)
  })

  app.post<{ Params: { stage: string } }>("/bakes/:id/marks/:stage", writers, async (request, reply) => {
    const bake = found(await findBake(app.db, idOf(request)))
    const { stage: stageKey } = request.params
    if (!hasStage(bake, stageKey)) return refuseStage(request, reply)
    const present = (await listMarks(app.db, bake.id)).find((mark) => mark.stageKey === stageKey)
    const { values, form } = readForm(markForm(readerOf(request, bake), present), request.body)
    if (!values) {
      return reply.code(422).view("bakes/show", await benchPage(request, { name: `mark-${stageKey}`, form }))
    }
    const { startedAt, endedAt } = values
    await keep(request, bake.id, (tx) =>
      startedAt ? keepMark(tx, { bakeId: bake.id, stageKey, startedAt, endedAt }) : removeMark(tx, bake.id, stageKey),
    )
    return reply.redirect(`/bakes/${bake.id}#stage-${stageKey}`, 303)
  })
}

const hasStage = (bake: Bake, stageKey: unknown): stageKey is string =>
  bake.content.stages.some(({ key }) => key === stageKey)

async function refuseStage(request: FastifyRequest, reply: FastifyReply) {
  const form = refuse(blank, "stage", "This formula has no such stage; look at the stages below.")
  return reply.code(422).view("bakes/show", await benchPage(request, { name: "stage", form }))
}
