import { createHash } from "node:crypto"
import { readFileSync } from "node:fs"
import { fileURLToPath } from "node:url"
import { build, type Plugin } from "esbuild"
import type { FastifyInstance } from "fastify"

/** The modules in static/ import idb-keyval from where a browser finds it, should it load them one by one. */
const idbKeyval: Plugin = {
  name: "idb-keyval",
  setup: ({ onResolve }) =>
    onResolve({ filter: /^\/idb-keyval\// }, () => ({ path: fileURLToPath(import.meta.resolve("idb-keyval")) })),
}

async function bundle() {
  const entry = fileURLToPath(new URL("../../static/scripts.js", import.meta.url))
  const { outputFiles } = await build({
    entryPoints: [entry],
    bundle: true,
    minify: true,
    format: "esm",
    target: "es2022",
    write: false,
    plugins: [idbKeyval],
  })
  return outputFiles[0]!.text
}

// hx-sse has to be there before htmx begins, or the stream silently never opens
const htmx = [import.meta.resolve("htmx.org/dist/htmx.min.js"), import.meta.resolve("htmx.org/dist/ext/hx-sse.min.js")]
  .map((url) => readFileSync(fileURLToPath(url), "utf8"))
  .join("\n;")
const scripts = await bundle()

const addressOf = (name: string, text: string) =>
  `/assets/${name}?v=${createHash("sha256").update(text).digest("hex").slice(0, 12)}`

/** Where htmx with its extension is, and all of our own scripts, each as one file: on a slow network twenty small ones cost a turn each. */
export const htmxUrl = addressOf("htmx.js", htmx)
export const scriptsUrl = addressOf("all.js", scripts)

export async function serveScripts(app: FastifyInstance) {
  app.get("/assets/htmx.js", async (_request, reply) =>
    reply.type("text/javascript; charset=utf-8").header("cache-control", forGood).send(htmx),
  )
  app.get("/assets/all.js", async (_request, reply) => {
    reply.type("text/javascript; charset=utf-8")
    // where somebody is changing them, loading the page again is enough
    if (process.env.NODE_ENV === "development") return reply.header("cache-control", "no-store").send(await bundle())
    return reply.header("cache-control", forGood).send(scripts)
  })
}

const forGood = "public, max-age=31536000, immutable"
