import type { FastifyInstance, FastifyRequest } from "fastify"
import { signedIn, viewerOf } from "../web/access.ts"
import { found } from "../web/errors.ts"
import { cannotCompare, chosenIn, comparePage } from "./compare.ts"
import { tablePage } from "./page.ts"
import { listBakesOf } from "./queries.ts"
import {
  bakeDayFor,
  bakeDaySubject,
  classmates,
  formulaSubject,
  itsBakers,
  membersOfDay,
  type Subject,
  studentSubject,
} from "./subjects.ts"
import { wallPage } from "./wall.ts"

export default async function table(app: FastifyInstance) {
  app.get("/bake-days/:id/table", { config: { access: membersOfDay } }, async (request, reply) => {
    const bakeDay = found(await bakeDayFor(request))
    const staff = bakeDay.role !== "student"
    const page = await pageOf(request, found(await bakeDaySubject(request)))
    return reply.view("table/show", { ...page, bakeDay, notStarted: staff ? bakeDay.notStarted : [] })
  })

  app.get("/formulas/:id/table", { config: { access: itsBakers } }, async (request, reply) => {
    return reply.view("table/show", await pageOf(request, found(await formulaSubject(request))))
  })

  app.get("/classes/:id/students/:person/table", { config: { access: classmates } }, async (request, reply) => {
    return reply.view("table/show", await pageOf(request, found(await studentSubject(request))))
  })

  app.get("/bake-days/:id/wall", { config: { access: membersOfDay } }, async (request, reply) => {
    const subject = found(await bakeDaySubject(request))
    const viewer = viewerOf(request)
    const bakes = await listBakesOf(app.db, subject.scope, { viewer, role: subject.role })
    const page = wallPage(bakes, request.query, viewer, new Date())
    return reply.view("table/wall", { ...page, subject, bakeDay: found(await bakeDayFor(request)) })
  })

  app.get("/compare", { config: { access: signedIn } }, async (request, reply) => {
    const viewer = viewerOf(request)
    const ids = chosenIn(request.query)
    const bakes = await listBakesOf(app.db, { bakeIds: ids.slice(0, 20) }, { viewer })
    const cannot = cannotCompare(ids.length)
    const refuse = (code: number, problem: string) => {
      const [one] = bakes
      return reply
        .code(code)
        .view("table/compare", { problem, oneDay: one ? { id: one.bakeDayId, title: one.title } : null })
    }
    if (cannot) return refuse(422, cannot)
    if (bakes.length < ids.length) return refuse(404, "One of these bakes is not there, or it is not shared with you.")
    return reply.view("table/compare", comparePage(bakes, ids, request.query, viewer, new Date()))
  })
}

async function pageOf(request: FastifyRequest, subject: Subject) {
  const viewer = viewerOf(request)
  const bakes = await listBakesOf(request.server.db, subject.scope, { viewer, role: subject.role })
  return { bakeDay: null, notStarted: [], ...tablePage(bakes, subject, request.query, viewer, new Date()) }
}
