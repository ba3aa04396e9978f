import type { FastifyRequest } from "fastify"
import { classOfBakeDay } from "../bake-days/queries.ts"
import { roleIn } from "../classes/access.ts"
import { viewerOf } from "../web/access.ts"
import type { OwnDay } from "./day.ts"
import { findOwnDay } from "./own-day.ts"

/**
 * The own day that a link to a page about a formula carries, "?day=12"; undefined without one, where it is of a class that
 * this person is not in, and where it was given another formula than that at `url`.
 */
export async function findDayInLink(request: FastifyRequest, url: string, now: Date): Promise<OwnDay | undefined> {
  const { day = "" } = request.query as { day?: unknown }
  if (typeof day !== "string" || !/^[1-9]\d{0,8}$/.test(day)) return undefined
  const { db } = request.server
  const viewer = viewerOf(request)
  const classId = await classOfBakeDay(db, Number(day))
  if (classId === undefined || !(await roleIn(db, viewer, classId))) return undefined
  const own = await findOwnDay(db, viewer, Number(day), now)
  return own && url === `/revisions/${own.bakeDay.revisionId}` ? own : undefined
}
