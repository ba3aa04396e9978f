import type { FastifyInstance } from "fastify"
import { writersOf } from "../bakes/access.ts"
import { keep, saidOtherwise } from "../bakes/entries.ts"
import { benchPage } from "../bakes/page.ts"
import { itself } from "../classes/access.ts"
import { idOf, viewerOf } from "../web/access.ts"
import { type Form, readForm, refuse } from "../web/forms.ts"
import { cuesForm } from "./forms.ts"
import { keepCues } from "./queries.ts"

/** What somebody saw, felt and tasted of one dough and its bread, in ticks, and what it was baked in. */
export default async function cues(app: FastifyInstance) {
  app.post("/bakes/:id/cues", { config: { access: writersOf(itself) } }, async (request, reply) => {
    const [id, { id: userId }] = [idOf(request), viewerOf(request)]
    const { values, form } = readForm(cuesForm, request.body)
    const refused = async (form: Form) =>
      reply.code(422).view("bakes/show", await benchPage(request, { name: "cues", form }))
    if (!values) return refused(form)
    const seen = { vessel: values.vessel, cues: values.cue }
    const arrival = await keep(request, id, (tx) => keepCues(tx, id, userId, seen))
    if (arrival === "otherwise") return refused(refuse(form, "cue", saidOtherwise))
    return reply.redirect(`/bakes/${id}#saw`, 303)
  })
}
