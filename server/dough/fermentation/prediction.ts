import type { Share } from "../amounts.ts"
import {
  type Doubted,
  type DoughPrior,
  doughsAround,
  type FittedDough,
  fitDough,
  hoursSlopes,
  hoursToRise,
  type Likeliest,
  type RiseReading,
  riseAfter,
  riseWithSlopes,
  usualPrior,
} from "./dough-fit.ts"
import type { Leaven } from "./leaven.ts"
import { type CurvePoint, heldOver, hourMs, movingToward, type Surroundings } from "./temperature-curve.ts"
import { type Doubt, type DoubtedClock, doubtsOf, startClocks } from "./temperature-doubt.ts"

/**
 * A rise read at an instant, a share of the starting volume with one standard deviation (see jar.ts). Readings from one
 * `startMark` share its error, `sd` of the whole volume, and their own `sd` is that of the upper mark alone. `aboutMin` is
 * how far off the time may be either way.
 */
export type TimedRise = {
  at: Date
  rise: number
  sd: number
  startMark?: { name: string; sd: Share }
  aboutMin?: number
}

export type Question = {
  leaven: Leaven
  /** When the leaven met the flour, and the rise was 0. */
  startsAt: Date
  now: Date
  /** The dough's temperature from the start on, as far as it is known or planned (see doughCurve). */
  curve: CurvePoint[]
  /** Where the dough stands from the curve's end on; without it the dough keeps the temperature it has there. */
  surroundings?: Surroundings
  /** How the dough may be warmer or colder than that; what doubtsOf says of the curve when not given. */
  doubts?: Doubt[]
  rises: TimedRise[]
  /** 0.5 is +50 %. */
  targetRise: number
  /** What is believed of leaven and dough; usualPrior for that target when not given. */
  prior?: DoughPrior
}

/** The middle of what is likely, and the ends of its 80 % range. */
export type Likely = { value: number; low: number; high: number }

/**
 * When the dough reaches its target, in the past if it has; `latest` is missing when the slow end of the range does not
 * get there within 72 h, or cannot. Or why there is no such time. `riseAt` is told for any instant from the start to 72 h
 * from now, `hoursAt` are the reference hours since the start by the curve as it was read.
 */
export type Prediction = { riseNow: Likely; riseAt(at: Date): Likely; hoursAt(at: Date): number } & Time
export type Time =
  | { kind: "ready"; readyAt: Date; earliest: Date; latest?: Date }
  | { kind: "not in sight"; why: string }

/**
 * When a dough will have its target rise, with an 80 % range, from how its leaven makes gas along its own temperature
 * curve and from the rises read so far. Each reading counts with its own error, and none is taken as better than ± 2
 * points of rise; what readings have in common (a dough warmer than its curve says, a start mark set too low) is reckoned
 * as such. Throws RangeError for a target that is not above 0, readings outside start to now, and like startClock and
 * fitDough.
 */
export function predictReady(question: Question): Prediction {
  const { leaven, startsAt, now, rises, targetRise } = question
  if (!(targetRise > 0)) throw new RangeError(`a target rise must be above 0, not ${targetRise}`)
  for (const { at } of rises)
    if (!(at >= startsAt && at <= now)) throw new RangeError("a rise must be read between the start and now")
  const endsAt = new Date(+now + horizonHours * hourMs)
  const { curve, doubts = doubtsOf(curve, startsAt), prior = usualPrior(leaven.culture, targetRise) } = question
  const clocks = startClocks(aheadTo(endsAt, question), doubts, { startsAt, endsAt, culture: leaven.culture })
  const readings = readingsOf(rises, leaven, clocks, prior)
  const fitted = fitDough(leaven, readings, prior, readings[0]?.doubts?.length ?? doubts.length)

  const riseAt = (at: Date) => likelyRise(leaven, fitted, clocks, at)
  const told = { riseNow: riseAt(now), riseAt, hoursAt: clocks.at([]).hoursAt }
  if (hasFallen(rises)) return { ...told, kind: "not in sight", why: "It has fallen since it stood highest." }
  return { ...told, ...likelyTime(leaven, fitted, clocks, targetRise) }
}
const horizonHours = 72

/**
 * The rises that were read in one bake, by its clock, for activityOf. `curve` reaches from the start to the last of
 * them. Throws like predictReady.
 */
export function risesByClock(bake: Pick<Question, "leaven" | "startsAt" | "curve" | "doubts" | "rises" | "prior">) {
  const { leaven, startsAt, curve, rises, doubts = doubtsOf(curve, startsAt) } = bake
  const clocks = startClocks(curve, doubts, { startsAt, endsAt: curve.at(-1)?.at ?? startsAt, culture: leaven.culture })
  return readingsOf(rises, leaven, clocks, bake.prior ?? usualPrior(leaven.culture))
}

