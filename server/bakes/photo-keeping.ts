import { createHash, randomUUID } from "node:crypto"
import type { FastifyRequest } from "fastify"
import { type CaptureTime, readCaptureTime } from "../photos/capture-time.ts"
import { type ProcessedPhoto, processPhoto, UnreadablePhoto } from "../photos/processing.ts"
import { addPhoto, type NewPhoto } from "../photos/queries.ts"
import type { Upload } from "../photos/upload.ts"
import { idOf, viewerOf } from "../web/access.ts"
import { ticked } from "../web/forms.ts"
import { type Arrival, keep, wasKept } from "./entries.ts"
import { readerOf } from "./page.ts"
import type { PhotoValues } from "./photo-form.ts"
import { placeOf, takenOf } from "./photo-place.ts"
import { type Bake, listMarks } from "./queries.ts"

type Fields = Record<string, string>
/** A picture of a form: ready to be kept, kept already when the form came before, or not to be used. */
type Picture = { name: string; digest: string } & (
  | { photo: ProcessedPhoto; camera?: CaptureTime }
  | { keptBefore: true }
  | { why: string }
)
/** `why` a file of a form was not kept. */
export type Refusal = { name: string; why: string }

/** Makes a picture ready while its form still arrives. What its camera wrote is read only where that was allowed. */
export const makeReady =
  (request: FastifyRequest) =>
  async ({ name, bytes }: Upload, told: Fields, place: number): Promise<Picture> => {
    const digest = createHash("sha256").update(bytes).digest("hex")
    if (await wasKept(request, idOf(request), { ...told, digest }, place)) return { name, digest, keptBefore: true }
    try {
      const photo = await processPhoto(bytes)
      const camera = ticked.parse(told.cameraTime) ? await readCaptureTime(bytes) : undefined
      return { name, digest, photo, camera }
    } catch (error) {
      if (!(error instanceof UnreadablePhoto)) throw error
      return { name, digest, why: error.message }
    }
  }

/** Keeps each picture of a form as a photo of its own. `unused` counts the cameras' times that were of no use. */
export async function keepPhotos(
  request: FastifyRequest,
  bake: Bake,
  { values, fields }: { values: PhotoValues; fields: Fields },
  pictures: Picture[],
) {
  const reader = readerOf(request, bake)
  const marks = await listMarks(request.server.db, bake.id)
  const refusals: Refusal[] = []
  let unused = 0
  for (const [place, picture] of pictures.entries()) {
    const { name, digest } = picture
    if ("why" in picture) refusals.push({ name, why: picture.why })
    if (!("photo" in picture)) continue
    const { unused: inVain, ...taken } = takenOf(values, picture.camera, reader)
    const told = { ...taken, ...placeOf(values, taken.takenAt, marks, bake.content.stages), forClass: values.forClass }
    const { width, height } = picture.photo
    const photo = { ...told, id: randomUUID(), bakeId: bake.id, userId: viewerOf(request).id, width, height }
    const arrival = await keepPhoto(request, photo, picture.photo, { ...fields, digest }, place)
    if (arrival === "otherwise") refusals.push({ name, why: cameOtherwise })
    if (inVain) unused++
  }
  return { kept: pictures.length - refusals.length, refusals, unused }
}

const cameOtherwise = "Another picture came with this form before; choose this one again."

/** The files first: a row without its picture would be a lie, a picture without its row is only waste. */
async function keepPhoto(
  request: FastifyRequest,
  photo: NewPhoto & { bakeId: number },
  files: ProcessedPhoto,
  said: Fields,
  place: number,
): Promise<Arrival> {
  const { photoStore } = request.server
  await photoStore.keep(photo.id, files)
  const arrival = await keep(request, photo.bakeId, (tx) => addPhoto(tx, photo), said, place)
  if (arrival !== "first") await photoStore.remove(photo.id)
  return arrival
}
