import { roleIn } from "../classes/access.ts"
import type { Rule } from "../web/access.ts"
import { findReviewComment } from "./queries.ts"

/** Who may take back the comment of a route's :id. */
export const itsTakersBack: Rule = {
  who: "who said it, assistants and instructors of the class",
  allows: async ({ db, viewer, id }) => {
    const comment = await findReviewComment(db, id)
    const role = comment && (await roleIn(db, viewer, comment.classId))
    if (!role) return "hidden"
    return comment.userId === viewer.id || role !== "student" ? "yes" : "no"
  },
}
