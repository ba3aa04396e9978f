import { findBakeDay, findPlan } from "../bake-days/queries.ts"
import { suggestedOnTableAt } from "../bake-days/window.ts"
import type { Db } from "../db.ts"
import { planDay } from "../dough/day/plan-day.ts"
import { asMade } from "../formulas/content.ts"
import type { Kitchen } from "../kitchens/kitchen.ts"
import { findKitchen } from "../kitchens/queries.ts"
import type { OwnDay, Planner } from "./day.ts"
import { questionOf } from "./question.ts"
import type { Wishes } from "./wishes.ts"

/**
 * One person's own day for a bake day, from their kitchen and what they wish; undefined where there is no such bake day.
 * What somebody has kept stays as it is when its first hour has come; only a day that is still looked at asks what the
 * time is, see `ownDayOf`.
 */
export async function findOwnDay(db: Db, { id: userId, zone }: Planner, bakeDayId: number, now: Date) {
  const found = await findDayAsked(db, { id: userId, zone }, bakeDayId, now)
  return found && ownDayOf(found)
}

/** What is known of one person's day before it is reckoned: kitchen, wishes, when it is to be on the table. */
export async function findDayAsked(db: Db, { id: userId, zone }: Planner, bakeDayId: number, now: Date) {
  const bakeDay = await findBakeDay(db, bakeDayId)
  if (!bakeDay) return undefined
  const plan = await findPlan(db, bakeDayId, userId)
  const asked: DayAsked = {
    ...{ bakeDay, zone, kept: plan !== undefined, kitchen: await findKitchen(db, userId) },
    ...{ wishes: plan?.wishes ?? {}, variant: plan?.variant ?? "" },
    onTableAt: plan?.onTableAt ?? suggestedOnTableAt(bakeDay, now),
  }
  return asked
}

export type DayAsked = {
  bakeDay: OwnDay["bakeDay"]
  kept: boolean
  kitchen: Kitchen
  wishes: Wishes
  variant: string
  onTableAt: Date
  zone: string
}

/** That day reckoned; with `notBefore`, nothing of it can begin earlier. */
export function ownDayOf(day: DayAsked, notBefore?: Date): OwnDay {
  const { zone: _, ...asked } = day
  const { content, question, basis } = askedFor(day, notBefore)
  return { ...asked, content, question, answer: planDay(question), basis }
}

/** What is asked for that day, and what it rests on, without an answer yet. */
export function askedFor({ bakeDay, variant, kitchen, wishes, onTableAt, zone }: DayAsked, notBefore?: Date) {
  const content = asMade(bakeDay.content, variant)
  const { ownIngredients: own, targetDoughC } = bakeDay
  const now = notBefore ? { now: notBefore } : {}
  return { content, ...questionOf({ content, own, targetDoughC, kitchen, wishes, onTableAt, zone, ...now }) }
}
