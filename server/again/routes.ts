import type { FastifyInstance } from "fastify"
import { readersOf } from "../bakes/access.ts"
import { itself } from "../classes/access.ts"
import { againPage } from "./page.ts"

/** A second bake against the first. */
export default async function again(app: FastifyInstance) {
  app.get("/bakes/:id/again", { config: { access: readersOf(itself) } }, async (request, reply) => {
    const page = await againPage(request)
    return reply.header("cache-control", "no-store").view(page.than === null ? "again/none" : "again/show", page)
  })
}
