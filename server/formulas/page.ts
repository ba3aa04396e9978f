import { isDeepStrictEqual } from "node:util"
import type { FastifyRequest } from "fastify"
import { workOut } from "../dough/formula/formula.ts"
import { idOf } from "../web/access.ts"
import { found } from "../web/errors.ts"
import { blank, type Form } from "../web/forms.ts"
import { publicUrl } from "../web/public-url.ts"
import { cautionsFor } from "./cautions.ts"
import type { FormulaContent } from "./content.ts"
import { findFormula, listRevisions, listStagePictures } from "./queries.ts"

/** The page on which its writer reads a formula, publishes it and adds pictures. */
export async function formulaPage(request: FastifyRequest, form: Form = blank) {
  const { db } = request.server
  const formula = found(await findFormula(db, idOf(request)))
  const revisions = await listRevisions(db, formula.id)
  const latest = revisions[0]
  const same = latest?.title === formula.title && isDeepStrictEqual(latest.content, formula.draft)
  return {
    formula,
    revisions,
    latest,
    differs: !same,
    form,
    openUrl: formula.publicToken && `${publicUrl(request)}/open/${formula.publicToken}`,
    pictures: await listStagePictures(db, formula.id),
    ...readable(formula.draft),
  }
}

/** What the views of a formula need beside its words. */
export const readable = (content: FormulaContent) => ({
  content,
  figures: workOut(content),
  cautions: cautionsFor(content),
})
