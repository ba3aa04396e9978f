import { randomUUID } from "node:crypto"
import type { FastifyInstance, FastifyReply, FastifyRequest } from "fastify"
import { keep, saidOtherwise } from "../bakes/entries.ts"
import { benchPage } from "../bakes/page.ts"
import { findBake } from "../bakes/queries.ts"
import { findPhoto } from "../photos/queries.ts"
import { idOf, viewerOf } from "../web/access.ts"
import { found, problem } from "../web/errors.ts"
import { type Form, readForm, refuse } from "../web/forms.ts"
import { askedPhotoIn, itsAskers, itsGiver, itsWishers, wishIn } from "./access.ts"
import { answerForm, wishForm } from "./forms.ts"
import { ask, listWishesOf, removeWish, sayNo, sayYes, type Wish } from "./queries.ts"

/** A student's photo as a picture of a stage: an instructor's wish, and that student's yes, which can be taken back. */
export default async function likeness(app: FastifyInstance) {
  app.post("/bakes/:id/photos/:photo/wishes", { config: { access: itsAskers } }, async (request, reply) => {
    const bake = found(await findBake(app.db, idOf(request)))
    const { id: photoId } = await askedPhotoIn(app.db, request)
    const { values, form } = readForm(wishForm(bake.content.stages.map(({ key }) => key)), request.body)
    const refused = (form: Form) => refuseOnBench(request, reply, `wish-${photoId}`, form)
    if (!values) return refused(form)
    const present = (await listWishesOf(app.db, bake.id)).find(
      (wish) => wish.photoId === photoId && wish.stageKey === values.stageKey,
    )
    if (present?.answer) return refused(refuse(form, "stageKey", alreadyAnswered[present.answer]))

    const wish = { ...values, photoId, formulaId: bake.formulaId, askedBy: viewerOf(request).id }
    const arrival = await keep(request, bake.id, (tx) => ask(tx, wish))
    if (arrival === "otherwise") return refused(refuse(form, "stageKey", saidOtherwise))
    return toPhoto(reply, bake.id, photoId)
  })

  app.post("/bakes/:id/wishes/:wish/answer", { config: { access: itsGiver } }, async (request, reply) => {
    const wish = await wishIn(app.db, request)
    const { values, form } = readForm(answerForm, request.body)
    const refused = (form: Form) => refuseOnBench(request, reply, `answer-${wish.id}`, form)
    if (!values) return refused(form)
    if (values.answer === "no") await removing(request, wish, sayNo)
    else if (values.look !== wish.look) return refused(refuse(form, "answer", "The wish has changed; read it again."))
    else await showCopy(request, wish)
    return toPhoto(reply, wish.bakeId, wish.photoId)
  })

  app.post("/bakes/:id/wishes/:wish/removal", { config: { access: itsWishers } }, async (request, reply) => {
    const wish = await wishIn(app.db, request)
    await removing(request, wish, removeWish)
    return toPhoto(reply, wish.bakeId, wish.photoId)
  })
}

const alreadyAnswered = {
  yes: "It is shown as a picture of this stage already.",
  no: "The baker said no to this stage.",
}

/** The files first: a picture without its row is only waste, and is swept away when the yes turns out to be an old one. */
async function showCopy(request: FastifyRequest, wish: Wish) {
  const { db, photoStore } = request.server
  const copyId = randomUUID()
  if (!(await photoStore.copy(wish.photoId, copyId))) throw problem(404)
  await keep(request, wish.bakeId, (tx) => sayYes(tx, wish, copyId))
  if (!(await findPhoto(db, copyId))) await photoStore.remove(copyId)
}

async function removing(request: FastifyRequest, wish: Wish, remove: typeof sayNo) {
  let copies: string[] = []
  await keep(request, wish.bakeId, async (tx) => {
    copies = await remove(tx, wish)
  })
  for (const id of copies) await request.server.photoStore.remove(id)
}

async function refuseOnBench(request: FastifyRequest, reply: FastifyReply, name: string, form: Form) {
  return reply.code(422).view("bakes/show", await benchPage(request, { name, form }))
}

const toPhoto = (reply: FastifyReply, bakeId: number, photoId: string) =>
  reply.redirect(`/bakes/${bakeId}#photo-${photoId}`, 303)
