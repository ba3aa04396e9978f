import type { Culture } from "./growth.ts"
import { inverse } from "./inverse.ts"
import { gasMade, gasPerHour, hoursToGas, type Leaven, usualKeeping } from "./leaven.ts"
import { gasForRise, type Keeping, riseFrom } from "./rise.ts"

/** How one dough behaves: it keeps gas like this, and begins so many reference hours late (below 0: early). */
export type Dough = Keeping & { lagHours: number }

/**
 * What is believed of a dough before anything is read: usual values with one standard deviation, of the logarithm for
 * activity and most rise, in reference hours for the lag, which is 0. A most rise of Infinity stays it.
 */
export type DoughPrior = Keeping & { activitySd: number; mostRiseSd: number; lagSd: number }

/**
 * A leaven is within about ± 30 % of the usual, what a dough holds within ± 20, its start within a quarter of an hour.
 * Whoever asks for a rise has seen such a dough reach it: given a target, a dough is believed to hold at least 1.4 times
 * as much, so that a doubled sourdough is not out of reach from the start. Our own judgement, no published source.
 */
export function usualPrior(culture: Culture, targetRise = 0): DoughPrior {
  const { activity, mostRise } = usualKeeping[culture]
  return {
    activity,
    mostRise: Math.max(mostRise, 1.4 * targetRise),
    activitySd: Math.log(1.3),
    mostRiseSd: Math.log(1.2),
    lagSd: 0.25,
  }
}

/**
 * A rise read after so many reference hours, with one standard deviation of its own; shares of the starting volume.
 * `doubts` are errors that it has in common with other readings: what one standard deviation of each adds to its hours
 * (a dough warmer than its curve) or to what was read (a start mark set too low).
 */
export type RiseReading = { hours: number; rise: number; sd: number; doubts?: Doubted[] }
export type Doubted = { hours: number; rise: number }

/** A dough, and how many standard deviations off each common error is. */
export type Likeliest = { dough: Dough; doubts: number[] }

/**
 * What is believed after the readings: the likeliest dough, and the covariance of ln activity, ln most rise, lag and the
 * common errors.
 */
export type FittedDough = Likeliest & { covariance: number[][] }

/**
 * The likeliest dough given prior and readings: Gauss-Newton on the squares of both, halving a step that makes them
 * worse; the covariance from the curvature there. Few readings move little but the activity, more of them what the
 * dough holds and its lag as well. Where readings scatter more than they say, the covariance is widened by the Birge
 * ratio (R. T. Birge 1932, Phys Rev 40:207), beyond what one standard deviation of chance explains. `doubts` is how many
 * common errors there are. Throws RangeError for a reading that is not finite, has no error or not that many doubts.
 */
export function fitDough(
  leaven: Leaven,
  readings: RiseReading[],
  prior: DoughPrior,
  doubts = readings[0]?.doubts?.length ?? 0,
): FittedDough {
  for (const { hours, rise, sd, doubts: own = [] } of readings)
    if (!Number.isFinite(hours + rise) || !(sd > 0) || own.length !== doubts)
      throw new RangeError(`a rise of ${rise} ± ${sd} after ${hours} h, ${own.length} doubts of ${doubts}`)
  const lookAt = (shift: number[]) => look(leaven, readings, prior, shift)
  let here = lookAt([0, 0, 0, ...Array<number>(doubts).fill(0)])
  for (let round = 0; round < mostRounds; round++) {
    const better = stepFrom(here, lookAt)
    if (!better) break
    here = better
  }
  const expected = readings.length + Math.sqrt(2 * readings.length)
  const birge = Math.max(1, here.misfit / Math.max(1, expected))
  const covariance = inverse(here.curvature)!.map((row) => row.map((value) => value * birge))
  return { dough: here.dough, doubts: here.shift.slice(3), covariance }
}
const mostRounds = 20

/** Where the fit stands: how badly it fits, the way down, and the curvature, which the prior keeps from being 0. */
type Place = { shift: number[]; dough: Dough; misfit: number; pull: number[]; curvature: number[][] }

/** The next place of a fit; undefined where there is nothing to gain. */
function stepFrom({ shift, misfit, pull, curvature }: Place, lookAt: (shift: number[]) => Place): Place | undefined {
  const step = inverse(curvature)!.map((row) => dot(row, pull))
  if (dot(step, pull) < leastGain) return undefined
  for (const by of [1, 0.5, 0.25, 0.1, 0.02]) {
    const next = lookAt(shift.map((value, i) => value + by * step[i]!))
    if (next.misfit < misfit) return next
  }
  return undefined
}
const leastGain = 1e-6

