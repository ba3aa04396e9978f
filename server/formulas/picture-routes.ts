import type { FastifyInstance } from "fastify"
import { processPhoto, UnreadablePhoto } from "../photos/processing.ts"
import { readUpload } from "../photos/upload.ts"
import { idOf, viewerOf } from "../web/access.ts"
import { found } from "../web/errors.ts"
import { blank, refuse } from "../web/forms.ts"
import { itsWriter } from "./access.ts"
import { formulaPage } from "./page.ts"
import { addStagePicture, findFormula, findStagePicture, removeStagePicture } from "./queries.ts"

const writer = { config: { access: itsWriter } }
type ByPhoto = { Params: { photo: string } }

/** The instructor's pictures of how a stage looks when it is done. */
export default async function picturesOfStages(app: FastifyInstance) {
  app.post("/formulas/:id/stage-pictures", writer, async (request, reply) => {
    const { fields, bytes } = await readUpload(request)
    const { stageKey = "" } = fields
    const { draft } = found(await findFormula(app.db, idOf(request)))
    const refused = (field: string, message: string) => refuse({ ...blank, typed: { stageKey } }, field, message)
    if (!draft.stages.some(({ key }) => key === stageKey)) {
      const form = refused("stageKey", "Choose a stage of this formula.")
      return reply.code(422).view("formulas/show", await formulaPage(request, form))
    }
    try {
      const photo = await processPhoto(bytes)
      await addStagePicture(app.db, app.photoStore, photo, {
        formulaId: idOf(request),
        userId: viewerOf(request).id,
        stageKey,
      })
    } catch (error) {
      if (!(error instanceof UnreadablePhoto)) throw error
      return reply.code(422).view("formulas/show", await formulaPage(request, refused("file", error.message)))
    }
    return reply.redirect(`/formulas/${idOf(request)}`, 303)
  })

  app.post<ByPhoto>("/formulas/:id/stage-pictures/:photo/removal", writer, async (request, reply) => {
    const picture = found(await findStagePicture(app.db, idOf(request), request.params.photo))
    await removeStagePicture(app.db, app.photoStore, picture.id)
    return reply.redirect(`/formulas/${idOf(request)}`, 303)
  })
}
