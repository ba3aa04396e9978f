import { askedOf } from "../dough/day/asked.ts"
import type { DayPlan, DayQuestion, DayStage, Place } from "../dough/day/day.ts"

/** A stage of a day with what a reader asks of it: where it stands, whether its warmth is a dough's, a levain's or of no use. */
export type CourseStage = DayStage & { where: string; warmth: "dough" | "levain" | "none" }

/** The stages of a day in the words of a kitchen whose places are called so. */
export function courseOf({ stages }: DayPlan, question: DayQuestion, names: Record<Place, string>): CourseStage[] {
  const phases = new Map(askedOf(question).map(({ stage, phase }) => [stage.key, phase]))
  return stages.map((one) => {
    const phase = phases.get(one.stage.key)
    const isDough = phase === "mixing" || phase === "dough"
    const ripens = phase === "before" && one.stage.drivenByTemperature
    const where = phase === "oven" ? "oven" : isDough || ripens ? names[one.place] : ""
    return { ...one, where, warmth: isDough ? "dough" : ripens ? "levain" : "none" }
  })
}
