import { hourMs } from "../dough/fermentation/temperature-curve.ts"
import type { PlotPoint } from "../plots/plot.ts"
import { plannedCurves } from "../table/places.ts"
import { plannedRiseOf, plannedRising } from "../table/planned-rise.ts"
import type { Laid, Place } from "./measured.ts"

/** How the dough would rise by the plan, in per cent; [] where plan or formula do not say enough. */
export function plannedRise({ bake, row }: Laid, at: Place): PlotPoint[] {
  const course = plannedRiseOf(row.planned, bake.raised.planned, row.targetRise)
  if (!course) return []
  return instants(course.rising.zeroAt, course.rising.endedAt).flatMap((instant) => {
    const x = at(instant)
    return x === undefined ? [] : [{ x, y: 100 * course.riseAt(instant) }]
  })
}

/** What the bulk is to end with, at the end that the plan gives it. */
export function plannedTarget({ row }: Laid, at: Place): PlotPoint[] {
  const endedAt = plannedRising(row.planned)?.endedAt
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

/** Every hour, and the end. */
function instants(from: Date, to: Date): Date[] {
  const count = Math.ceil((+to - +from) / hourMs)
  return Array.from({ length: count + 1 }, (_, nth) => new Date(Math.min(+from + nth * hourMs, +to)))
}
