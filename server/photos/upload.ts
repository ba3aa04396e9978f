import type { FastifyRequest } from "fastify"
import { withoutNul } from "../web/bodies.ts"
import { maxUploadBytes } from "./processing.ts"

const oneByteMore = { throwFileSizeLimit: false, limits: { fileSize: maxUploadBytes + 1 } }

/**
 * A form with one file, read to its end, because a part that nobody reads keeps the request open. Without a file, or in a
 * form of another kind, `bytes` is empty; of one that is too large it holds just enough for processPhoto to say so.
 */
export async function readUpload(request: FastifyRequest) {
  const fields: Record<string, string> = {}
  let bytes = Buffer.alloc(0)
  if (!request.isMultipart()) return { fields, bytes }
  for await (const part of request.parts(oneByteMore)) {
    if (part.type === "file") bytes = Buffer.from(await part.toBuffer())
    else fields[part.fieldname] = withoutNul(String(part.value))
  }
  return { fields, bytes }
}
