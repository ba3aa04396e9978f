import { roleIn } from "../classes/access.ts"
import type { Rule } from "../web/access.ts"
import { findBringing } from "./queries.ts"

/** Who may take a name off a shopping list. */
export const itsTakersOff: Rule = {
  who: "who brings it, and instructors of the class",
  allows: async ({ db, viewer, id }) => {
    const bringing = await findBringing(db, id)
    const role = bringing && (await roleIn(db, viewer, bringing.classId))
    if (!bringing || !role) return "hidden"
    return bringing.userId === viewer.id || role === "instructor" ? "yes" : "no"
  },
}
