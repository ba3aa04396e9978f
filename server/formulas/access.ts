import { and, eq, or, sql } from "drizzle-orm"
import type { AnyPgColumn } from "drizzle-orm/pg-core"
import type { Db } from "../db.ts"
import { bakeDays, bakes, formulas, memberships, revisions } from "../schema.ts"
import type { Rule, Viewer } from "../web/access.ts"

/** Who may edit the formula of a route's :id; to everybody else it does not exist. */
export const itsWriter: Rule = {
  who: "whoever wrote the formula, and the owner",
  allows: async ({ db, viewer, id }) => ((await mayEditFormula(db, viewer, id)) ? "yes" : "hidden"),
}

export const itsReaders: Rule = {
  who: "whoever wrote the formula, the owner, and classes that were given this revision or baked it",
  allows: async ({ db, viewer, id }) => ((await mayReadRevision(db, viewer, id)) ? "yes" : "hidden"),
}

async function mayEditFormula(db: Db, viewer: Viewer, formulaId: number) {
  const formula = await db.query.formulas.findFirst({ where: eq(formulas.id, formulaId), columns: { ownerId: true } })
  return formula !== undefined && mayEdit(viewer, formula)
}

export const mayEdit = (viewer: Viewer, { ownerId }: { ownerId: number }) => viewer.isOwner || viewer.id === ownerId

async function mayReadRevision(db: Db, viewer: Viewer, revisionId: number) {
  const [row] = await db
    .select({ ownerId: formulas.ownerId, given: givenTo(viewer) })
    .from(revisions)
    .innerJoin(formulas, eq(formulas.id, revisions.formulaId))
    .where(eq(revisions.id, revisionId))
  return row !== undefined && (mayEdit(viewer, row) || row.given)
}

/**
 * Whether somebody, undefined for a visitor, may see what goes with a formula whatever its revision, such as the pictures
 * of its stages: its writer, the owner, classes that were given any of its revisions, and anyone while its link is public.
 */
export async function mayReadFormula(db: Db, viewer: Viewer | undefined, formulaId: number): Promise<boolean> {
  const formula = await db.query.formulas.findFirst({ where: eq(formulas.id, formulaId) })
  if (!formula) return false
  if (formula.publicToken) return true
  if (!viewer) return false
  if (mayEdit(viewer, formula)) return true
  const given = and(eq(revisions.formulaId, formulaId), givenTo(viewer))
  return (await db.select({ id: revisions.id }).from(revisions).where(given).limit(1)).length > 0
}

/** Whether a class of this person was given the revision, or baked it before its bake day was given another one. */
export const givenTo = (viewer: Viewer, revisionId: AnyPgColumn = revisions.id) => sql<boolean>`exists (
  select 1 from ${memberships}
  join ${bakeDays} on ${bakeDays.classId} = ${memberships.classId}
  left join ${bakes} on ${bakes.bakeDayId} = ${bakeDays.id}
  where ${memberships.userId} = ${viewer.id}
    and ${or(eq(bakeDays.revisionId, revisionId), eq(bakes.revisionId, revisionId))}
)`
