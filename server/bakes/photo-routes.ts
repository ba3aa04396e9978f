import { randomUUID } from "node:crypto"
import type { FastifyInstance } from "fastify"
import { itself } from "../classes/access.ts"
import { processPhoto, UnreadablePhoto } from "../photos/processing.ts"
import { addPhoto } from "../photos/queries.ts"
import { readUpload } from "../photos/upload.ts"
import { idOf, viewerOf } from "../web/access.ts"
import { found } from "../web/errors.ts"
import { type Form, readForm, refuse } from "../web/forms.ts"
import { writersOf } from "./access.ts"
import { keep } from "./entries.ts"
import { photoForm } from "./forms.ts"
import { benchPage, readerOf } from "./page.ts"
import { findBake } from "./queries.ts"

/** Pictures of a bake; how one is shown, hidden and removed is in photos/routes.ts. */
export default async function photosOfBakes(app: FastifyInstance) {
  app.post("/bakes/:id/photos", { config: { access: writersOf(itself) } }, async (request, reply) => {
    const bake = found(await findBake(app.db, idOf(request)))
    const { fields, bytes } = await readUpload(request)
    const stageKeys = bake.content.stages.map(({ key }) => key)
    const { values, form } = readForm(photoForm(readerOf(request, bake), stageKeys), fields)
    const refused = async (form: Form) =>
      reply.code(422).view("bakes/show", await benchPage(request, { name: "photo", form }))
    if (!values) return refused(form)

    const photo = await processPhoto(bytes).catch(asUnreadable)
    if (photo instanceof UnreadablePhoto) return refused(refuse(form, "photo", photo.message))
    const id = randomUUID()
    // the files first: a row without its picture would be a lie, a picture without its row is only waste
    await app.photoStore.keep(id, photo)
    const { width, height } = photo
    const kept = { ...values, id, bakeId: bake.id, userId: viewerOf(request).id, width, height }
    const arrival = await keep(request, bake.id, (tx) => addPhoto(tx, kept), fields)
    if (arrival !== "first") await app.photoStore.remove(id)
    return reply.redirect(`/bakes/${bake.id}#photos`, 303)
  })
}

function asUnreadable(error: unknown) {
  if (error instanceof UnreadablePhoto) return error
  throw error
}
