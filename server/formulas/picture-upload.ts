import type { FastifyRequest } from "fastify"
import { maxUploadBytes, type ProcessedPhoto, processPhoto, UnreadablePhoto } from "../photos/processing.ts"
import { type Look, looks } from "../schema.ts"
import { withoutNul } from "../web/bodies.ts"

// one byte more than may be, so that processPhoto says what is wrong instead of the parser
const onePerLook = { throwFileSizeLimit: false, limits: { fileSize: maxUploadBytes + 1, files: looks.length } }

/** A form with a picture for each look of a stage, any of which may be left out; read to its end in any case. */
export async function readLooks(request: FastifyRequest) {
  const fields: Record<string, string> = {}
  const files = new Map<Look, Buffer>()
  if (!request.isMultipart()) return { fields, files }
  for await (const part of request.parts(onePerLook)) {
    if (part.type === "field") {
      fields[part.fieldname] = withoutNul(String(part.value))
      continue
    }
    const bytes = await part.toBuffer()
    const look = looks.find((one) => one === part.fieldname)
    // a browser sends a nameless file of nothing for a field left empty
    if (look && (part.filename || bytes.length)) files.set(look, Buffer.from(bytes))
  }
  return { fields, files }
}

/** Each picture made ready to be kept, and beside each that cannot be used why. */
export async function processLooks(files: Map<Look, Buffer>) {
  const pictures: { look: Look; photo: ProcessedPhoto }[] = []
  const errors: Partial<Record<Look, string>> = {}
  for (const [look, bytes] of files) {
    try {
      pictures.push({ look, photo: await processPhoto(bytes) })
    } catch (error) {
      if (!(error instanceof UnreadablePhoto)) throw error
      errors[look] = error.message
    }
  }
  return { pictures, errors }
}
