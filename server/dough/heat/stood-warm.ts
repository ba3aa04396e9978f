import { usualRetardC } from "../fermentation/end-points.ts"
import { type CurvePoint, doughCurve, stretchesOf } from "../fermentation/temperature-curve.ts"
import type { Stage } from "../schedule.ts"

/**
 * The temperatures, °C, beyond which rules count the hours of food that spoils: 5 °C (41 °F) is as warm as it may be kept,
 * 21 °C (70 °F) the most for six hours by time alone (US FDA Food Code, sections 3-501.16 and 3-501.19), 32 °C (90 °F) where
 * households are told one hour instead of two (USDA Food Safety and Inspection Service). In °C as those texts print them.
 */
export const warmFromC = { cold: 5, room: 21, hot: 32 } as const

/** Minutes in which a dough is warmer than each of `warmFromC`; `assumed` where nobody said how warm it is. */
export type StoodWarm = { cold: number; room: number; hot: number; assumed: boolean }

/** Between two instants of a dough's temperature curve. Throws RangeError for an empty curve or an end before the start. */
export function stoodWarm(curve: CurvePoint[], startsAt: Date, endsAt: Date): StoodWarm {
  const above = (limitC: number) => minutesAbove(curve, startsAt, endsAt, limitC)
  const { cold, room, hot } = warmFromC
  return { cold: above(cold), room: above(room), hot: above(hot), assumed: false }
}

/**
 * The same of stages as they are written, one after the other and each as long as it may be, at the dough temperature that
 * each is meant for; in a retard the dough cools as `doughCurve` has it. A stage without a temperature keeps that before it,
 * and what no stage says is taken for an ordinary kitchen's. Throws RangeError for minutes below 0.
 */
export function stoodWarmAsWritten(stages: Pick<Stage, "kind" | "highMin" | "referenceC">[]): StoodWarm {
  const said = stages.find(({ kind, referenceC }) => kind !== "retard" && referenceC !== undefined)?.referenceC
  let doughC = said ?? ordinaryC
  const total: StoodWarm = { cold: 0, room: 0, hot: 0, assumed: stages.length > 0 && said === undefined }
  for (const { kind, highMin, referenceC } of stages) {
    if (!(highMin >= 0)) throw new RangeError(`${highMin} min is not a duration`)
    const toC = referenceC ?? (kind === "retard" ? usualRetardC : doughC)
    const [startsAt, endsAt] = [new Date(0), new Date(highMin * minuteMs)]
    const cold = kind === "retard"
    const curve = doughCurve(
      [{ at: startsAt, doughC: cold ? doughC : toC }],
      [{ startsAt, endsAt, surroundingsC: toC, cold }],
    )
    const stood = stoodWarm(curve, startsAt, endsAt)
    for (const limit of ["cold", "room", "hot"] as const) total[limit] += stood[limit]
    doughC = cold ? curve.at(-1)!.doughC : toC
  }
  return total
}
// An ordinary kitchen's dough, where the formula says nothing. Our own choice.
const ordinaryC = 24

const minuteMs = 60_000

/** Minutes between two instants in which the curve is above `limitC`. Throws like stoodWarm. */
function minutesAbove(curve: CurvePoint[], startsAt: Date, endsAt: Date, limitC: number): number {
  const minutes = stretchesOf(curve, startsAt, endsAt).map((stretch) => {
    const long = (+stretch.endsAt - +stretch.startsAt) / minuteMs
    return long * shareAbove(stretch.fromC, stretch.toC, limitC)
  })
  return minutes.reduce((sum, one) => sum + one, 0)
}

/** Of a straight line from one temperature to another, the share above a third. */
function shareAbove(fromC: number, toC: number, limitC: number) {
  const [low, high] = [Math.min(fromC, toC), Math.max(fromC, toC)]
  if (low > limitC) return 1
  return high <= limitC ? 0 : (high - limitC) / (high - low)
}
