import { createHash } from "node:crypto"
import { readFileSync } from "node:fs"
import { fileURLToPath } from "node:url"
import { build } from "esbuild"
import type { FastifyInstance } from "fastify"

/** The stylesheets in static/, one a feature, in the order in which later ones win. */
const sheets = [
  "oven",
  "forms",
  "schedule",
  "formulas",
  "water",
  "scaling",
  "bench",
  "estimate",
  "keeping",
  "live",
  "photos",
  "questions",
  "changes",
  "likeness",
  "drawings",
  "allergies",
  "glossary",
]
/** Those of pages that lay bakes side by side: the bench, which is loaded over slow networks, does without them. */
const sideBySideSheets = [
  "evidence",
  "plots",
  "curves",
  "table",
  "wall",
  "compare",
  "follow-up",
  "export",
  "again",
  "reviews",
  "review-wall",
  "review-desk",
  "verdict",
  "class-picture",
  "levain",
  "kitchen",
  "plan",
  "calendar",
  "paper",
  "exchange",
  "bill",
  "crumbs",
]
const inStatic = (name: string) => import.meta.resolve(`../../static/${name}`)
const joined = (urls: string[], between: string) =>
  urls.map((url) => readFileSync(fileURLToPath(url), "utf8")).join(between)

const readSheets = (names: string[]) => async () =>
  joined(
    names.map((name) => inStatic(`${name}.css`)),
    "\n",
  )

// hx-sse has to be there before htmx begins, or the stream silently never opens
const htmxFiles = [
  import.meta.resolve("htmx.org/dist/htmx.min.js"),
  import.meta.resolve("htmx.org/dist/ext/hx-sse.min.js"),
]
const readHtmx = async () => joined(htmxFiles, "\n;")

async function readScripts() {
  const entryPoints = [fileURLToPath(inStatic("scripts.js"))]
  const options = { bundle: true, minify: true, format: "esm", target: "es2022", write: false } as const
  const { outputFiles } = await build({ ...options, entryPoints })
  return outputFiles[0]!.text
}

const javascript = "text/javascript; charset=utf-8"
const css = "text/css; charset=utf-8"
const [sheet, sideBySide, htmx, scripts] = await Promise.all([
  bundleOf("sheet.css", css, readSheets(sheets)),
  bundleOf("side-by-side.css", css, readSheets(sideBySideSheets)),
  bundleOf("htmx.js", javascript, readHtmx),
  bundleOf("all.js", javascript, readScripts),
])

async function bundleOf(name: string, type: string, read: () => Promise<string>) {
  const text = await read()
  const version = createHash("sha256").update(text).digest("hex").slice(0, 12)
  const path = `/assets/${name}`
  return { path, type, read, text, url: `${path}?v=${version}` }
}

/** Where a page finds all stylesheets, htmx with its extension, and all of our scripts, each as one file: on a slow network every request costs as much as its bytes. */
export const bundleUrls = {
  sheetUrl: sheet.url,
  sideBySideUrl: sideBySide.url,
  htmxUrl: htmx.url,
  scriptsUrl: scripts.url,
}

/** An address changes with what is in the file, so a browser keeps it for good. */
export async function serveBundles(app: FastifyInstance) {
  for (const { path, type, read, text } of [sheet, sideBySide, htmx, scripts]) {
    app.get(path, async (_request, reply) => {
      reply.type(type)
      // where somebody is changing them, loading the page again is enough
      if (process.env.NODE_ENV === "development") return reply.header("cache-control", "no-store").send(await read())
      return reply.header("cache-control", "public, max-age=31536000, immutable").send(text)
    })
  }
}
