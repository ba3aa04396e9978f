import { and, asc, eq, getTableColumns, inArray, isNotNull, isNull, ne, or, sql } from "drizzle-orm"
import { alias } from "drizzle-orm/pg-core"
import { asBaked } from "../changes/as-baked.ts"
import type { KeptChange } from "../changes/queries.ts"
import { crumbFiguresOf } from "../crumbs/captions.ts"
import type { Db } from "../db.ts"
import type { Ingredient } from "../dough/ingredients/ingredient.ts"
import { raisedBy } from "../estimate/leaven.ts"
import { cultureOf, type FormulaContent } from "../formulas/content.ts"
import { rowsOf } from "../rows-of.ts"
import {
  bakeDays,
  bakes,
  changes,
  classes,
  judgements,
  marks,
  memberships,
  photos,
  type Role,
  readings,
  revisions,
} from "../schema.ts"
import type { Viewer } from "../web/access.ts"
import { mixOf } from "./mix.ts"

export type TableBake = Awaited<ReturnType<typeof listBakesOf>>[number]
/** Bakes that are laid side by side: of a bake day, of a formula whatever the day, of one student in a class, or picked. */
export type Scope =
  | { bakeDayId: number }
  | { formulaId: number }
  | { classId: number; userId: number }
  | { bakeIds: number[] }
/** Who asks. Without a `role`, what they are in the class of each bake decides. */
export type Asking = { viewer: Pick<Viewer, "id"> & { isOwner?: boolean }; role?: Role }

const staff: Role[] = ["instructor", "assistant"]
const viewers = alias(memberships, "viewers")

/**
 * All bakes of a bake day, or of another scope, that this person may see, by name and then in the order they were begun,
 * each with its bake day and class, the formula as its baker really made it, every change counted, its marks, its readings,
 * what is said of it, its visible photos, crumb first, and what was measured on those. Students see their own and what is
 * shared, staff all. `nth` counts a person's bakes of a bake day among those seen, so that it betrays none. One statement,
 * however many there are.
 */
export async function listBakesOf(db: Db, scope: Scope | number, asking: Asking) {
  const { seesAll, visible } = sightOf(asking)
  const rows = await db
    .select({
      ...getTableColumns(bakes),
      shownName: memberships.shownName,
      title: bakeDays.title,
      opensOn: bakeDays.opensOn,
      closesOn: bakeDays.closesOn,
      targetDoughC: bakeDays.targetDoughC,
      targetRise: bakeDays.targetRise,
      classId: classes.id,
      className: classes.name,
      zone: classes.zone,
      formulaId: revisions.formulaId,
      revisionNumber: revisions.number,
      revision: onceEach,
      marks: rowsOf(marks, eq(marks.bakeId, bakes.id)),
      readings: rowsOf(
        readings,
        and(eq(readings.bakeId, bakes.id), isNull(readings.removedAt), ne(readings.of, "levain")),
        ...[asc(readings.takenAt), asc(readings.id)],
      ),
      photos: rowsOf(
        photos,
        and(eq(photos.bakeId, bakes.id), or(seesAll, eq(photos.forClass, true), ownPhotos(asking))),
        ...[asc(photos.takenAt), asc(photos.madeAt)],
      ),
      crumbs: crumbFiguresOf(bakes.id),
      judgements: rowsOf(
        judgements,
        and(eq(judgements.bakeId, bakes.id), isNull(judgements.removedAt)),
        asc(judgements.id),
      ),
      kept: rowsOf(changes, eq(changes.bakeId, bakes.id), asc(changes.id)),
    })
    .from(bakes)
    .innerJoin(bakeDays, eq(bakeDays.id, bakes.bakeDayId))
    .innerJoin(classes, eq(classes.id, bakeDays.classId))
    .innerJoin(revisions, eq(revisions.id, bakes.revisionId))
    .leftJoin(memberships, and(eq(memberships.classId, classes.id), eq(memberships.userId, bakes.userId)))
    .leftJoin(viewers, and(eq(viewers.classId, classes.id), eq(viewers.userId, asking.viewer.id)))
    .where(and(isIn(typeof scope === "number" ? { bakeDayId: scope } : scope), visible))
    .orderBy(asc(memberships.shownName), asc(bakes.userId), asc(bakes.id))

  const made = makerOf(db, rows)
  const countOf = new Map<string, number>()
  return rows.map(({ shownName, revision: _, kept, photos: theirs, crumbs, ...bake }) => {
    const whose = `${bake.userId} ${bake.bakeDayId}`
    const nth = (countOf.get(whose) ?? 0) + 1
    countOf.set(whose, nth)
    const bySubject = theirs.toSorted((a, b) => tellingFirst.indexOf(a.subject) - tellingFirst.indexOf(b.subject))
    const name = shownName ?? "Somebody who has left the class"
    const seen = bySubject.flatMap(({ id }) => crumbs.find(({ photoId }) => photoId === id) ?? [])
    return { ...bake, name, nth, ...made(bake, kept), photos: bySubject, crumbs: seen }
  })
}

