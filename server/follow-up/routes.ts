import type { FastifyInstance } from "fastify"
import { classOfBakeDay } from "../bake-days/queries.ts"
import { staffOf } from "../classes/access.ts"
import { idOf, type Rule, viewerOf } from "../web/access.ts"
import { found } from "../web/errors.ts"
import { readForm, refuse } from "../web/forms.ts"
import { reminderForm } from "./forms.ts"
import { followUpPage, listFollowed } from "./page.ts"
import { findReminder, putAway, remind } from "./queries.ts"

const staff = { config: { access: staffOf(classOfBakeDay) } }

const itsReader: Rule = {
  who: "who is reminded, and nobody for them",
  allows: async ({ db, viewer, id }) => ((await findReminder(db, id))?.userId === viewer.id ? "yes" : "hidden"),
}

/** Who has not begun, not finished or logged little, and the one thing to do about it: a note on their page. */
export default async function followUp(app: FastifyInstance) {
  app.get("/bake-days/:id/follow-up", staff, async (request, reply) => {
    return reply.header("cache-control", "no-store").view("follow-up/show", await followUpPage(request))
  })

  app.post("/bake-days/:id/reminders", staff, async (request, reply) => {
    const { values, form } = readForm(reminderForm, request.body)
    if (!values) return reply.code(422).view("follow-up/show", await followUpPage(request, form))

    const due = (await listFollowed(request, new Date())).filter((student) => student.due)
    const asked = values.only.length ? values.only : values.userId
    const userIds = due.map(({ userId }) => userId).filter((userId) => values.all || asked.includes(userId))
    if (userIds.length === 0) {
      const message = asked.length ? "Nobody of them misses anything now." : "Tick whom to remind."
      return reply.code(422).view("follow-up/show", await followUpPage(request, refuse(form, "userId", message)))
    }
    await remind(app.db, { bakeDayId: idOf(request), userIds, sentBy: viewerOf(request).id, words: values.words })
    return reply.redirect(`/bake-days/${idOf(request)}/follow-up`, 303)
  })

  app.post("/reminders/:id/seen", { config: { access: itsReader } }, async (request, reply) => {
    const reminder = found(await findReminder(app.db, idOf(request)))
    await putAway(app.db, reminder)
    const { back } = (request.body ?? {}) as { back?: unknown }
    return reply.redirect(back === "bake day" ? `/bake-days/${reminder.bakeDayId}` : "/", 303)
  })
}
