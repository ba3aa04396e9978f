import { createHash } from "node:crypto"
import { readFileSync } from "node:fs"
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
  "evidence",
  "table",
]

const read = () => sheets.map((name) => readFileSync(new URL(`../../static/${name}.css`, import.meta.url))).join("\n")
const css = read()

/** Where all of them are as one file: on a slow network each request costs as much as its bytes. */
export const sheetUrl = `/assets/sheet.css?v=${createHash("sha256").update(css).digest("hex").slice(0, 12)}`

/** The address changes with what is in the file, so a browser keeps it for good. */
export async function serveSheet(app: FastifyInstance) {
  app.get("/assets/sheet.css", async (_request, reply) => {
    reply.type("text/css; charset=utf-8")
    // where somebody is changing them, loading the page again is enough
    if (process.env.NODE_ENV === "development") return reply.header("cache-control", "no-store").send(read())
    return reply.header("cache-control", "public, max-age=31536000, immutable").send(css)
  })
}
