import { startClock } from "./clock.ts"
import {
  type DoughPrior,
  doughsAround,
  type FittedDough,
  fitDough,
  hoursSlopes,
  hoursToRise,
  riseAfter,
  riseWithSlopes,
  usualPrior,
} from "./dough-fit.ts"
import type { Leaven } from "./leaven.ts"
import { type CurvePoint, heldOver, hourMs, movingToward, type Surroundings } from "./temperature-curve.ts"

/** A rise read at an instant, a share of the starting volume with one standard deviation (see jar.ts). */
export type TimedRise = { at: Date; rise: number; sd: number }

export type Question = {
  leaven: Leaven
  /** When the leaven met the flour, and the rise was 0. */
  startsAt: Date
  now: Date
  /** The dough's temperature from the start on, as far as it is known or planned (see doughCurve). */
  curve: CurvePoint[]
  /** Where the dough stands from the curve's end on; without it the dough keeps the temperature it has there. */
  surroundings?: Surroundings
  rises: TimedRise[]
  /** 0.5 is +50 %. */
  targetRise: number
  /** What is believed of leaven and dough; the usual when not given. */
  prior?: DoughPrior
}

/** The middle of what is likely, and the ends of its 80 % range. */
export type Likely = { value: number; low: number; high: number }

/**
 * When the dough reaches its target, in the past if it has; `latest` is missing when the slow end of the range does not
 * get there within 72 h, or cannot. Or why there is no such time.
 */
export type Prediction = { riseNow: Likely } & (
  | { kind: "ready"; readyAt: Date; earliest: Date; latest?: Date }
  | { kind: "not in sight"; why: string }
)

/**
 * When a dough will have its target rise, with an 80 % range, from how its leaven makes gas along its own temperature
 * curve and from the rises read so far. Each reading counts with its own error, and none is taken as better than ± 2
 * points of rise. Throws RangeError for a target that is not above 0, readings outside start to now, and like startClock
 * and fitDough.
 */
export function predictReady(question: Question): Prediction {
  const { leaven, startsAt, now, rises, targetRise, prior = usualPrior(leaven.culture) } = question
  if (!(targetRise > 0)) throw new RangeError(`a target rise must be above 0, not ${targetRise}`)
  for (const { at } of rises)
    if (!(at >= startsAt && at <= now)) throw new RangeError("a rise must be read between the start and now")
  const endsAt = new Date(+now + horizonHours * hourMs)
  const curve = aheadTo(endsAt, question)
  const clock = startClock(curve, startsAt, endsAt, leaven.culture)
  const readings = rises.map(({ at, rise, sd }) => ({ hours: clock.hoursAt(at), rise, sd: Math.hypot(sd, modelSd) }))
  const fitted = fitDough(leaven, readings, prior)

  const riseNow = likelyRise(leaven, fitted, clock.hoursAt(now))
  if (hasFallen(rises)) return { riseNow, kind: "not in sight", why: "It has fallen since it stood highest." }
  const hours = likelyHours(leaven, fitted, targetRise)
  if (!hours) return { riseNow, kind: "not in sight", why: "The target is above what this dough can hold." }
  const readyAt = clock.reachedAt(hours.value)
  if (!readyAt)
    return { riseNow, kind: "not in sight", why: `It is too cold or too weak: not within ${horizonHours} h.` }
  const earliest = clock.reachedAt(hours.low) ?? readyAt
  const latest = hours.high === undefined ? undefined : clock.reachedAt(hours.high)
  return { riseNow, kind: "ready", readyAt, earliest, latest }
}
const horizonHours = 72
// How far a dough strays from any smooth curve, and one jar from the dough. Our own judgement.
const modelSd = 0.02

/** The curve as given, then toward the surroundings or held. */
function aheadTo(endsAt: Date, { curve, surroundings }: Question): CurvePoint[] {
  const last = curve.at(-1)
  if (!last || last.at >= endsAt) return curve
  return surroundings ? [...curve, ...movingToward(last, surroundings, endsAt)] : heldOver(curve, curve[0]!.at, endsAt)
}

function likelyRise(leaven: Leaven, fitted: FittedDough, hours: number): Likely {
  const { low, high } = doughsAround(fitted, riseWithSlopes(leaven, fitted.dough, hours).slopes)
  const value = riseAfter(leaven, fitted.dough, hours)
  const ends = [low, high].map((dough) => riseAfter(leaven, dough, hours))
  // Between readings that contradict each other a range is so wide that its ends may lie on one side of the middle.
  return { value, low: Math.min(value, ...ends), high: Math.max(value, ...ends) }
}

/** Reference hours to the target; undefined when the dough cannot hold it, and `high` when a slow one could not. */
function likelyHours(leaven: Leaven, fitted: FittedDough, targetRise: number) {
  const value = hoursToRise(leaven, fitted.dough, targetRise)
  if (value === undefined) return undefined
  const { low, high } = doughsAround(fitted, hoursSlopes(leaven, fitted.dough, targetRise))
  const slowest = hoursToRise(leaven, high, targetRise)
  return {
    value,
    low: Math.min(value, hoursToRise(leaven, low, targetRise) ?? value),
    high: slowest && Math.max(value, slowest),
  }
}

/** Clearly lower than it stood before: by more than three standard deviations of both readings. */
function hasFallen(rises: TimedRise[]): boolean {
  const last = rises.reduce<TimedRise | undefined>(
    (latest, one) => (latest && latest.at > one.at ? latest : one),
    undefined,
  )
  return rises.some((one) => last !== undefined && one.rise - last.rise > 3 * Math.hypot(one.sd, last.sd, modelSd))
}
