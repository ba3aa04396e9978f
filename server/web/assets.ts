import { dirname } from "node:path"
import { fileURLToPath } from "node:url"
import fastifyStatic from "@fastify/static"
import type { FastifyInstance } from "fastify"

const ours = fileURLToPath(new URL("../../static", import.meta.url))
const idbKeyval = dirname(fileURLToPath(import.meta.resolve("idb-keyval")))

/** What is in static/, icons above all, and idb-keyval from its own package; pages ask for scripts.ts and sheet.ts instead. */
export async function serveAssets(app: FastifyInstance) {
  await app.register(fastifyStatic, { root: ours, prefix: "/assets/", maxAge: "1h" })
  await app.register(fastifyStatic, {
    root: idbKeyval,
    prefix: "/idb-keyval/",
    decorateReply: false,
    maxAge: "1d",
    allowedPath: (path) => path === "/index.js",
  })
}
