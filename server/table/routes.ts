import type { FastifyInstance, FastifyRequest } from "fastify"
import { viewerOf } from "../web/access.ts"
import { found } from "../web/errors.ts"
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
}

async function pageOf(request: FastifyRequest, subject: Subject) {
  const viewer = viewerOf(request)
  const bakes = await listBakesOf(request.server.db, subject.scope, { viewer, role: subject.role })
  return { bakeDay: null, notStarted: [], ...tablePage(bakes, subject, request.query, viewer, new Date()) }
}
