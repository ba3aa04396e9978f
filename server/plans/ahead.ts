import { and, eq } from "drizzle-orm"
import type { Bake } from "../bakes/queries.ts"
import type { Db } from "../db.ts"
import { planDay } from "../dough/day/plan-day.ts"
import { countBack, type PlannedStage } from "../dough/schedule.ts"
import { kitchens, plans, users } from "../schema.ts"
import { questionOf } from "./question.ts"

type Baking = Pick<
  Bake,
  "userId" | "bakeDayId" | "content" | "ownIngredients" | "targetDoughC" | "onTableAt" | "finishedAt" | "abandonedAt"
>

/**
 * What a bench says of times ahead: the baker's own day, by the baker's kitchen and clock, for the formula as it is being
 * made. Of a bake that is over, and where no own day can be reckoned, the formula's plan, against which it is compared.
 */
export async function plannedStages(db: Db, bake: Baking): Promise<PlannedStage[]> {
  const byFormula = countBack(bake.content.stages, bake.onTableAt)
  if (bake.finishedAt || bake.abandonedAt) return byFormula
  const [row] = await db
    .select({ zone: users.zone, kitchen: kitchens.content, wishes: plans.wishes })
    .from(users)
    .leftJoin(kitchens, eq(kitchens.userId, users.id))
    .leftJoin(plans, and(eq(plans.userId, users.id), eq(plans.bakeDayId, bake.bakeDayId)))
    .where(eq(users.id, bake.userId))
  if (!row) return byFormula
  const { question } = questionOf({
    ...{ content: bake.content, own: bake.ownIngredients, targetDoughC: bake.targetDoughC, zone: row.zone },
    ...{ kitchen: row.kitchen ?? {}, wishes: row.wishes ?? {}, onTableAt: bake.onTableAt },
  })
  const { plan } = planDay(question)
  return byFormula.map((planned) => {
    const own = plan?.stages.find(({ stage }) => stage.key === planned.stage.key)
    return own ? { ...own, stage: planned.stage } : planned
  })
}
