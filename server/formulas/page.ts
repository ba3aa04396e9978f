import { isDeepStrictEqual } from "node:util"
import type { FastifyRequest } from "fastify"
import type { DayPlan } from "../dough/day/day.ts"
import { bases } from "../dough/formula/bases.ts"
import { type Figures, workOut } from "../dough/formula/formula.ts"
import { leavenOf } from "../dough/formula/leaven.ts"
import type { Ingredient } from "../dough/ingredients/ingredient.ts"
import { listOwnIngredientsFor } from "../ingredients/queries.ts"
import type { AllergenList } from "../schema.ts"
import { idOf, viewerOf } from "../web/access.ts"
import { found } from "../web/errors.ts"
import { blank, type Form } from "../web/forms.ts"
import { publicUrl } from "../web/public-url.ts"
import { cautionsFor } from "./cautions.ts"
import { asMade, type FormulaContent, wayOf } from "./content.ts"
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
    ...readable(formula.draft, { own: await listOwnIngredientsFor(db, viewerOf(request)), ...asked(request) }),
  }
}

type Reading = { own?: Ingredient[]; variant?: string; massUnit?: "g" | "oz"; list?: AllergenList; plan?: DayPlan }

/** What the views of a formula need beside its words, made in the way of that key; "" is as written. */
export function readable(
  content: FormulaContent,
  { own = [], variant = "", massUnit = "g", list, plan }: Reading = {},
) {
  const made = asMade(content, variant)
  const way = wayOf(content, variant)
  const figures = workOut(made, { measures: made.measures, own, massUnit })
  return {
    content: made,
    figures,
    bases: basesFor(figures),
    cautions: cautionsFor({ ...made, variants: [] }, { own, ...(list ? { list } : {}), ...(plan ? { plan } : {}) }),
    ways: content.variants,
    way: way ?? null,
    asWay: way ? `?variant=${way.key}` : "",
  }
}

/** What each figure is of; inoculation is only spoken of where there is ripe starter. */
function basesFor(figures: Figures): Partial<typeof bases> {
  const { inoculation: _, ...others } = bases
  return ["sourdough", "both"].includes(leavenOf(figures)) ? bases : others
}

/** How whoever asks for a formula reads it: in the way that the link names, and in their own unit. */
export const asked = (request: FastifyRequest) => ({
  variant: variantOf(request),
  massUnit: request.viewer?.massUnit ?? ("g" as const),
})

/** The way that a link to a formula asks for. */
export const variantOf = ({ query }: FastifyRequest) => String((query as { variant?: unknown }).variant ?? "")
