import type { FastifyInstance, FastifyRequest } from "fastify"
import { itself } from "../classes/access.ts"
import { readingKinds } from "../schema.ts"
import { idOf, viewerOf } from "../web/access.ts"
import { found, problem } from "../web/errors.ts"
import { readForm, refuse } from "../web/forms.ts"
import { writersOf } from "./access.ts"
import { correctReading } from "./corrections.ts"
import { keep, saidOtherwise } from "./entries.ts"
import { entryForm } from "./forms.ts"
import { benchPage, readerOf } from "./page.ts"
import { stageKeyAt } from "./progress.ts"
import { addReading, findBake, findReading, listMarks } from "./queries.ts"
import { readingForm } from "./reading-form.ts"
import { otherTemperatures, takenWhen } from "./reading-words.ts"

const writers = { config: { access: writersOf(itself) } }

/** What was measured, felt or noted at one moment of a bake. */
export default async function readings(app: FastifyInstance) {
  app.post("/bakes/:id/readings", writers, async (request, reply) => {
    const bake = found(await findBake(app.db, idOf(request)))
    const kind = kindIn(request.body)
    const { values, form } = readForm(readingForm(kind, readerOf(request, bake)), request.body)
    const entry = readForm(entryForm, request.body)
    const refused = async (field: string, message: string) => {
      const again = field ? refuse(form, field, message) : form
      return reply.code(422).view("bakes/show", await benchPage(request, { name: kind, form: again }))
    }
    if (!values) return refused("", "")
    if (!entry.values) return refused("value", entry.form.errors.entryId ?? "")

    const stageKey = stageKeyAt(await listMarks(app.db, bake.id), values.takenAt)
    const reading = { ...values, ...entry.values, bakeId: bake.id, kind, stageKey }
    // a page from the browser's history sends its old number with a new value
    const arrival = await keep(request, bake.id, (tx) => addReading(tx, reading))
    if (arrival === "otherwise") return refused("value", saidOtherwise)
    const tile = otherTemperatures.includes(kind) ? "other" : kind
    return reply.redirect(`/bakes/${bake.id}#reading-${tile}`, 303)
  })

  app.post("/bakes/:id/readings/:reading", writers, async (request, reply) => {
    const bake = found(await findBake(app.db, idOf(request)))
    const reading = await readingIn(request)
    const { id, kind, removedAt } = reading
    if (removedAt) throw problem(404)
    const { values, form } = readForm(readingForm(kind, readerOf(request, bake), takenWhen(reading)), request.body)
    if (!values) return reply.code(422).view("bakes/show", await benchPage(request, { name: `reading-${id}`, form }))
    const stageKey = stageKeyAt(await listMarks(app.db, bake.id), values.takenAt) ?? null
    const change = { ...values, stageKey }
    await keep(request, bake.id, (tx) => correctReading(tx, reading, viewerOf(request).id, change))
    return reply.redirect(`/bakes/${bake.id}#log-${id}`, 303)
  })

  app.post("/bakes/:id/readings/:reading/removal", writers, async (request, reply) => {
    const reading = await readingIn(request)
    const removedAt = reading.removedAt ?? new Date()
    await keep(request, reading.bakeId, (tx) => correctReading(tx, reading, viewerOf(request).id, { removedAt }))
    return reply.redirect(`/bakes/${reading.bakeId}#log-${reading.id}`, 303)
  })

  app.post("/bakes/:id/readings/:reading/restoration", writers, async (request, reply) => {
    const reading = await readingIn(request)
    await keep(request, reading.bakeId, (tx) => correctReading(tx, reading, viewerOf(request).id, { removedAt: null }))
    return reply.redirect(`/bakes/${reading.bakeId}#log-${reading.id}`, 303)
  })
}

function kindIn(body: unknown) {
  const asked = (body as { kind?: unknown } | undefined)?.kind
  const kind = readingKinds.find((one) => one === asked)
  if (!kind) throw problem(400)
  return kind
}

async function readingIn(request: FastifyRequest) {
  const { reading } = request.params as { reading: string }
  const id = /^[1-9]\d{0,8}$/.test(reading) ? Number(reading) : 0
  return found(await findReading(request.server.db, idOf(request), id))
}
