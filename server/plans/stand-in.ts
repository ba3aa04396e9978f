import type { DayAnswer, DayQuestion } from "../dough/day/day.ts"
import { countBack } from "../dough/schedule.ts"

/** Until dough/day/plan-day.ts is there. */
export function planDay({ stages, onTableBy, mixedC }: DayQuestion): DayAnswer {
  const planned = countBack(stages, onTableBy).map((stage) => ({
    ...stage,
    ...{ place: "room" as const, startC: mixedC.value, endC: mixedC.value, hours: 0 },
    handsOn: [],
  }))
  const startsAt = planned[0]?.startsAt ?? onTableBy
  return { fits: true, plan: { stages: planned, curve: [], loads: [], startsAt, onTableAt: onTableBy } }
}
