import type { FastifyRequest } from "fastify"
import { lineByItself } from "../dough/formula/formula.ts"
import { countsAsNames } from "../dough/ingredients/counts-as.ts"
import { measureNames } from "../dough/quantity/measures.ts"
import { stageKinds } from "../dough/schedule.ts"
import { listOwnIngredientsFor } from "../ingredients/queries.ts"
import { idOf, viewerOf } from "../web/access.ts"
import type { Form } from "../web/forms.ts"
import { type FormulaContent, problemsOf } from "./content.ts"
import { readable } from "./page.ts"
import { readFormula, withoutSpareLines } from "./reading.ts"
import { changeRows } from "./rows.ts"
import { byField, type TypedFormula, typedFrom, withPastedLines, withTimesOfStages } from "./typed.ts"

type Written = { title: string; content: FormulaContent }
type Edit = { written: Written } | { written?: undefined; status: number; page: Awaited<ReturnType<typeof editPage>> }

/**
 * What a submitted formula form asks for: something to keep (`written`), or the form again with its status. Adding,
 * removing or moving rows only gives the form again: nothing is kept before Save is pressed.
 */
export async function readEdit(request: FastifyRequest): Promise<Edit> {
  const typed = withTimesOfStages(withPastedLines(typedFrom(request.body)))
  const { change } = (request.body ?? {}) as { change?: unknown }
  const changed = typeof change === "string" ? changeRows(typed, change) : undefined
  if (changed) return { status: 200, page: await editPage(request, changed, { unsaved: true }) }

  const { title, content, errors } = readFormula(typed, viewerOf(request).temperatureUnit)
  if (Object.keys(errors).length) return { status: 422, page: await editPage(request, typed, { errors }) }
  return { written: { title, content: withoutSpareLines(content) } }
}

export async function editPage(
  request: FastifyRequest,
  given: TypedFormula,
  { errors = {}, unsaved = false }: { errors?: Form["errors"]; unsaved?: boolean } = {},
) {
  const typed = withTimesOfStages(given)
  const viewer = viewerOf(request)
  const { content } = readFormula(typed, viewer.temperatureUnit)
  const own = await listOwnIngredientsFor(request.server.db, viewer)
  const { figures, bases } = readable(content, { own, massUnit: viewer.massUnit })
  return {
    action: `/formulas${idOf(request) ? `/${idOf(request)}` : ""}`,
    typed,
    form: { typed: byField(typed), errors },
    unsaved,
    figures,
    bases,
    problems: content.variants.map(({ key }) => problemsOf(content, key)),
    swapped: content.variants.map(({ swaps }) =>
      swaps.map(({ lines }) =>
        lines.map((line) => lineByItself(line, figures.flour, { measures: content.measures, own })),
      ),
    ),
    choices,
  }
}

const choices = {
  kinds: stageKinds.map((kind) => [kind, kind] as const),
  countsAs: [["", "by name"], ...Object.entries(countsAsNames)] as const,
  countsAsNames,
  measures: Object.entries(measureNames),
}
