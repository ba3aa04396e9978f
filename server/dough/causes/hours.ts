import type { Culture } from "../fermentation/growth.ts"
import { rate } from "../fermentation/growth.ts"
import { type CurvePoint, heldOver, hourMs, meanDoughC, stretchesOf } from "../fermentation/temperature-curve.ts"
import { type Doubt, startClocks } from "../fermentation/temperature-doubt.ts"
import { coolingHours } from "../schedule.ts"
import { asTwo } from "./draws.ts"

/** What the plan asks for: minutes at a dough temperature, or `cooling` toward it in a fridge. */
export type PlannedStretch = { min: number; c: number; cooling: boolean }

/**
 * From one mark to the next: what happened, whatever it was called, beside what the plan has in its place. Legs follow each
 * other without a gap, so waiting counts, and a stage that was skipped is planned time in which nothing was done.
 * `aboutMin`: how far off the start may be either way.
 */
export type Leg = { startsAt: Date; endsAt: Date; planned: PlannedStretch[]; aboutMin?: number }

/** A dough's temperature from the first leg to the last, and what is doubtful about it. */
export type Warmth = { curve: CurvePoint[]; doubts: Doubt[] }

/**
 * Reference hours with the times and the temperatures of the plan or of the bake: [both planned, times as baked,
 * temperatures as baked, both as baked]. `timeErrors` say what one standard deviation of the marks adds to the second and
 * the fourth, `warmthErrors` what one of the temperatures adds to the third and the fourth.
 */
export type Hours = {
  of: [number, number, number, number]
  timeErrors: [number, number][]
  warmthErrors: [number, number][]
}

/**
 * The four reference hours of a bake. Without a temperature the dough is taken as planned. A leg that was shorter than its
 * plan is held at its last temperature where the plan's time is asked for. Throws like startClock.
 */
export function hoursOf(legs: Leg[], endAboutMin: number, warmth: Warmth | undefined, culture: Culture): Hours {
  const planned = plannedHours(legs, legs.map(plannedMin), culture)
  const longer = plannedHours(legs, legs.map(actualMin), culture)
  const warm = warmth && warmHours(legs, warmth, culture)
  const asPlanned = sum(planned)
  const asTimed = sum(longer)
  const atStart = warm?.startRate ?? paceOf(planned[0]!, legs[0]!)
  const atEnd = warm?.endRate ?? paceOf(planned.at(-1)!, legs.at(-1)!)
  return {
    of: [asPlanned, asTimed, warm?.plannedTime ?? asPlanned, warm?.actualTime ?? asTimed],
    timeErrors: asTwo(markErrors(legs, endAboutMin, planned, { atStart, atEnd })),
    warmthErrors: warm ? asTwo(warm.errors) : [],
  }
}

/** Planned minutes of a leg. */
export const plannedMin = ({ planned }: Leg): number => sum(planned.map(({ min }) => min))
/** Minutes a leg took. */
export const actualMin = ({ startsAt, endsAt }: Leg): number => (+endsAt - +startsAt) / 60_000

const sum = (values: number[]) => values.reduce((total, value) => total + value, 0)

/** Each leg's reference hours at the plan's temperatures, in these minutes; a leg of several stages shares them out as its plan does. */
function plannedHours(legs: Leg[], minutes: number[], culture: Culture): number[] {
  let doughC = legs[0]!.planned[0]!.c
  return legs.map((leg, at) => {
    const whole = plannedMin(leg)
    const share = (min: number) => (whole > 0 ? min / whole : 1 / leg.planned.length)
    return sum(
      leg.planned.map(({ min, c, cooling }) => {
        const hours = (minutes[at]! * share(min)) / 60
        const fromC = doughC
        doughC = c
        return cooling ? coolingHours(fromC, c, hours, culture) : hours * rate(c, culture)
      }),
    )
  })
}

/** Reference hours a minute at the plan's temperatures. */
function paceOf(hours: number, leg: Leg) {
  const min = plannedMin(leg)
  return min > 0 ? hours / min : 0
}

