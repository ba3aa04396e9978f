import type { FastifyInstance } from "fastify"
import { sayTo } from "../accounts/say.ts"
import { allergiesOfRevision } from "../allergies/page.ts"
import { classOfBakeDay, findBakeDay } from "../bake-days/queries.ts"
import { membersOf } from "../classes/access.ts"
import { listPeople } from "../classes/queries.ts"
import { itsReaders } from "../formulas/access.ts"
import { cautionsFor } from "../formulas/cautions.ts"
import { asked, readable } from "../formulas/page.ts"
import { findRevision } from "../formulas/queries.ts"
import { findOwnDay } from "../plans/own-day.ts"
import { idOf, viewerOf } from "../web/access.ts"
import { found } from "../web/errors.ts"
import { daySheet } from "./day-sheet.ts"
import { typeClass } from "./fit.ts"
import { formulaSheet } from "./formula-sheet.ts"
import { wallSheet } from "./wall-sheet.ts"

const members = { config: { access: membersOf(classOfBakeDay) } }

/** Sheets to print, each on one page of A4 or Letter. */
export default async function paper(app: FastifyInstance) {
  app.get("/revisions/:id/sheet", { config: { access: itsReaders } }, async (request, reply) => {
    const revision = found(await findRevision(app.db, idOf(request)))
    const { list } = await allergiesOfRevision(app.db, viewerOf(request), revision)
    const made = readable(revision.content, { own: revision.ownIngredients, list, ...asked(request) })
    const sheet = formulaSheet({ title: revision.title, ...made })
    const shown = { revision, way: made.way, back: `/revisions/${revision.id}${made.asWay}` }
    return reply.view("paper/formula", { ...shown, sheet, typeClass: typeClass(sheet.step) })
  })

  app.get("/bake-days/:id/sheet", members, async (request, reply) => {
    const viewer = viewerOf(request)
    const day = found(await findOwnDay(app.db, viewer, idOf(request), new Date()))
    const { bakeDay, content, answer } = day
    const cautions = cautionsFor(content, {
      ...{ own: bakeDay.ownIngredients, list: bakeDay.allergenList },
      ...(answer.plan ? { plan: answer.plan } : {}),
    })
    const sheet = daySheet(day, cautions, sayTo(viewer))
    const name = (await listPeople(app.db, bakeDay.classId)).find(({ userId }) => userId === viewer.id)?.shownName ?? ""
    return reply.view("paper/day", { bakeDay, sheet, name, typeClass: typeClass(sheet.step) })
  })

  app.get("/bake-days/:id/wall-sheet", members, async (request, reply) => {
    const bakeDay = found(await findBakeDay(app.db, idOf(request)))
    const people = await listPeople(app.db, bakeDay.classId)
    const students = people.filter(({ role }) => role === "student").map(({ shownName }) => shownName)
    const { figures, cautions } = readable(bakeDay.content, { own: bakeDay.ownIngredients, list: bakeDay.allergenList })
    const say = sayTo(viewerOf(request))
    const sheet = wallSheet({ bakeDay, figures, cautions, students, say, now: new Date() })
    return reply.view("paper/wall", { bakeDay, sheet, typeClass: typeClass(sheet.step) })
  })
}