function sightOf({ viewer, role }: Asking) {
  const known = viewer.isOwner || role !== undefined
  const seesAll = known
    ? sql`${viewer.isOwner || staff.includes(role!)}::boolean`
    : sql`coalesce(${inArray(viewers.role, staff)}, false)`
  const inClass = known ? undefined : isNotNull(viewers.role)
  return { seesAll, visible: or(seesAll, eq(bakes.userId, viewer.id), and(eq(bakes.shared, true), inClass)) }
}

const ownPhotos = ({ viewer }: Asking) => or(eq(photos.userId, viewer.id), eq(bakes.userId, viewer.id))

function isIn(scope: Scope) {
  if ("bakeDayId" in scope) return eq(bakes.bakeDayId, scope.bakeDayId)
  if ("formulaId" in scope) return eq(revisions.formulaId, scope.formulaId)
  if ("bakeIds" in scope) return inArray(bakes.id, scope.bakeIds)
  return and(eq(classes.id, scope.classId), eq(bakes.userId, scope.userId))
}

/** A revision comes with the first bake that used it, not with each: it is as long as a night of readings. */
const onceEach = sql<[FormulaContent, Ingredient[]] | null>`case
  when row_number() over (partition by ${revisions.id} order by ${bakes.id}) = 1
  then json_build_array(${revisions.content}, ${revisions.ownIngredients}) end`

/** What a photo shows, by how much it tells of how the bread became. Our own choice. */
const tellingFirst = ["crumb", "crust", "shaped", "dough", "starter", "other"]

type Used = { revisionId: number; revision: [FormulaContent, Ingredient[]] | null }
type Baked = Pick<typeof bakes.$inferSelect, "revisionId" | "variant">
type Made = ReturnType<typeof madeIn>

/** The formula of each bake as it was made, worked out once for all who made it alike. */
function makerOf(db: Db, rows: Used[]) {
  const written = new Map(rows.flatMap(({ revisionId, revision }) => (revision ? [[revisionId, revision]] : [])))
  const alike = workedOut.get(db) ?? new Map<string, Made>()
  workedOut.set(db, alike)
  return ({ revisionId, variant }: Baked, kept: KeptChange[]): Made => {
    const [content, own] = written.get(revisionId)!
    if (kept.length) return madeIn(content, own, variant, kept)
    const way = `${revisionId} ${variant}`
    const made = alike.get(way) ?? madeIn(content, own, variant, [])
    alike.set(way, made)
    return made
  }
}
// Kept for as long as the process lives: a revision never changes, and working it out costs more than the rest of a row.
const workedOut = new WeakMap<Db, Map<string, Made>>()

function madeIn(written: FormulaContent, own: Ingredient[], variant: string, kept: KeptChange[]) {
  const made = asBaked({ content: written, variant, ownIngredients: own }, kept)
  const actual = raisedBy(made.content, own, made.asWritten)
  const planned = made.content === made.asWritten ? actual : raisedBy(made.asWritten, own)
  const raised = { planned, actual }
  return { ...made, ownIngredients: own, culture: cultureOf(made.content, own), raised, mix: mixOf(made.content, own) }
}

/** Students of the class who have not begun a bake for this bake day, shared or not. */
export async function listNotStarted(db: Db, bakeDayId: number, classId: number) {
  const begun = await db.select({ userId: bakes.userId }).from(bakes).where(eq(bakes.bakeDayId, bakeDayId))
  const students = await db
    .select({ userId: memberships.userId, name: memberships.shownName })
    .from(memberships)
    .where(and(eq(memberships.classId, classId), eq(memberships.role, "student")))
    .orderBy(asc(memberships.shownName))
  const ids = new Set(begun.map(({ userId }) => userId))
  return students.filter(({ userId }) => !ids.has(userId)).map(({ name }) => name)
}
