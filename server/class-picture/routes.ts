import type { FastifyInstance } from "fastify"
import { z } from "zod"
import { classOfBakeDay } from "../bake-days/queries.ts"
import { membersOf } from "../classes/access.ts"
import { changeDraft } from "../formulas/queries.ts"
import { readForm, refuse } from "../web/forms.ts"
import { itsFormulasWriter } from "./access.ts"
import { draftWith } from "./drafting.ts"
import { classPage, keyOf, proposedFor } from "./page.ts"

const several = z.preprocess((value) => [value ?? []].flat(), z.array(z.string().max(100)).max(100))
const draftForm = z.object({ take: several })

/** What the bakes of a bake day show together, and the figures of the formula they speak against. */
export default async function classPicture(app: FastifyInstance) {
  app.get("/bake-days/:id/class", { config: { access: membersOf(classOfBakeDay) } }, async (request, reply) => {
    return reply.view("class-picture/show", await classPage(request))
  })

  app.post("/bake-days/:id/class/draft", { config: { access: itsFormulasWriter } }, async (request, reply) => {
    const { values, form } = readForm(draftForm, request.body)
    const { bakeDay, proposals } = await proposedFor(request)
    const taken = proposals.filter((proposal) => values?.take.includes(keyOf(proposal)))
    const done: string[] = []
    await changeDraft(app.db, bakeDay.formulaId, (draft) => {
      const drafted = draftWith(draft, taken, bakeDay.ownIngredients)
      done.push(
        ...drafted.done.flatMap((one) =>
          "stageKeys" in one ? one.stageKeys : "stageKey" in one ? one.stageKey : one.kind,
        ),
      )
      return drafted.content
    })
    if (!done.length) {
      const message = taken.length
        ? "Nothing was drafted: the draft has other figures there by now."
        : "Tick what the next revision should have."
      return reply.code(422).view("class-picture/show", await classPage(request, refuse(form, "take", message)))
    }
    const drafted = new URLSearchParams({ drafted: [...new Set(done)].join(",") })
    return reply.redirect(`/formulas/${bakeDay.formulaId}/edit?${drafted}`, 303)
  })
}
