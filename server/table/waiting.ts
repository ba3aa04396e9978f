import { fermentingStages } from "../dough/schedule.ts"
import { type Facts, minutesBetween } from "./facts.ts"

/** How long a dough that was ready waited for the oven, min; undefined where either is not marked. */
export function waitIn({ stages, spans }: Pick<Facts, "stages" | "spans">): number | undefined {
  const last = fermentingStages(stages).at(-1)
  const end = spans.find(({ stage, end }) => stage.key === last?.key && end === "marked")?.endsAt
  const ovenAt = spans.find(({ stage }) => stage.kind === "bake")?.startsAt
  return end && ovenAt ? minutesBetween(end, ovenAt) : undefined
}
