import type { FastifyInstance, FastifyReply, FastifyRequest } from "fastify"
import { writersOf } from "../bakes/access.ts"
import { keep, saidOtherwise } from "../bakes/entries.ts"
import { benchPage, readerOf } from "../bakes/page.ts"
import { type Bake, findBake, listMarks } from "../bakes/queries.ts"
import { itself } from "../classes/access.ts"
import { changeKinds } from "../schema.ts"
import { idOf, viewerOf } from "../web/access.ts"
import { found, problem } from "../web/errors.ts"
import { type Form, readForm, refuse } from "../web/forms.ts"
import { changeForm } from "./forms.ts"
import { addChange, correctChange, findChange, type KeptChange } from "./queries.ts"

const writers = { config: { access: writersOf(itself) } }

/** What one baker did otherwise than the formula says; the formula itself stays as it is. */
export default async function changes(app: FastifyInstance) {
  app.post("/bakes/:id/changes", writers, async (request, reply) => {
    const bake = found(await findBake(app.db, idOf(request)))
    const kind = kindIn(request.body)
    const { values, form } = await readChange(request, bake, kind)
    const refused = (form: Form) => refusedAs(request, reply, `change-${kind}`, form)
    if (!values) return refused(form)
    const arrival = await keep(request, bake.id, (tx) => addChange(tx, bake.id, kind, values))
    if (arrival === "otherwise") return refused(refuse(form, mainField[kind], saidOtherwise))
    return toChanges(reply, bake)
  })

  app.post("/bakes/:id/changes/:change", writers, async (request, reply) => {
    const bake = found(await findBake(app.db, idOf(request)))
    const change = await changeIn(request)
    const { values, form } = await readChange(request, bake, change.kind, change)
    if (!values) return refusedAs(request, reply, `change-${change.id}`, form)
    await keep(request, bake.id, (tx) => correctChange(tx, change, viewerOf(request).id, values))
    return toChanges(reply, bake)
  })

  app.post("/bakes/:id/changes/:change/removal", writers, async (request, reply) => {
    const change = await changeIn(request)
    const gone = { removedAt: change.removedAt ?? new Date() }
    await keep(request, change.bakeId, (tx) => correctChange(tx, change, viewerOf(request).id, gone))
    return toChanges(reply, { id: change.bakeId })
  })

  app.post("/bakes/:id/changes/:change/restoration", writers, async (request, reply) => {
    const change = await changeIn(request)
    const back = { removedAt: null }
    await keep(request, change.bakeId, (tx) => correctChange(tx, change, viewerOf(request).id, back))
    return toChanges(reply, { id: change.bakeId })
  })

  async function readChange(request: FastifyRequest, bake: Bake, kind: KeptChange["kind"], present?: KeptChange) {
    const marks = await listMarks(app.db, bake.id)
    return readForm(changeForm(kind, { bake, marks, reader: readerOf(request, bake), present }), request.body)
  }
}

/** Beside which field it is said that this form came before with something else in it. */
const mainField: Record<KeptChange["kind"], string> = {
  ...{ "left-out": "of", swapped: "instead", added: "quantity", skipped: "stageKey", oven: "words", other: "words" },
}

function kindIn(body: unknown) {
  const asked = (body as { kind?: unknown } | undefined)?.kind
  const kind = changeKinds.find((one) => one === asked)
  if (!kind) throw problem(400)
  return kind
}

async function changeIn(request: FastifyRequest) {
  const { change } = request.params as { change: string }
  const id = /^[1-9]\d{0,8}$/.test(change) ? Number(change) : 0
  return found(await findChange(request.server.db, idOf(request), id))
}

const toChanges = (reply: FastifyReply, { id }: Pick<Bake, "id">) => reply.redirect(`/bakes/${id}#changes`, 303)

const refusedAs = async (request: FastifyRequest, reply: FastifyReply, name: string, form: Form) =>
  reply.code(422).view("bakes/show", await benchPage(request, { name, form }))
