import type { FastifyRequest } from "fastify"
import { workOut } from "../dough/formula/formula.ts"
import { countsAsNames } from "../dough/ingredients/counts-as.ts"
import { stageKinds } from "../dough/schedule.ts"
import { idOf, viewerOf } from "../web/access.ts"
import type { Form } from "../web/forms.ts"
import type { FormulaContent } from "./content.ts"
import { readFormula, withoutSpareLines } from "./reading.ts"
import { changeRows } from "./rows.ts"
import { byField, type TypedFormula, typedFrom } from "./typed.ts"

type Written = { title: string; content: FormulaContent }
type Edit = { written?: Written; status: number; page: ReturnType<typeof editPage> }

/**
 * What a submitted formula form asks for: something to keep (`written`), or the form again with its status. Adding,
 * removing or moving rows only gives the form again: nothing is kept before Save is pressed.
 */
export function readEdit(request: FastifyRequest): Edit {
  const typed = typedFrom(request.body)
  const { change } = (request.body ?? {}) as { change?: unknown }
  const changed = typeof change === "string" ? changeRows(typed, change) : undefined
  if (changed) return { status: 200, page: editPage(request, changed, { unsaved: true }) }

  const { title, content, errors } = readFormula(typed, viewerOf(request).temperatureUnit)
  const failed = Object.keys(errors).length > 0
  return {
    written: failed ? undefined : { title, content: withoutSpareLines(content) },
    status: 422,
    page: editPage(request, typed, { errors }),
  }
}

export function editPage(
  request: FastifyRequest,
  typed: TypedFormula,
  { errors = {}, unsaved = false }: { errors?: Form["errors"]; unsaved?: boolean } = {},
) {
  const { content } = readFormula(typed, viewerOf(request).temperatureUnit)
  const form: Form = { typed: byField(typed), errors }
  return {
    action: `/formulas${idOf(request) ? `/${idOf(request)}` : ""}`,
    typed,
    form,
    unsaved,
    figures: workOut(content),
    choices,
  }
}

const choices = {
  kinds: stageKinds.map((kind) => [kind, kind] as const),
  countsAs: [["", "by name"], ...Object.entries(countsAsNames)] as const,
  countsAsNames,
}
