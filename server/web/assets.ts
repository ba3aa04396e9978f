import { dirname } from "node:path"
import { fileURLToPath } from "node:url"
import fastifyStatic from "@fastify/static"
import type { FastifyInstance } from "fastify"

const ours = fileURLToPath(new URL("../../static", import.meta.url))
const htmx = dirname(fileURLToPath(import.meta.resolve("htmx.org/dist/htmx.min.js")))
const idbKeyval = dirname(fileURLToPath(import.meta.resolve("idb-keyval")))

/** The stylesheet, scripts and icons of the pages, and htmx and idb-keyval from their own packages. */
export async function serveAssets(app: FastifyInstance) {
  await app.register(fastifyStatic, { root: ours, prefix: "/assets/", maxAge: "1h" })
  await app.register(fastifyStatic, {
    root: htmx,
    prefix: "/htmx/",
    decorateReply: false,
    maxAge: "1d",
    allowedPath: (path) => path === "/htmx.min.js" || path === "/ext/hx-sse.min.js",
  })
  await app.register(fastifyStatic, {
    root: idbKeyval,
    prefix: "/idb-keyval/",
    decorateReply: false,
    maxAge: "1d",
    allowedPath: (path) => path === "/index.js",
  })
}
