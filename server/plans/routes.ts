import type { FastifyInstance } from "fastify"
import { classOfBakeDay, keepPlan } from "../bake-days/queries.ts"
import { membersOf } from "../classes/access.ts"
import { idOf, viewerOf } from "../web/access.ts"
import { found } from "../web/errors.ts"
import { type Typed, typedIn } from "../web/forms.ts"
import { readDay } from "./forms.ts"
import { askedFor, findDayAsked } from "./own-day.ts"
import { planPage } from "./page.ts"
import { readChange, taken } from "./taking.ts"

const members = { config: { access: membersOf(classOfBakeDay) } }

/** Each person's own day of a bake day: looked at as often as somebody likes, and kept when they say so. */
export default async function plans(app: FastifyInstance) {
  app.get("/bake-days/:id/plan", members, async (request, reply) => {
    return reply.view("plans/show", await planPage(request))
  })

  app.post("/bake-days/:id/plan", members, async (request, reply) => {
    const viewer = viewerOf(request)
    const present = found(await findDayAsked(app.db, viewer, idOf(request), new Date()))
    const { take, ...typed }: Typed = typedForm(request.body)
    const { values, errors } = readDay(typed, present, viewer)
    const change = take === undefined ? {} : readChange(take)
    if (!values || !change) {
      const noSuch: Typed = change ? {} : { take: "That suggestion cannot be read any more; look at the day again." }
      return reply.code(422).view("plans/show", await planPage(request, { typed, errors: { ...errors, ...noSuch } }))
    }
    const asked = { ...present, ...values }
    const { onTableAt, variant, wishes } = taken(asked, change, askedFor(asked).basis.ovenHolds)
    await keepPlan(app.db, present.bakeDay.id, viewer.id, { onTableAt, variant, wishes })
    return reply.redirect(`/bake-days/${present.bakeDay.id}${typed.whole ? "/plan" : ""}`, 303)
  })
}

/** A suggestion is longer than anything that somebody types. */
function typedForm(body: unknown): Typed {
  const take = (body as { take?: unknown } | undefined)?.take
  return { ...typedIn(body), ...(typeof take === "string" ? { take: take.slice(0, 2000) } : {}) }
}
