import type { FastifyRequest } from "fastify"
import { type ProcessedPhoto, processPhoto, UnreadablePhoto } from "../photos/processing.ts"
import { partsOf } from "../photos/upload.ts"
import { type Look, looks } from "../schema.ts"

/** A form with a picture for each look of a stage, any of which may be left out; read to its end in any case. */
export async function readLooks(request: FastifyRequest) {
  const fields: Record<string, string> = {}
  const files = new Map<Look, Buffer>()
  for await (const part of partsOf(request)) {
    const look = looks.find((one) => one === part.field)
    if ("value" in part) fields[part.field] = part.value
    else if (look) files.set(look, part.bytes)
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
