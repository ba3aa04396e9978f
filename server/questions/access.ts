import { mayDoWith } from "../bakes/access.ts"
import { roleIn } from "../classes/access.ts"
import type { Db } from "../db.ts"
import type { Ask, Rule } from "../web/access.ts"
import { findComment, staffSomewhere } from "./queries.ts"

export const staff: Rule = {
  who: "the owner, instructors and assistants of any class",
  allows: async ({ db, viewer }) => ((await staffSomewhere(db, viewer)) ? "yes" : "no"),
}

/** Who may take back the comment of a route's :id. */
export const itsTakersBack: Rule = {
  who: "who said it, and instructors of the class",
  allows: async (ask) => {
    const seen = await seenComment(ask)
    if (!seen) return "hidden"
    return seen.userId === ask.viewer.id || seen.role === "instructor" ? "yes" : "no"
  },
}

/** Who may answer the question of a route's :id from the list of questions. */
export const itsAnswerers: Rule = {
  who: "assistants and instructors of the class",
  allows: async (ask) => {
    const seen = await seenComment(ask)
    if (!seen) return "hidden"
    return seen.role === "instructor" || seen.role === "assistant" ? "yes" : "no"
  },
}

/** A comment is seen by who sees its bake and, under a photo for instructors only, that photo. */
async function seenComment({ db, viewer, id }: Ask) {
  const comment = await findComment(db, id)
  if (!comment || !(await sees(db, viewer, comment))) return undefined
  return { ...comment, role: await roleIn(db, viewer, comment.classId) }
}

async function sees(db: Db, viewer: Ask["viewer"], { bakeId, forClass }: { bakeId: number; forClass: boolean }) {
  const may = await mayDoWith(db, viewer, bakeId)
  return may === "read" ? forClass : may !== undefined
}
