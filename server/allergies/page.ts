import type { FastifyRequest } from "fastify"
import { roleIn } from "../classes/access.ts"
import { findClass } from "../classes/queries.ts"
import type { Db } from "../db.ts"
import type { Ingredient } from "../dough/ingredients/ingredient.ts"
import type { FormulaContent } from "../formulas/content.ts"
import { findRevision } from "../formulas/queries.ts"
import type { AllergenList, Role } from "../schema.ts"
import { idOf, type Viewer, viewerOf } from "../web/access.ts"
import { found } from "../web/errors.ts"
import { type Form, type Typed, typedIn } from "../web/forms.ts"
import { allergyLabels, inWords, typedAllergies } from "./forms.ts"
import { type MetBy, metBy } from "./met.ts"
import { findAllergies, listAllergies, listClassesGiven } from "./queries.ts"

/** A class's page of allergies: one's own, and, for its instructors alone, everybody's. */
export async function allergiesPage(request: FastifyRequest, refused?: Form) {
  const { db } = request.server
  const [viewer, classId] = [viewerOf(request), idOf(request)]
  const mine = await findAllergies(db, classId, viewer.id)
  const teaches = (await roleIn(db, viewer, classId)) === "instructor"
  const people = teaches ? await listAllergies(db, classId) : []
  return {
    group: found(await findClass(db, classId)),
    member: mine !== undefined,
    kept: typedIn(request.query).kept === "yes",
    ...{ teaches, allergyLabels },
    people: people.map(({ shownName, allergies }) => ({ name: shownName, words: inWords(allergies) })),
    form: refused ?? { typed: mine ? typedAllergies(mine.allergies) : {}, errors: {} },
  }
}

type Given = { bakeDay: { classId: number; content: FormulaContent; ownIngredients: Ingredient[] }; role?: Role }

/** What a bake day's formula has for those with allergies: for instructors everybody's, for anybody else their own. */
export async function allergiesOnBakeDay(db: Db, viewer: Viewer, { bakeDay, role }: Given, made: FormulaContent) {
  const { classId, content, ownIngredients } = bakeDay
  const own = await findAllergies(db, classId, viewer.id)
  const forMe = metBy(own ? [own] : [], { ...made, variants: [] }, ownIngredients)
  const forClass = role === "instructor" ? metBy(await listAllergies(db, classId), content, ownIngredients) : []
  return { forMe: forMe[0]?.says.length ? forMe[0] : null, forClass }
}

/** The classes that were given a revision: what its instructors have to know of theirs, and whose lists of allergens count. */
export async function allergiesOfRevision(
  db: Db,
  viewer: Viewer,
  { id, content, ownIngredients }: { id: number; content: FormulaContent; ownIngredients: Ingredient[] },
) {
  const given = await listClassesGiven(db, viewer, id)
  const lists = [...new Set(given.map(({ allergenList }) => allergenList))]
  const list: AllergenList = lists.length === 1 ? lists[0]! : "both"
  const inClasses: { name: string; people: MetBy[] }[] = []
  for (const { id: classId, name, role } of given) {
    if (role !== "instructor") continue
    const people = metBy(await listAllergies(db, classId), content, ownIngredients)
    if (people.length) inClasses.push({ name, people })
  }
  return { list, inClasses }
}

/** What a formula that is being chosen for a class has for those with allergies; undefined until both are chosen rightly. */
export async function allergiesAhead(db: Db, viewer: Viewer, chosen: Typed | Record<string, unknown>) {
  const [classId, revisionId] = [wholeNumber(chosen.classId), wholeNumber(chosen.revisionId)]
  if (!classId || !revisionId || (await roleIn(db, viewer, classId)) !== "instructor") return undefined
  const revision = await findRevision(db, revisionId)
  if (!revision || !(viewer.isOwner || revision.ownerId === viewer.id)) return undefined
  return metBy(await listAllergies(db, classId), revision.content, revision.ownIngredients)
}

const wholeNumber = (typed: unknown) => (/^[1-9]\d{0,8}$/.test(String(typed ?? "")) ? Number(typed) : undefined)
