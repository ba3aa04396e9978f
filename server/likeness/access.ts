import type { FastifyRequest } from "fastify"
import { mayDoWith } from "../bakes/access.ts"
import { roleIn } from "../classes/access.ts"
import type { Db } from "../db.ts"
import { mayEdit } from "../formulas/access.ts"
import { photoIn } from "../photos/access.ts"
import type { Ask, Rule, Viewer } from "../web/access.ts"
import { idOf } from "../web/access.ts"
import { found } from "../web/errors.ts"
import { findFormulaOfBake, findWish } from "./queries.ts"

/** The wish of a route's :wish, for a photo of the bake of its :id. */
export async function wishIn(db: Db, request: FastifyRequest) {
  const { wish } = request.params as { wish: string }
  return found(/^[1-9]\d{0,8}$/.test(wish) ? await findWish(db, idOf(request), Number(wish)) : undefined)
}

/** A student's own photo of the bake in the route; what somebody else sent for them is nobody's to give away. */
export async function askedPhotoIn(db: Db, request: FastifyRequest) {
  const photo = await photoIn(db, request)
  return found(photo.bakeId === idOf(request) && photo.userId === photo.bakerId ? photo : undefined)
}

const whoAsks = "instructors of the class who may write the formula"

/** Who may ask a student for a photo. */
export const itsAskers: Rule = {
  who: whoAsks,
  allows: async (ask) => {
    if (!(await reads(ask))) return "hidden"
    const { forClass } = await askedPhotoIn(ask.db, ask.request)
    if (await mayAsk(ask.db, ask.viewer, ask.id)) return "yes"
    return forClass || (await mayDoWith(ask.db, ask.viewer, ask.id)) !== "read" ? "no" : "hidden"
  },
}

/** Who may take such a wish back. */
export const itsWishers: Rule = {
  who: whoAsks,
  allows: async (ask) => {
    if (!(await reads(ask))) return "hidden"
    await wishIn(ask.db, ask.request)
    return (await mayAsk(ask.db, ask.viewer, ask.id)) ? "yes" : "no"
  },
}

/** Nobody consents for somebody else, whatever they are in the class. */
export const itsGiver: Rule = {
  who: "the baker who sent the photo, and nobody for them",
  allows: async (ask) => {
    if (!(await reads(ask))) return "hidden"
    const { bakerId, senderId } = await wishIn(ask.db, ask.request)
    return ask.viewer.id === bakerId && ask.viewer.id === senderId ? "yes" : "no"
  },
}

export async function mayAsk(db: Db, viewer: Viewer, bakeId: number) {
  const formula = await findFormulaOfBake(db, bakeId)
  if (!formula || !mayEdit(viewer, formula)) return false
  return (await roleIn(db, viewer, formula.classId)) === "instructor"
}

const reads = async ({ db, viewer, id }: Ask) => (await mayDoWith(db, viewer, id)) !== undefined
