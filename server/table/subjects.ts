import { and, desc, eq, exists, or, sql } from "drizzle-orm"
import { alias } from "drizzle-orm/pg-core"
import type { FastifyRequest } from "fastify"
import { findBakeDayFor } from "../bake-days/queries.ts"
import type { Db } from "../db.ts"
import type { Stage } from "../dough/schedule.ts"
import { givenTo, mayEdit } from "../formulas/access.ts"
import { bakeDays, bakes, classes, formulas, memberships, type Role, revisions } from "../schema.ts"
import { idOf, type Rule, type Viewer, viewerOf } from "../web/access.ts"
import { oncePerRequest } from "../web/once.ts"
import type { Scope } from "./queries.ts"

/** What a table is about: whose bakes, and how it is headed. `page` is the address that /table, /wall are under. */
export type Subject = {
  kind: "bake day" | "formula" | "student"
  scope: Scope
  page: string
  title: string
  /** Where more is said of it; "" nowhere for this person. */
  about: string
  zone: string
  stages: Stage[]
  /** What this person is in the class; without it, what they are in the class of each bake decides. */
  role?: Role
}

/** The bake day of a route's :id with what its reader is in its class; undefined for strangers. One statement a request. */
export const bakeDayFor = oncePerRequest((request) =>
  findBakeDayFor(request.server.db, viewerOf(request), idOf(request)),
)

export const bakeDaySubject = oncePerRequest(async (request): Promise<Subject | undefined> => {
  const day = await bakeDayFor(request)
  if (!day) return undefined
  const page = `/bake-days/${day.id}`
  return {
    ...{ kind: "bake day", scope: { bakeDayId: day.id }, page, about: page, title: day.title },
    ...{ zone: day.zone, stages: day.content.stages, role: day.role },
  }
})

export const formulaSubject = oncePerRequest(async (request): Promise<Subject | undefined> => {
  const viewer = viewerOf(request)
  const row = await findFormulaFor(request.server.db, viewer, idOf(request))
  if (!row) return undefined
  const page = `/formulas/${row.id}`
  const about = mayEdit(viewer, row) ? page : row.revisionId ? `/revisions/${row.revisionId}` : ""
  return {
    ...{
      kind: "formula",
      scope: { formulaId: row.id },
      page,
      about,
      title: row.title ?? "A formula not published yet",
    },
    ...{ zone: viewer.zone, stages: row.content?.stages ?? [] },
  }
})

export const studentSubject = oncePerRequest(async (request): Promise<Subject | undefined> => {
  const { person } = request.params as { person: string }
  const userId = /^[1-9]\d{0,8}$/.test(person) ? Number(person) : 0
  const row = await findStudentFor(request.server.db, viewerOf(request), idOf(request), userId)
  if (!row) return undefined
  return {
    ...{ kind: "student", scope: { classId: row.classId, userId }, page: `/classes/${row.classId}/students/${userId}` },
    ...{ title: row.shownName ?? "Somebody who has left the class", about: `/classes/${row.classId}` },
    ...{ zone: row.zone, stages: [], role: row.role },
  }
})

const whoever = (who: string, subject: (request: FastifyRequest) => Promise<Subject | undefined>): Rule => ({
  who,
  allows: async ({ request }) => ((await subject(request)) ? "yes" : "hidden"),
})
export const membersOfDay = whoever("members of the class", bakeDaySubject)
export const classmates = whoever("members of the class", studentSubject)
export const itsBakers = whoever("whoever wrote the formula, the owner, and classes that were given it", formulaSubject)

/** A formula as its newest revision has it, for who wrote it and for classes that were given it. */
async function findFormulaFor(db: Db, viewer: Viewer, id: number) {
  const newest = db
    .select({ id: revisions.id })
    .from(revisions)
    .where(eq(revisions.formulaId, formulas.id))
    .orderBy(desc(revisions.number))
    .limit(1)
  const given = alias(revisions, "given")
  const [row] = await db
    .select({
      id: formulas.id,
      ownerId: formulas.ownerId,
      revisionId: revisions.id,
      title: revisions.title,
      content: revisions.content,
      given: sql<boolean>`${exists(
        db
          .select({ one: sql`1` })
          .from(given)
          .where(and(eq(given.formulaId, formulas.id), givenTo(viewer, given.id))),
      )}`,
    })
    .from(formulas)
    .leftJoin(revisions, eq(revisions.id, newest))
    .where(eq(formulas.id, id))
  return row && (mayEdit(viewer, row) || row.given) ? row : undefined
}

/** Somebody of a class, or whoever baked in it, for its members. */
async function findStudentFor(db: Db, viewer: Viewer, classId: number, userId: number) {
  const viewers = alias(memberships, "viewers")
  const baked = db
    .select({ id: bakes.id })
    .from(bakes)
    .innerJoin(bakeDays, eq(bakeDays.id, bakes.bakeDayId))
    .where(and(eq(bakes.userId, userId), eq(bakeDays.classId, classes.id)))
  const [row] = await db
    .select({
      classId: classes.id,
      zone: classes.zone,
      shownName: memberships.shownName,
      role: viewers.role,
      known: sql<boolean>`${or(sql`${memberships.userId} is not null`, exists(baked))}`,
    })
    .from(classes)
    .leftJoin(memberships, and(eq(memberships.classId, classes.id), eq(memberships.userId, userId)))
    .leftJoin(viewers, and(eq(viewers.classId, classes.id), eq(viewers.userId, viewer.id)))
    .where(eq(classes.id, classId))
  const role = viewer.isOwner ? "instructor" : row?.role
  return row?.known && role ? { ...row, role } : undefined
}
