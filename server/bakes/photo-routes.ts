import type { FastifyInstance } from "fastify"
import { itself } from "../classes/access.ts"
import { photoIn } from "../photos/access.ts"
import { changePhoto } from "../photos/queries.ts"
import { mostAtOnce, readUploads } from "../photos/upload.ts"
import { idOf } from "../web/access.ts"
import { found } from "../web/errors.ts"
import { type Form, readForm, refuse } from "../web/forms.ts"
import { writersOf } from "./access.ts"
import { keep, saidOtherwise } from "./entries.ts"
import { benchPage, readerOf } from "./page.ts"
import { photoChangeForm, photoForm } from "./photo-form.ts"
import { keepPhotos, makeReady, type Refusal } from "./photo-keeping.ts"
import { photoScaleForm } from "./photo-scale.ts"
import { findBake } from "./queries.ts"

const writers = { config: { access: writersOf(itself) } }

/** Pictures of a bake; how one is shown, hidden and removed is in photos/routes.ts. */
export default async function photosOfBakes(app: FastifyInstance) {
  app.post("/bakes/:id/photos", writers, async (request, reply) => {
    const bake = found(await findBake(app.db, idOf(request)))
    const { fields, taken, left } = await readUploads(request, makeReady(request))
    const { values, form } = readForm(photoForm(readerOf(request, bake), bake.content.stages), fields)
    const refused = async (form: Form) =>
      reply.code(422).view("bakes/show", await benchPage(request, { name: "photo", form }))
    if (!values) return refused(form)
    if (taken.length === 0) return refused(refuse(form, "photo", "Choose a picture first."))

    const { kept, refusals, unused } = await keepPhotos(request, bake, { values, fields }, taken)
    const all = [...refusals, ...left.map((name) => ({ name, why: tooMany }))]
    if (all.length > 0) return refused(refuse(form, "photo", inWords(kept, all)))
    return reply.redirect(`/bakes/${bake.id}${unused > 0 ? `?camera-unused=${unused}` : ""}#photos`, 303)
  })

  app.post("/bakes/:id/photos/:photo", writers, async (request, reply) => {
    const bake = found(await findBake(app.db, idOf(request)))
    const { id, bakeId } = await photoIn(app.db, request)
    found(bakeId === bake.id ? bake : undefined)
    const { values, form } = readForm(photoChangeForm(bake.content.stages), request.body)
    const refused = async (form: Form) =>
      reply.code(422).view("bakes/show", await benchPage(request, { name: `photo-${id}`, form }))
    if (!values) return refused(form)
    const arrival = await keep(request, bake.id, (tx) => changePhoto(tx, id, values))
    if (arrival === "otherwise") return refused(refuse(form, "subject", saidOtherwise))
    return reply.redirect(`/bakes/${bake.id}#photo-${id}`, 303)
  })

  app.post("/bakes/:id/photos/:photo/scale", writers, async (request, reply) => {
    const bake = found(await findBake(app.db, idOf(request)))
    const { id, bakeId } = await photoIn(app.db, request)
    found(bakeId === bake.id ? bake : undefined)
    const { values, form } = readForm(photoScaleForm, request.body)
    const refused = async (form: Form) =>
      reply.code(422).view("bakes/show", await benchPage(request, { name: `scale-${id}`, form }))
    if (!values) return refused(form)
    const arrival = await keep(request, bake.id, (tx) => changePhoto(tx, id, values))
    if (arrival === "otherwise") return refused(refuse(form, "acrossMm", saidOtherwise))
    return reply.redirect(`/bakes/${bake.id}#photo-${id}`, 303)
  })
}

const tooMany = `At most ${mostAtOnce} pictures come in at once; send it with the next.`

/** "2 kept; breakfast.gif: this is a GIF, …" */
function inWords(kept: number, refusals: Refusal[]) {
  const each = refusals.map(({ name, why }) => `${shortened(name)}: ${why[0]?.toLowerCase()}${why.slice(1)}`)
  return `${kept > 0 ? `${kept} kept; ` : ""}${each.join(" ")}`
}
const shortened = (name: string) => (name.length > 40 ? `${name.slice(0, 25)}…${name.slice(-12)}` : name || "a picture")
