import type { FastifyInstance, FastifyRequest } from "fastify"
import { sayTo } from "../accounts/say.ts"
import { classOfBakeDay, findBakeDay, findPlan } from "../bake-days/queries.ts"
import { suggestedOnTableAt } from "../bake-days/window.ts"
import { itself, membersOf, roleIn } from "../classes/access.ts"
import { findMember } from "../classes/queries.ts"
import { idOf, viewerOf } from "../web/access.ts"
import { found, problem } from "../web/errors.ts"
import { blank, readForm, refuse } from "../web/forms.ts"
import { deletersOf, readersOf, writersOf } from "./access.ts"
import { keep } from "./entries.ts"
import { kitchenForm, piecesForm, resultForm } from "./forms.ts"
import marks from "./mark-routes.ts"
import { benchPage, readerOf } from "./page.ts"
import photosOfBakes from "./photo-routes.ts"
import {
  abandon,
  deleteBake,
  findBake,
  finish,
  keepKitchen,
  keepPieces,
  keepResult,
  reopen,
  startBake,
} from "./queries.ts"
import readings from "./reading-routes.ts"
import { typedResult } from "./typed.ts"

const readers = { config: { access: readersOf(itself) } }
const writers = { config: { access: writersOf(itself) } }
const deleters = { config: { access: deletersOf(itself) } }

export default async function bakes(app: FastifyInstance) {
  app.post("/bake-days/:id/bakes", { config: { access: membersOf(classOfBakeDay) } }, async (request, reply) => {
    const bakeDay = found(await findBakeDay(app.db, idOf(request)))
    const userId = await bakerIn(request, bakeDay.classId)
    const plan = await findPlan(app.db, bakeDay.id, userId)
    const onTableAt = plan?.onTableAt ?? suggestedOnTableAt(bakeDay, new Date())
    const { id: bakeDayId, revisionId } = bakeDay
    const variant = plan?.variant ?? ""
    const id = await startBake(app.db, { bakeDayId, revisionId, userId, onTableAt, variant })
    return reply.redirect(`/bakes/${id}`, 303)
  })

  app.get("/bakes/:id", readers, async (request, reply) => {
    return reply.header("cache-control", "no-store").view("bakes/show", await benchPage(request))
  })

  app.post("/bakes/:id/result", writers, async (request, reply) => {
    const bake = found(await findBake(app.db, idOf(request)))
    const shown = typedResult(bake, sayTo(viewerOf(request)))
    const { values, form } = readForm(resultForm(readerOf(request, bake), bake, shown), request.body)
    if (!values) return reply.code(422).view("bakes/show", await benchPage(request, { name: "result", form }))
    await keep(request, bake.id, (tx) => keepResult(tx, bake.id, values))
    return reply.redirect(`/bakes/${bake.id}#result`, 303)
  })

  app.post("/bakes/:id/pieces", writers, async (request, reply) => {
    const bake = found(await findBake(app.db, idOf(request)))
    const { values, form } = readForm(piecesForm(readerOf(request, bake), bake), request.body)
    if (!values) return reply.code(422).view("bakes/show", await benchPage(request, { name: "pieces", form }))
    await keep(request, bake.id, (tx) => keepPieces(tx, bake.id, values.pieceMasses))
    return reply.redirect(`/bakes/${bake.id}#pieces`, 303)
  })

  app.post("/bakes/:id/kitchen", writers, async (request, reply) => {
    const { values, form } = readForm(kitchenForm, request.body)
    if (!values) return reply.code(422).view("bakes/show", await benchPage(request, { name: "kitchen", form }))
    await keep(request, idOf(request), (tx) => keepKitchen(tx, idOf(request), values))
    return reply.redirect(`/bakes/${idOf(request)}#kitchen`, 303)
  })

  app.post("/bakes/:id/completion", writers, async (request, reply) => {
    await keep(request, idOf(request), (tx) => finish(tx, idOf(request)))
    return reply.redirect(`/bakes/${idOf(request)}`, 303)
  })

  app.post("/bakes/:id/abandonment", writers, async (request, reply) => {
    await keep(request, idOf(request), (tx) => abandon(tx, idOf(request)))
    return reply.redirect(`/bakes/${idOf(request)}`, 303)
  })

  app.post("/bakes/:id/reopening", writers, async (request, reply) => {
    const bake = found(await findBake(app.db, idOf(request)))
    if (await reopen(app.db, bake)) return reply.redirect(`/bakes/${bake.id}`, 303)
    const form = refuse(
      blank,
      "state",
      "Another bake for this bake day is still open; finish or give up that one first.",
    )
    return reply.code(422).view("bakes/show", await benchPage(request, { name: "state", form }))
  })

  app.get("/bakes/:id/deletion", deleters, async (request, reply) => {
    return reply.view("bakes/deletion", { bake: found(await findBake(app.db, idOf(request))) })
  })

  app.post("/bakes/:id/deletion", deleters, async (request, reply) => {
    const { id, bakeDayId } = found(await findBake(app.db, idOf(request)))
    for (const photoId of await deleteBake(app.db, id)) await app.photoStore.remove(photoId)
    return reply.redirect(`/bake-days/${bakeDayId}`, 303)
  })

  app.register(marks)
  app.register(readings)
  app.register(photosOfBakes)
}

/** Whose bake is being started: the viewer's own or, for an assistant or instructor, that of the member they log for. */
async function bakerIn(request: FastifyRequest, classId: number) {
  const viewer = viewerOf(request)
  const { for: asked } = (request.body ?? {}) as { for?: unknown }
  if (!asked || asked === String(viewer.id)) return viewer.id
  if ((await roleIn(request.server.db, viewer, classId)) === "student") throw problem(403)
  return found(await findMember(request.server.db, classId, Number(asked))).userId
}
