import type { FastifyInstance } from "fastify"
import { classOfBakeDay } from "../bake-days/queries.ts"
import { membersOf } from "../classes/access.ts"
import { thingOf } from "../dough/bill/things.ts"
import { idOf, viewerOf } from "../web/access.ts"
import { found } from "../web/errors.ts"
import { readForm, refuse, typedIn } from "../web/forms.ts"
import { itsTakersOff } from "./access.ts"
import { bringingForm } from "./forms.ts"
import { billPage } from "./page.ts"
import { bring, findBringing, takeBack } from "./queries.ts"
import { classQuery, shoppingPage } from "./shopping-page.ts"

const members = { config: { access: membersOf(classOfBakeDay) } }

/** What somebody weighs on a bake day, what they or the class buy for it, and who brings what. */
export default async function bill(app: FastifyInstance) {
  app.get("/bake-days/:id/bill", members, async (request, reply) => {
    return reply.view("bill/show", await billPage(request))
  })

  app.get("/bake-days/:id/shopping", members, async (request, reply) => {
    return reply.view("bill/shopping", await shoppingPage(request))
  })

  app.post("/bake-days/:id/bringings", members, async (request, reply) => {
    const { values, form } = readForm(bringingForm, request.body)
    if (!values) return reply.code(422).view("bill/shopping", await shoppingPage(request, form))

    const { bakeDay, buy, ready, query } = await shoppingPage(request, form)
    const own = bakeDay.ownIngredients
    const thing = [...buy, ...ready].find(({ id }) => id === thingOf(values.thing, own))
    if (!thing) {
      const gone = refuse(form, "thing", "That is not on the list any more; take something that is.")
      return reply.code(422).view("bill/shopping", await shoppingPage(request, gone))
    }
    const mine = thing.brought.find(({ isMine }) => isMine)
    const by = { bakeDayId: bakeDay.id, userId: viewerOf(request).id }
    await bring(app.db, { ...by, thing: mine?.thing ?? thing.name, amount: values.amount })
    return reply.redirect(`/bake-days/${bakeDay.id}/shopping?${query}`, 303)
  })

  app.post("/bringings/:id/removal", { config: { access: itsTakersOff } }, async (request, reply) => {
    const { id, bakeDayId } = found(await findBringing(app.db, idOf(request)))
    await takeBack(app.db, id)
    return reply.redirect(`/bake-days/${bakeDayId}/shopping?${classQuery(typedIn(request.query))}`, 303)
  })
}
