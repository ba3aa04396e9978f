import type { FastifyInstance } from "fastify"
import { itself, membersOf } from "../classes/access.ts"
import { idOf, viewerOf } from "../web/access.ts"
import { found } from "../web/errors.ts"
import { readForm } from "../web/forms.ts"
import { allergiesForm, allergiesIn } from "./forms.ts"
import { allergiesPage } from "./page.ts"
import { findAllergies, keepAllergies } from "./queries.ts"

const members = { config: { access: membersOf(itself) } }

/** What people must not eat, stated by themselves for each class. */
export default async function allergies(app: FastifyInstance) {
  app.get("/classes/:id/allergies", members, async (request, reply) => {
    return reply.view("allergies/show", await allergiesPage(request))
  })

  app.post("/classes/:id/allergies", members, async (request, reply) => {
    found(await findAllergies(app.db, idOf(request), viewerOf(request).id))
    const { values, form } = readForm(allergiesForm, request.body)
    if (!values) return reply.code(422).view("allergies/show", await allergiesPage(request, form))
    await keepAllergies(app.db, idOf(request), viewerOf(request).id, allergiesIn(values))
    return reply.redirect(`/classes/${idOf(request)}/allergies?kept=yes`, 303)
  })
}
