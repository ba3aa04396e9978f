import { parse } from "node:querystring"
import formbody from "@fastify/formbody"
import multipart from "@fastify/multipart"
import type { FastifyInstance } from "fastify"
import { problem } from "./errors.ts"

/** PostgreSQL's text cannot hold NUL, and nobody types it: it is dropped from what a form sends. */
export const withoutNul = (text: string) => text.replaceAll("\0", "")

/** Forms are the only bodies read here, files of at most `fileSize` bytes with them; an address with NUL is nobody's. */
export function readBodies(app: FastifyInstance, { fileSize }: { fileSize: number }) {
  app.removeAllContentTypeParsers()
  app.register(formbody, {
    bodyLimit: 1024 * 1024,
    parser: (body) => parse(body.replaceAll("%00", ""), undefined, undefined, { maxKeys: 10_000 }),
  })
  app.register(multipart, { limits: { files: 1, fileSize, fields: 20, fieldSize: 10_000 } })
  app.addHook("onRequest", async (request) => {
    if (request.url.includes("%00")) throw problem(404)
  })
}
