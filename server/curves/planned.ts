import { riseAfter, usualPrior } from "../dough/fermentation/dough-fit.ts"
import { leavenAfter } from "../dough/fermentation/leaven.ts"
import { referenceHours } from "../dough/fermentation/reference-hours.ts"
import { heldOver, hourMs } from "../dough/fermentation/temperature-curve.ts"
import { risingOf } from "../estimate/rising.ts"
import type { PlotPoint } from "../plots/plot.ts"
import { plannedCurves } from "../table/places.ts"
import type { Laid, Place } from "./measured.ts"

/**
 * How the dough would rise by the model if everything went as planned: the plan's times and temperatures, the formula's
 * leaven, as lively as usual. In per cent; [] where plan or formula do not say enough.
 */
export function plannedRise({ bake, row }: Laid, at: Place): PlotPoint[] {
  const raised = bake.raised.planned
  const rising = plannedRising(row)
  const curve = plannedCurves(row.planned).flatMap((one) => one.curve)
  if ("why" in raised || !rising?.endedAt || !curve.length) return []
  const { metAt, zeroAt, endedAt } = rising
  const { culture } = raised.leaven
  const held = heldOver(curve, metAt, endedAt)
  const leaven = leavenAfter(raised.leaven, referenceHours(held, metAt, zeroAt, culture))
  const { activity, mostRise } = usualPrior(culture, row.targetRise ?? 0)
  const dough = { activity: activity * raised.factor, mostRise, lagHours: 0 }
  return instants(zeroAt, endedAt).flatMap((instant) => {
    const x = at(instant)
    return x === undefined
      ? []
      : [{ x, y: 100 * riseAfter(leaven, dough, referenceHours(held, zeroAt, instant, culture)) }]
  })
}

/** What the bulk is to end with, at the end that the plan gives it. */
export function plannedTarget({ row }: Laid, at: Place): PlotPoint[] {
  const endedAt = plannedRising(row)?.endedAt
  const x = endedAt && at(endedAt)
  return x === undefined || row.targetRise === undefined ? [] : [{ x, y: 100 * row.targetRise }]
}

/** The temperatures that the plan asks for. */
export function plannedTemperatures({ row }: Laid, at: Place): PlotPoint[] {
  const curve = plannedCurves(row.planned).flatMap((one) => one.curve)
  const points = curve.flatMap(({ at: instant, doughC }) => {
    const x = at(instant)
    return x === undefined ? [] : [{ x, y: doughC }]
  })
  // as long as it stays the same, its start and end say all
  return points.filter(({ y }, nth) => y !== points[nth - 1]?.y || y !== points[nth + 1]?.y)
}

/** The rising as it would be logged by somebody who kept to the plan. */
function plannedRising({ planned, stages }: Laid["row"]) {
  const kept = planned.map(({ stage, startsAt, endsAt }) => ({
    ...{ stageKey: stage.key, startedAt: startsAt, endedAt: endsAt, startedAboutMin: null, pauses: [] },
  }))
  return risingOf(stages, kept)
}

/** Every hour, and the end. */
function instants(from: Date, to: Date): Date[] {
  const count = Math.ceil((+to - +from) / hourMs)
  return Array.from({ length: count + 1 }, (_, nth) => new Date(Math.min(+from + nth * hourMs, +to)))
}
