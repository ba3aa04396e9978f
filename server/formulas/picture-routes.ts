import type { FastifyInstance } from "fastify"
import { idOf, viewerOf } from "../web/access.ts"
import { found } from "../web/errors.ts"
import { itsWriter } from "./access.ts"
import { formulaPage } from "./page.ts"
import { processLooks, readLooks } from "./picture-upload.ts"
import { addStagePicture, findFormula, findStagePicture, removeStagePicture } from "./queries.ts"

const writer = { config: { access: itsWriter } }
type ByPhoto = { Params: { photo: string } }

/** The instructor's pictures of how a stage looks when it is ready, too early and too far. */
export default async function picturesOfStages(app: FastifyInstance) {
  app.post("/formulas/:id/stage-pictures", writer, async (request, reply) => {
    const formulaId = idOf(request)
    const { fields, files } = await readLooks(request)
    const { stageKey = "" } = fields
    const { draft } = found(await findFormula(app.db, formulaId))
    const refused = async (errors: Record<string, string>) =>
      reply.code(422).view("formulas/show", await formulaPage(request, { typed: { stageKey }, errors }))

    if (!draft.stages.some(({ key }) => key === stageKey))
      return refused({ stageKey: "Choose a stage of this formula." })
    if (files.size === 0) return refused({ ready: "Choose at least one picture." })
    const { pictures, errors } = await processLooks(files)
    if (pictures.length < files.size) return refused(errors)

    const userId = viewerOf(request).id
    for (const { look, photo } of pictures)
      await addStagePicture(app.db, app.photoStore, photo, { formulaId, userId, stageKey, look })
    return reply.redirect(`/formulas/${formulaId}#pictures`, 303)
  })

  app.post<ByPhoto>("/formulas/:id/stage-pictures/:photo/removal", writer, async (request, reply) => {
    const picture = found(await findStagePicture(app.db, idOf(request), request.params.photo))
    await removeStagePicture(app.db, app.photoStore, picture)
    return reply.redirect(`/formulas/${idOf(request)}#pictures`, 303)
  })
}
