import { type DoughPrior, riseAfter, usualPrior } from "../dough/fermentation/dough-fit.ts"
import { gasMade, leavenAfter } from "../dough/fermentation/leaven.ts"
import { referenceHours } from "../dough/fermentation/reference-hours.ts"
import { gasForRise } from "../dough/fermentation/rise.ts"
import { heldOver } from "../dough/fermentation/temperature-curve.ts"
import type { PlannedStage } from "../dough/schedule.ts"
import type { Raised } from "../estimate/leaven.ts"
import { type Rising, risingOf } from "../estimate/rising.ts"
import { plannedCurves } from "./places.ts"

/** A dough that keeps to its plan: when it rises, what it has risen by then, and how much gas it has made. */
export type PlannedRise = {
  rising: Rising & { endedAt: Date }
  gasAt: (at: Date) => number
  riseAt: (at: Date) => number
}

/**
 * How the dough would rise by the model if everything went as planned: the plan's times and temperatures, the formula's
 * leaven, as lively as usual. undefined where plan or formula do not say enough.
 */
export function plannedRiseOf(
  planned: PlannedStage[],
  raised: Raised | undefined,
  targetRise = 0,
): PlannedRise | undefined {
  const rising = plannedRising(planned)
  const curve = plannedCurves(planned).flatMap((one) => one.curve)
  if (!raised || "why" in raised || !rising?.endedAt || !curve.length) return undefined
  const { metAt, zeroAt, endedAt } = rising
  const { culture } = raised.leaven
  const held = heldOver(curve, metAt, endedAt)
  const leaven = leavenAfter(raised.leaven, referenceHours(held, metAt, zeroAt, culture))
  const { activity, mostRise } = usualPrior(culture, targetRise)
  const dough = { activity: activity * raised.factor, mostRise, lagHours: 0 }
  const hoursAt = (at: Date) => referenceHours(held, zeroAt, at, culture)
  return {
    rising: { ...rising, endedAt },
    gasAt: (at) => gasMade(leaven, hoursAt(at)),
    riseAt: (at) => riseAfter(leaven, dough, hoursAt(at)),
  }
}

/**
 * How lively the plan takes the leaven to be: so that the dough has its target rise when the bulk is to end. As usual where
 * no target is given, or plan or formula do not say enough.
 */
export function plannedActivity(
  planned: PlannedStage[],
  raised: Exclude<Raised, { why: string }>,
  { activity, mostRise }: Pick<DoughPrior, "activity" | "mostRise">,
  targetRise: number | null,
): number {
  const usual = activity * raised.factor
  const course = targetRise ? plannedRiseOf(planned, raised, targetRise) : undefined
  if (!targetRise || !course) return usual
  const made = course.gasAt(course.rising.endedAt)
  const wanted = gasForRise(targetRise, { activity: 1, mostRise })
  return made > 0 && wanted ? wanted / made : usual
}

/** The rising as it would be logged by somebody who kept to the plan. */
export function plannedRising(planned: PlannedStage[]): Rising | undefined {
  const kept = planned.map(({ stage, startsAt, endsAt }) => ({
    ...{ stageKey: stage.key, startedAt: startsAt, endedAt: endsAt, startedAboutMin: null, pauses: [] },
  }))
  return risingOf(
    planned.map(({ stage }) => stage),
    kept,
  )
}
