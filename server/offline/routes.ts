import { readFileSync } from "node:fs"
import type { FastifyInstance } from "fastify"
import { anyone } from "../web/access.ts"
import { manifest } from "./manifest.ts"
import { version } from "./version.ts"

const worker = readFileSync(new URL("../../static/worker.js", import.meta.url), "utf8")
const open = { config: { access: anyone } }

/** What lets a phone install us, and open a bake where there is no network. */
export default async function offline(app: FastifyInstance) {
  // at the root, because a worker serves what lies beside and below its own address
  app.get("/worker.js", open, async (_request, reply) => {
    reply.type("text/javascript; charset=utf-8").header("cache-control", "no-cache")
    return reply.send(worker.replace('"no version"', JSON.stringify(version)))
  })

  app.get("/manifest.webmanifest", open, async (_request, reply) => {
    return reply.type("application/manifest+json").header("cache-control", "no-cache").send(JSON.stringify(manifest))
  })

  app.get("/offline", open, async (_request, reply) => reply.view("offline/show"))
}