function look(leaven: Leaven, readings: RiseReading[], prior: DoughPrior, shift: number[]): Place {
  const dough = moved({ activity: prior.activity, mostRise: prior.mostRise, lagHours: 0 }, shift)
  const [, , , ...off] = shift
  const belief = [prior.activitySd, prior.mostRiseSd, prior.lagSd, ...off.map(() => 1)].map((sd) => sd ** -2)
  const pull = shift.map((value, i) => -value * belief[i]!)
  const curvature = belief.map((weight, i) => belief.map((_, j) => (i === j ? weight : 0)))
  let misfit = -dot(shift, pull)
  for (const { hours, rise, sd, doubts = [] } of readings) {
    const astray = (by: keyof Doubted) => doubts.reduce((sum, one, k) => sum + one[by] * off[k]!, 0)
    const { rise: expected, slopes: own } = riseWithSlopes(leaven, dough, hours + astray("hours"))
    // an hour more is a lag of an hour less
    const slopes = [...own, ...doubts.map((one) => one.rise - own[2]! * one.hours)]
    const missed = (rise - astray("rise") - expected) / sd
    misfit += missed ** 2
    for (let i = 0; i < slopes.length; i++) {
      const slope = slopes[i]! / sd
      pull[i]! += slope * missed
      for (let j = 0; j < slopes.length; j++) curvature[i]![j]! += (slope * slopes[j]!) / sd
    }
  }
  return { shift, dough, misfit, pull, curvature }
}

/** A dough with ln activity, ln most rise and lag shifted. */
const moved = ({ activity, mostRise, lagHours }: Dough, [a, b, c]: number[]): Dough => ({
  activity: activity * Math.exp(a!),
  mostRise: mostRise * Math.exp(b!),
  lagHours: lagHours + c!,
})
const dot = (a: number[], b: number[]) => a.reduce((sum, value, i) => sum + value * b[i]!, 0)

/** The rise after so many reference hours. */
export const riseAfter = (leaven: Leaven, dough: Dough, hours: number): number =>
  riseFrom(gasMade(leaven, Math.max(0, hours - dough.lagHours)), dough)

/**
 * The reference hours to a rise; undefined when it is more than the dough can hold. Throws RangeError for a rise below
 * 0.
 */
export function hoursToRise(leaven: Leaven, dough: Dough, rise: number): number | undefined {
  const gas = gasForRise(rise, dough)
  return gas === undefined ? undefined : dough.lagHours + hoursToGas(leaven, gas)
}

/** The rise after so many reference hours, and by how much it grows with ln activity, ln most rise and lag. */
export function riseWithSlopes(leaven: Leaven, dough: Dough, hours: number): { rise: number; slopes: number[] } {
  const { activity, mostRise, lagHours } = dough
  const working = Math.max(0, hours - lagHours)
  const gas = gasMade(leaven, working)
  const rise = riseFrom(gas, dough)
  const kept = mostRise === Number.POSITIVE_INFINITY ? 1 : 1 - rise / mostRise
  const byActivity = activity * gas * kept
  const byMost = mostRise === Number.POSITIVE_INFINITY ? 0 : rise - byActivity
  const byLag = working > 0 ? -activity * kept * gasPerHour(leaven, working) : 0
  return { rise, slopes: [byActivity, byMost, byLag] }
}

/** By how much the hours to a rise that this dough can hold grow with ln activity, ln most rise and lag. */
export function hoursSlopes(leaven: Leaven, { activity, mostRise }: Dough, rise: number): number[] {
  const gas = gasForRise(rise, { activity, mostRise })!
  const perGas = 1 / gasPerHour(leaven, hoursToGas(leaven, gas))
  const byMost = mostRise === Number.POSITIVE_INFINITY ? 0 : gas - rise / (activity * (1 - rise / mostRise))
  return [-gas * perGas, byMost * perGas, 1]
}

/**
 * The doughs at both ends of an 80 % range of something that grows with these slopes: of all that lie so far out, the
 * likeliest ones. `low` makes it small. Slopes are by ln activity, ln most rise, lag and each common error.
 */
export function doughsAround(
  { dough, doubts, covariance }: FittedDough,
  slopes: number[],
): { low: Likeliest; high: Likeliest } {
  const direction = covariance.map((row) => dot(row, slopes))
  const sd = Math.sqrt(dot(direction, slopes))
  const by = (z: number): Likeliest => {
    if (!(sd > 0)) return { dough, doubts }
    const shift = direction.map((value) => (z * value) / sd)
    return { dough: moved(dough, shift), doubts: doubts.map((value, k) => value + shift[k + 3]!) }
  }
  return { low: by(-inEighty), high: by(inEighty) }
}
// Four fifths of a normal distribution lie within so many standard deviations.
const inEighty = 1.2816
