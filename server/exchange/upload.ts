import type { FastifyRequest } from "fastify"
import { withoutNul } from "../web/bodies.ts"

/** What a file may have: a page saved from the web with everything written into it. Our own limit. */
export const mostFileMb = 5
const limits = {
  throwFileSizeLimit: false,
  limits: { fileSize: mostFileMb * 1024 ** 2 + 1, fieldSize: 1024 ** 2, files: 1 },
}

export type Given = { fields: Record<string, string>; tooLarge: boolean }

/** The fields of the form, with the words of a file as `pasted` where one was chosen. */
export async function readGiven(request: FastifyRequest): Promise<Given> {
  if (!request.isMultipart()) return { fields: fieldsIn(request.body), tooLarge: false }
  const fields: Record<string, string> = {}
  let tooLarge = false
  for await (const part of request.parts(limits)) {
    if (part.type === "field") fields[part.fieldname] ??= withoutNul(String(part.value))
    else {
      const bytes = await part.toBuffer()
      if (bytes.length > mostFileMb * 1024 ** 2) tooLarge = true
      else if (bytes.length) fields.file = wordsIn(bytes)
    }
  }
  const { file, ...others } = fields
  return { fields: file === undefined ? others : { ...others, pasted: file }, tooLarge }
}

const fieldsIn = (body: unknown) =>
  Object.fromEntries(
    Object.entries((body ?? {}) as Record<string, unknown>).map(([name, value]) => [
      name,
      String([value].flat()[0] ?? ""),
    ]),
  )

/** Files from spreadsheets and old pages are not always UTF-8. */
function wordsIn(bytes: Buffer): string {
  if (bytes[0] === 0xff && bytes[1] === 0xfe) return new TextDecoder("utf-16le").decode(bytes)
  try {
    return new TextDecoder("utf-8", { fatal: true }).decode(bytes)
  } catch (error) {
    if (!(error instanceof TypeError)) throw error
    return new TextDecoder("windows-1252").decode(bytes)
  }
}
