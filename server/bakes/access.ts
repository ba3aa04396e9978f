import { type ClassOf, roleIn } from "../classes/access.ts"
import type { Db } from "../db.ts"
import type { Role } from "../schema.ts"
import type { Answer, Ask, Rule, Viewer } from "../web/access.ts"
import { findSharing } from "./queries.ts"

/** Finds the bake that a route's :id belongs to; undefined when there is no such thing. */
type BakeOf = ClassOf

export const readersOf = (bakeOf: BakeOf): Rule => ({
  who: "the baker, assistants and instructors of the class, and classmates when the bake is shared",
  allows: async (ask) => ((await mayDo(ask, bakeOf)) ? "yes" : "hidden"),
})

export const writersOf = (bakeOf: BakeOf): Rule => ({
  who: "the baker, assistants and instructors of the class",
  allows: async (ask) => answer(await mayDo(ask, bakeOf), ["delete", "write"]),
})

export const deletersOf = (bakeOf: BakeOf): Rule => ({
  who: "the baker and instructors of the class",
  allows: async (ask) => answer(await mayDo(ask, bakeOf), ["delete"]),
})

/** The most somebody may do with a bake, each including those before it; undefined when it is hidden from them. */
export type MayDo = "read" | "write" | "delete" | undefined

export async function mayDoWith(db: Db, viewer: Viewer, bakeId: number): Promise<MayDo> {
  const bake = await findSharing(db, bakeId)
  if (!bake) return undefined
  return mayDoAs(viewer, bake.userId === viewer.id ? undefined : await roleIn(db, viewer, bake.classId), bake)
}

/** The same for somebody whose role in the class is known. */
export function mayDoAs(viewer: Viewer, role: Role | undefined, bake: { userId: number; shared: boolean }): MayDo {
  if (bake.userId === viewer.id) return "delete"
  if (role === "instructor") return "delete"
  if (role === "assistant") return "write"
  return role && bake.shared ? "read" : undefined
}

async function mayDo({ db, viewer, id }: Ask, bakeOf: BakeOf) {
  const bakeId = await bakeOf(db, id)
  return bakeId === undefined ? undefined : mayDoWith(db, viewer, bakeId)
}

function answer(may: MayDo, enough: MayDo[]): Answer {
  if (!may) return "hidden"
  return enough.includes(may) ? "yes" : "no"
}
