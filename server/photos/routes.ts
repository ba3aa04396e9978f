import type { FastifyInstance } from "fastify"
import { touchBake } from "../bakes/entries.ts"
import { found } from "../web/errors.ts"
import { ticked } from "../web/forms.ts"
import { itsOwners, itsRemovers, itsViewers, photoIn } from "./access.ts"
import { changePhoto, removePhoto } from "./queries.ts"
import { sweepDaily } from "./sweep.ts"

export default async function photos(app: FastifyInstance) {
  app.get<{ Params: { photo: string; size: string } }>(
    "/photos/:photo/:size",
    { config: { access: itsViewers } },
    async (request, reply) => {
      const { photo, size } = request.params
      // what a browser keeps it may show only after asking here, so that a photo that was withdrawn is gone there too
      const tag = `"${photo}-${size}"`
      reply.header("cache-control", "private, no-cache").header("etag", tag)
      if (request.headers["if-none-match"]?.includes(tag)) return reply.code(304).send()

      const picture = found(size === "small" || size === "large" ? await app.photoStore.open(photo, size) : undefined)
      return reply.type("image/jpeg").header("x-content-type-options", "nosniff").send(picture)
    },
  )

  app.post("/photos/:photo/visibility", { config: { access: itsOwners } }, async (request, reply) => {
    const { id, bakeId } = await photoIn(app.db, request)
    const { forClass } = (request.body ?? {}) as { forClass?: unknown }
    await changePhoto(app.db, id, { forClass: ticked.parse(forClass) })
    if (bakeId) await touchBake(app.db, bakeId)
    return reply.redirect(`/bakes/${bakeId}#photos`, 303)
  })

  app.post("/photos/:photo/removal", { config: { access: itsRemovers } }, async (request, reply) => {
    const { id, bakeId } = await photoIn(app.db, request)
    for (const gone of await removePhoto(app.db, id)) await app.photoStore.remove(gone)
    if (bakeId) await touchBake(app.db, bakeId)
    return reply.redirect(`/bakes/${bakeId}#photos`, 303)
  })

  sweepDaily(app)
}