function warmHours(legs: Leg[], { curve: read, doubts }: Warmth, culture: Culture) {
  const [startsAt, endsAt] = [legs[0]!.startsAt, legs.at(-1)!.endsAt]
  const curve = heldOver(read, startsAt, endsAt)
  const clocks = startClocks(curve, doubts, { startsAt, endsAt, culture })
  const clock = clocks.at([])
  const rateAt = (at: Date) => rate(stretchesOf(curve, new Date(+at - 1), at).at(-1)!.toC, culture) / 60

  const parts = legs.map((leg) => {
    const [from, whole] = [clock.hoursAt(leg.startsAt), clock.hoursAt(leg.endsAt)]
    const plannedEnd = +leg.startsAt + plannedMin(leg) * 60_000
    const beyondMin = (plannedEnd - +leg.endsAt) / 60_000
    const inPlan = beyondMin > 0 ? whole + beyondMin * rateAt(leg.endsAt) : clock.hoursAt(new Date(plannedEnd))
    const [byStart, byEnd] = [clocks.hoursBy(leg.startsAt), clocks.hoursBy(leg.endsAt)]
    return { actual: whole - from, planned: inPlan - from, by: byEnd.map((hours, k) => hours - byStart[k]!) }
  })
  // what is off in a leg is off in as much of it as is asked for
  const errors = doubts.map((_, k): [number, number] => [
    sum(parts.map(({ by, planned, actual }) => (actual > 0 ? (by[k]! * planned) / actual : 0))),
    sum(parts.map(({ by }) => by[k]!)),
  ])
  return {
    plannedTime: sum(parts.map(({ planned }) => planned)),
    actualTime: sum(parts.map(({ actual }) => actual)),
    errors,
    startRate: rateAt(new Date(+startsAt + 1)),
    endRate: rateAt(endsAt),
  }
}

/** A mark that is off moves time from one leg into the next; at either end of the bake it adds or takes away fermentation itself. */
function markErrors(
  legs: Leg[],
  endAboutMin: number,
  planned: number[],
  { atStart, atEnd }: { atStart: number; atEnd: number },
): [number, number][] {
  const paces = legs.map((leg, at) => paceOf(planned[at]!, leg))
  const abouts = [...legs.map(({ aboutMin = 0 }) => aboutMin), endAboutMin]
  return abouts.flatMap((about, at): [number, number][] => {
    // of times that are all as likely, one standard deviation
    const sd = about / Math.sqrt(3)
    if (sd === 0) return []
    const byPlan = (paces[at - 1] ?? 0) - (paces[at] ?? 0)
    const asBaked = at === 0 ? -atStart : at === legs.length ? atEnd : 0
    return [[sd * byPlan, sd * asBaked]]
  })
}

/**
 * By how much the dough was warmer than planned, °C, on average over time; legs through a fridge are left out, their
 * temperature is mostly reckoned. undefined when there are no others.
 */
export function warmerC(legs: Leg[], { curve }: Warmth): number | undefined {
  const parts = legs
    .filter(({ planned }) => !planned.some(({ cooling }) => cooling))
    .flatMap((leg) => {
      const meanC = meanDoughC(curve, leg.startsAt, leg.endsAt)
      if (meanC === undefined) return []
      const min = plannedMin(leg)
      const plannedC = min > 0 ? sum(leg.planned.map((one) => one.c * one.min)) / min : leg.planned[0]!.c
      return [{ hours: (+leg.endsAt - +leg.startsAt) / hourMs, offC: meanC - plannedC }]
    })
  const hours = sum(parts.map((part) => part.hours))
  return hours > 0 ? sum(parts.map((part) => part.hours * part.offC)) / hours : undefined
}

/**
 * The plan's own pace in reference hours a minute: that of the stretch in which it does most of its fermenting, so that a
 * night in the fridge does not make hours of minutes. 0 where the plan has no time.
 */
export function planPace(legs: Leg[], culture: Culture): number {
  let [doughC, most, pace] = [legs[0]!.planned[0]!.c, 0, 0]
  for (const { min, c, cooling } of legs.flatMap(({ planned }) => planned)) {
    const hours = cooling ? coolingHours(doughC, c, min / 60, culture) : (min / 60) * rate(c, culture)
    if (hours > most) [most, pace] = [hours, hours / min]
    doughC = c
  }
  return pace
}
