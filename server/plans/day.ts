import type { findBakeDay } from "../bake-days/queries.ts"
import type { DayAnswer, DayQuestion } from "../dough/day/day.ts"
import type { Kitchen } from "../kitchens/kitchen.ts"
import type { Viewer } from "../web/access.ts"
import type { Wishes } from "./wishes.ts"

/** One person's own day for one bake day: what was asked, the answer, and what it rests on. */
export type OwnDay = {
  bakeDay: NonNullable<Awaited<ReturnType<typeof findBakeDay>>>
  kitchen: Kitchen
  wishes: Wishes
  variant: string
  onTableAt: Date
  question: DayQuestion
  answer: DayAnswer
}

/** Whose day it is: the plan is reckoned by that person's clock. */
export type Planner = Pick<Viewer, "id" | "zone">
