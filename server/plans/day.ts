import type { findBakeDay } from "../bake-days/queries.ts"
import type { DayAnswer, DayQuestion } from "../dough/day/day.ts"
import type { FormulaContent } from "../formulas/content.ts"
import type { Kitchen } from "../kitchens/kitchen.ts"
import type { Viewer } from "../web/access.ts"
import type { Basis } from "./basis.ts"
import type { Wishes } from "./wishes.ts"

/** One person's own day for one bake day: what was asked, the answer, and what it rests on. */
export type OwnDay = {
  bakeDay: NonNullable<Awaited<ReturnType<typeof findBakeDay>>>
  /** Whether this person has kept a day; else it is the instructor's suggestion. */
  kept: boolean
  kitchen: Kitchen
  wishes: Wishes
  variant: string
  /** The formula as it is made in that variant, with the stages as its instructor wrote them. */
  content: FormulaContent
  onTableAt: Date
  question: DayQuestion
  answer: DayAnswer
  basis: Basis
}

/** Whose day it is: the plan is reckoned by that person's clock. */
export type Planner = Pick<Viewer, "id" | "zone">
