import type { FastifyRequest } from "fastify"
import { withoutNul } from "../web/bodies.ts"
import { maxUploadBytes } from "./processing.ts"

export type Upload = { name: string; bytes: Buffer }
type Fields = Record<string, string>

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
  if (!request.isMultipart()) return { fields, taken, left }
  for await (const part of request.parts(limits)) {
    if (part.type === "field") {
      fields[part.fieldname] = withoutNul(String(part.value))
      continue
    }
    const name = withoutNul(part.filename ?? "")
    const bytes = await part.toBuffer()
    // a browser sends a nameless file of nothing for a field left empty
    if (name === "" && bytes.length === 0) continue
    if (taken.length === mostAtOnce) left.push(name)
    else taken.push(await take({ name, bytes }, fields, taken.length))
  }
  return { fields, taken, left }
}
