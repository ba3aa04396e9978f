import type { FastifyRequest } from "fastify"
import { withoutNul } from "../web/bodies.ts"
import { problem } from "../web/errors.ts"
import { maxUploadBytes } from "./processing.ts"

export type Upload = { name: string; bytes: Buffer }
type Fields = Record<string, string>
type Part = { field: string; value: string } | ({ field: string } & Upload)

export const mostAtOnce = 12

// One byte more than may be, so that processPhoto says what is wrong instead of the parser; and more files than may be,
// because a form has inputs that stay empty, and who sends too many is told which.
const limits = { throwFileSizeLimit: false, limits: { fileSize: maxUploadBytes + 1, files: 40 } }

/**
 * A form with files, read to its end, because a part that nobody reads keeps the request open. Each file is given to `take`
 * as it arrives, with the fields that stood before it, and the next is read when that is done, so that one at a time is
 * in memory. `left` are the names of those beyond `mostAtOnce`. In a form of another kind there is nothing.
 */
export async function readUploads<Taken>(
  request: FastifyRequest,
  take: (upload: Upload, fields: Fields, place: number) => Promise<Taken>,
) {
  const fields: Fields = {}
  const taken: Taken[] = []
  const left: string[] = []
  for await (const part of partsOf(request)) {
    if ("value" in part) fields[part.field] = part.value
    else if (taken.length === mostAtOnce) left.push(part.name)
    else taken.push(await take(part, fields, taken.length))
  }
  return { fields, taken, left }
}

/** The parts of a form as they arrive, each file whole; fields for files that were left empty are none. */
export async function* partsOf(request: FastifyRequest): AsyncGenerator<Part> {
  if (!request.isMultipart()) return
  try {
    for await (const part of request.parts(limits)) {
      const field = part.fieldname
      if (part.type === "field") yield { field, value: withoutNul(String(part.value)) }
      else {
        const [name, bytes] = [withoutNul(part.filename ?? ""), await part.toBuffer()]
        // a browser sends a nameless file of nothing for a field left empty
        if (name !== "" || bytes.length > 0) yield { field, name, bytes }
      }
    }
  } catch (error) {
    // the parser's words for a form that was cut off or never was one
    const broken = error instanceof Error && /end of multipart|boundary not found|malformed/i.test(error.message)
    throw broken ? problem(400) : error
  }
}
