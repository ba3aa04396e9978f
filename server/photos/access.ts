import type { FastifyRequest } from "fastify"
import { type MayDo, mayDoWith } from "../bakes/access.ts"
import type { Db } from "../db.ts"
import { mayReadFormula } from "../formulas/access.ts"
import type { Answer, Rule, Viewer } from "../web/access.ts"
import { found } from "../web/errors.ts"
import { findPhoto } from "./queries.ts"

type Photo = Awaited<ReturnType<typeof photoIn>>
type Asking = { db: Db; viewer: Viewer; request: FastifyRequest }

/** The photo of a route's :photo; not found when there is none or it cannot be the id of one. */
export async function photoIn(db: Db, request: FastifyRequest) {
  const { photo: id } = request.params as { photo: string }
  // PostgreSQL would refuse to read just any text as a uuid
  const isUuid = /^[0-9a-f]{8}(-[0-9a-f]{4}){3}-[0-9a-f]{12}$/.test(id)
  return found(isUuid ? await findPhoto(db, id) : undefined)
}

/** Open, because the pictures of a formula's stages are seen wherever its public link is. */
export const itsViewers: Rule = {
  who: "who sent it, the baker, staff of the class, classmates if it is for them; of a stage, who may read the formula",
  open: true,
  allows: async ({ db, viewer, request }) => {
    const photo = await photoIn(db, request)
    const sees = photo.formulaId ? mayReadFormula(db, viewer, photo.formulaId) : maySee(db, viewer, photo)
    return (await sees) ? "yes" : "hidden"
  },
}

/** Whether classmates see a photo is for those to say who made it or whose bread it shows. */
export const itsOwners: Rule = {
  who: "who sent it, and the baker",
  allows: (ask) => answer(ask, (photo, viewer) => isOwner(photo, viewer)),
}

export const itsRemovers: Rule = {
  who: "who sent it, the baker, assistants and instructors of the class",
  allows: (ask) => answer(ask, (photo, viewer, may) => isOwner(photo, viewer) || may === "write" || may === "delete"),
}

async function answer(
  { db, viewer, request }: Asking,
  allowed: (photo: Photo, viewer: Viewer, may: MayDo) => boolean,
): Promise<Answer> {
  const photo = await photoIn(db, request)
  if (!photo.bakeId || !(await maySee(db, viewer, photo))) return "hidden"
  return allowed(photo, viewer, await mayDoWith(db, viewer, photo.bakeId)) ? "yes" : "no"
}

/** Whether somebody sees a photo of a bake. */
export async function maySee(db: Db, viewer: Viewer | undefined, photo: Omit<Photo, "id" | "formulaId">) {
  if (!viewer || !photo.bakeId) return false
  const may = await mayDoWith(db, viewer, photo.bakeId)
  return isOwner(photo, viewer) || may === "write" || may === "delete" || (may === "read" && photo.forClass)
}

const isOwner = ({ userId, bakerId }: Pick<Photo, "userId" | "bakerId">, viewer: Viewer) =>
  viewer.id === userId || viewer.id === bakerId
