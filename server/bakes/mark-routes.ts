import type { FastifyInstance, FastifyReply, FastifyRequest } from "fastify"
import { z } from "zod"
import { itself } from "../classes/access.ts"
import { idOf, viewerOf } from "../web/access.ts"
import { found } from "../web/errors.ts"
import { blank, type Form, readForm, refuse } from "../web/forms.ts"
import { writersOf } from "./access.ts"
import { assignStages, correctMark, putBackMark } from "./corrections.ts"
import { keep } from "./entries.ts"
import { whenField } from "./forms.ts"
import { markForm } from "./mark-form.ts"
import { benchPage, readerOf } from "./page.ts"
import { type Bake, endStage, findBake, listMarks, resumeStage, startStage } from "./queries.ts"
import type { When } from "./when.ts"

const writers = { config: { access: writersOf(itself) } }
type OfStage = { Params: { stage: string } }

/** When the stages of a bake really started, paused and ended. */
export default async function marks(app: FastifyInstance) {
  app.post("/bakes/:id/marks", writers, async (request, reply) => {
    const bake = found(await findBake(app.db, idOf(request)))
    const { stageKey, action } = (request.body ?? {}) as { stageKey?: unknown; action?: unknown }
    if (!hasStage(bake, stageKey) || !isAction(action)) return refuseStage(request, reply)
    const { values, form } = await readMoment(request, bake, stageKey, action)
    if (!values) return refused(request, reply, `${action}-${stageKey}`, form)
    await keep(request, bake.id, async (tx) => {
      await taps[action](tx, { bakeId: bake.id, stageKey, when: values.at, by: viewerOf(request).id })
      await assignStages(tx, bake.id)
    })
    return reply.redirect(`/bakes/${bake.id}`, 303)
  })

  app.post<OfStage>("/bakes/:id/marks/:stage", writers, async (request, reply) => {
    const bake = found(await findBake(app.db, idOf(request)))
    const { stage: stageKey } = request.params
    if (!hasStage(bake, stageKey)) return refuseStage(request, reply)
    const { values, form } = readForm(markForm(readerOf(request, bake), await findMark(bake, stageKey)), request.body)
    if (values === undefined) return refused(request, reply, `mark-${stageKey}`, form)
    const place = { bakeId: bake.id, stageKey, userId: viewerOf(request).id }
    await keep(request, bake.id, async (tx) => {
      await correctMark(tx, place, values)
      await assignStages(tx, bake.id)
    })
    return reply.redirect(`/bakes/${bake.id}#stage-${stageKey}`, 303)
  })

  app.post<OfStage>("/bakes/:id/marks/:stage/restoration", writers, async (request, reply) => {
    const bake = found(await findBake(app.db, idOf(request)))
    const { stage: stageKey } = request.params
    if (!hasStage(bake, stageKey)) return refuseStage(request, reply)
    const place = { bakeId: bake.id, stageKey, userId: viewerOf(request).id }
    await keep(request, bake.id, async (tx) => {
      await putBackMark(tx, place)
      await assignStages(tx, bake.id)
    })
    return reply.redirect(`/bakes/${bake.id}#stage-${stageKey}`, 303)
  })

  const findMark = async ({ id }: Bake, stageKey: string) =>
    (await listMarks(app.db, id)).find((mark) => mark.stageKey === stageKey)

  /** Now, or the moment somebody gives who comes to the phone later. */
  async function readMoment(request: FastifyRequest, bake: Bake, stageKey: string, action: Action) {
    const reader = readerOf(request, bake)
    const now: When = { at: reader.now, aboutMin: null, typed: "" }
    const moment = z.object({ at: whenField(reader).transform((when) => when ?? now) })
    const { values, form } = readForm(moment, request.body)
    const mark = await findMark(bake, stageKey)
    const earliest = action === "end" ? mark?.startedAt : action === "resume" ? mark?.endedAt : undefined
    if (!values?.at.typed || !earliest || values.at.at >= earliest) return { values, form }
    return { form: refuse(form, "at", action === "end" ? "That is before it started." : "That is before it ended.") }
  }
}

const taps = { start: startStage, end: endStage, resume: resumeStage }
type Action = keyof typeof taps
const isAction = (action: unknown): action is Action => typeof action === "string" && Object.hasOwn(taps, action)

const hasStage = (bake: Bake, stageKey: unknown): stageKey is string =>
  bake.content.stages.some(({ key }) => key === stageKey)

function refuseStage(request: FastifyRequest, reply: FastifyReply) {
  const form = refuse(blank, "stage", "This formula has no such stage; look at the stages below.")
  return refused(request, reply, "stage", form)
}

const refused = async (request: FastifyRequest, reply: FastifyReply, name: string, form: Form) =>
  reply.code(422).view("bakes/show", await benchPage(request, { name, form }))
