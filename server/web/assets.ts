import { fileURLToPath } from "node:url"
import fastifyStatic from "@fastify/static"
import type { FastifyInstance } from "fastify"

const ours = fileURLToPath(new URL("../../static", import.meta.url))

/** What is in static/, icons above all; pages ask for bundles.ts instead of single stylesheets and scripts. */
export async function serveAssets(app: FastifyInstance) {
  await app.register(fastifyStatic, { root: ours, prefix: "/assets/", maxAge: "1h" })
}
