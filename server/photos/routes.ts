import type { FastifyInstance } from "fastify"
import { found } from "../web/errors.ts"
import { ticked } from "../web/forms.ts"
import { itsOwners, itsRemovers, itsViewers, photoIn } from "./access.ts"
import { removePhoto, showToClass } from "./queries.ts"

export default async function photos(app: FastifyInstance) {
  app.get<{ Params: { photo: string; size: string } }>(
    "/photos/:photo/:size",
    { config: { access: itsViewers } },
    async (request, reply) => {
      const { photo, size } = request.params
      const picture = found(size === "small" || size === "large" ? await app.photoStore.open(photo, size) : undefined)
      return reply
        .type("image/jpeg")
        .header("x-content-type-options", "nosniff")
        .header("cache-control", "private, max-age=31536000, immutable")
        .send(picture)
    },
  )

  app.post("/photos/:photo/visibility", { config: { access: itsOwners } }, async (request, reply) => {
    const { id, bakeId } = await photoIn(app.db, request)
    const { forClass } = (request.body ?? {}) as { forClass?: unknown }
    await showToClass(app.db, id, ticked.parse(forClass))
    return reply.redirect(`/bakes/${bakeId}#photos`, 303)
  })

  app.post("/photos/:photo/removal", { config: { access: itsRemovers } }, async (request, reply) => {
    const { id, bakeId } = await photoIn(app.db, request)
    await removePhoto(app.db, id)
    await app.photoStore.remove(id)
    return reply.redirect(`/bakes/${bakeId}#photos`, 303)
  })
}