function readingsOf(rises: TimedRise[], leaven: Leaven, clocks: DoubtedClock, prior: DoughPrior): RiseReading[] {
  const clock = clocks.at([])
  const starts = [...new Set(rises.flatMap(({ startMark }) => (startMark ? [startMark.name] : [])))]
  return rises.map(({ at, rise, sd, startMark, aboutMin = 0 }) => {
    const hours = clock.hoursAt(at)
    const offMs = (aboutMin / Math.sqrt(3)) * 60_000 // of times that are all as likely, one standard deviation
    const offHours = (clock.hoursAt(new Date(+at + offMs)) - clock.hoursAt(new Date(+at - offMs))) / 2
    const perHour = riseWithSlopes(leaven, { ...prior, lagHours: 0 }, hours).slopes[2]!
    const ofStart = starts.map((name) => ({ hours: 0, rise: startMark?.name === name ? (1 + rise) * startMark.sd : 0 }))
    const ofHours = clocks.hoursBy(at).map((by): Doubted => ({ hours: by, rise: 0 }))
    return { hours, rise, sd: Math.hypot(sd, modelSd, offHours * perHour), doubts: [...ofHours, ...ofStart] }
  })
}
// How far a dough strays from any smooth curve, and one jar from the dough. Our own judgement.
const modelSd = 0.02

/** The curve as given, then toward the surroundings or held. */
function aheadTo(endsAt: Date, { curve, surroundings }: Question): CurvePoint[] {
  const last = curve.at(-1)
  if (!last || last.at >= endsAt) return curve
  return surroundings ? [...curve, ...movingToward(last, surroundings, endsAt)] : heldOver(curve, curve[0]!.at, endsAt)
}

function likelyRise(leaven: Leaven, fitted: FittedDough, clocks: DoubtedClock, at: Date): Likely {
  const [hours, hoursBy] = [clocks.at([]).hoursAt(at), clocks.hoursBy(at)]
  const hoursOf = (doubts: number[]) => hoursBy.reduce((sum, by, k) => sum + by * doubts[k]!, hours)
  const riseOf = ({ dough, doubts }: Likeliest) => riseAfter(leaven, dough, hoursOf(doubts))
  const own = riseWithSlopes(leaven, fitted.dough, hoursOf(fitted.doubts)).slopes
  const slopes = withDoubts(
    own,
    hoursBy.map((by) => -own[2]! * by),
    fitted,
  )
  const { low, high } = doughsAround(fitted, slopes)
  const [value, ...ends] = [fitted, low, high].map(riseOf) as [number, number, number]
  // Between readings that contradict each other a range is so wide that its ends may lie on one side of the middle.
  return { value, low: Math.min(value, ...ends), high: Math.max(value, ...ends) }
}

/** The end of the range is missing where a slow dough could not hold the target, or not within the horizon. */
function likelyTime(leaven: Leaven, fitted: FittedDough, clocks: DoubtedClock, targetRise: number): Time {
  const notInSight = (why: string): Time => ({ kind: "not in sight", why })
  const timeOf = ({ dough, doubts }: Likeliest) => {
    const hours = hoursToRise(leaven, dough, targetRise)
    return hours === undefined ? undefined : clocks.at(doubts).reachedAt(hours)
  }
  if (hoursToRise(leaven, fitted.dough, targetRise) === undefined)
    return notInSight("The target is above what this dough can hold.")
  const readyAt = timeOf(fitted)
  if (!readyAt) return notInSight(`It is too cold or too weak: not within ${horizonHours} h.`)
  // The slopes change on the way out, most for a dough near its limit: the end is sought again with those found there.
  const endOf = (side: "low" | "high") => {
    let [end, at]: [Likeliest, Date | undefined] = [fitted, readyAt]
    for (let round = 0; at && round < 3; round++) {
      const hoursBy = clocks.hoursBy(at).map((by) => -by)
      end = doughsAround(fitted, withDoubts(hoursSlopes(leaven, end.dough, targetRise), hoursBy, fitted))[side]
      at = timeOf(end)
    }
    return at
  }
  const [soonest = readyAt, slowest] = [endOf("low"), endOf("high")]
  return {
    kind: "ready",
    readyAt,
    earliest: new Date(Math.min(+soonest, +readyAt)),
    latest: slowest && new Date(Math.max(+slowest, +readyAt)),
  }
}

/** Slopes by the dough, by its clock's doubts, and 0 for the marks of jars, which move no dough. */
const withDoubts = (own: number[], ofClock: number[], { doubts }: FittedDough) => [
  ...own,
  ...doubts.map((_, k) => ofClock[k] ?? 0),
]

/** Clearly lower than it stood before: by more than three standard deviations of both readings. */
function hasFallen(rises: TimedRise[]): boolean {
  const last = rises.reduce<TimedRise | undefined>(
    (latest, one) => (latest && latest.at > one.at ? latest : one),
    undefined,
  )
  return rises.some((one) => last !== undefined && one.rise - last.rise > 3 * Math.hypot(one.sd, last.sd, modelSd))
}
