import { classOfBakeDay, findBakeDay } from "../bake-days/queries.ts"
import { instructorsOf } from "../classes/access.ts"
import { mayEdit } from "../formulas/access.ts"
import { findFormula } from "../formulas/queries.ts"
import type { Ask, Rule } from "../web/access.ts"

const teaching = instructorsOf(classOfBakeDay)

/** Who may draft what a class showed into the formula of its bake day. */
export const itsFormulasWriter: Rule = {
  who: "instructors of the class who wrote the formula, and the owner",
  allows: async (ask: Ask) => {
    const answer = teaching.open ? "hidden" : await teaching.allows(ask)
    if (answer !== "yes") return answer
    const bakeDay = await findBakeDay(ask.db, ask.id)
    const formula = bakeDay && (await findFormula(ask.db, bakeDay.formulaId))
    return formula && mayEdit(ask.viewer, formula) ? "yes" : "no"
  },
}
