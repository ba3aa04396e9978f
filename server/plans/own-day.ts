import { findBakeDay, findPlan } from "../bake-days/queries.ts"
import { suggestedOnTableAt } from "../bake-days/window.ts"
import type { Db } from "../db.ts"
import { countBack } from "../dough/schedule.ts"
import { asMade, cultureOf } from "../formulas/content.ts"
import type { OwnDay, Planner } from "./day.ts"

/** One person's own day for a bake day, from their kitchen and what they wish; undefined where there is no such bake day. */
export async function findOwnDay(db: Db, { id: userId }: Planner, bakeDayId: number, now: Date) {
  const bakeDay = await findBakeDay(db, bakeDayId)
  if (!bakeDay) return undefined
  const plan = await findPlan(db, bakeDayId, userId)
  const onTableAt = plan?.onTableAt ?? suggestedOnTableAt(bakeDay, now)
  const variant = plan?.variant ?? ""
  const content = asMade(bakeDay.content, variant)
  const stages = countBack(content.stages, onTableAt).map((planned) => ({
    ...planned,
    ...{ place: "room" as const, startC: 24, endC: 24, hours: 0, handsOn: [] },
  }))
  const day: OwnDay = {
    ...{ bakeDay, kitchen: {}, wishes: plan?.wishes ?? {}, variant, onTableAt },
    question: {
      ...{ stages: content.stages, culture: cultureOf(content, bakeDay.ownIngredients), places: { room: 24 } },
      ...{ mixedC: { value: 24, known: "assumed" }, onTableBy: onTableAt, away: [], loads: 1 },
    },
    answer: {
      fits: true,
      plan: { stages, curve: [], loads: [], startsAt: stages[0]?.startsAt ?? onTableAt, onTableAt },
    },
  }
  return day
}
