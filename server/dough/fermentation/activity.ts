import { type Answer, enough, notEnough } from "../statistics/answer.ts"
import { type DoughPrior, fitDough, type RiseReading } from "./dough-fit.ts"
import type { Leaven } from "./leaven.ts"

/**
 * One bake's readings of rise, in reference hours since its rise was 0 (see risesByClock). Of its dough, what differs from
 * the prior's: how fast it lets a leaven work (`factor`, see doughFactor) and how much it can hold.
 */
export type Bake = { leaven: Leaven; readings: RiseReading[]; factor?: number; mostRise?: number }

/** A leaven's activity with its 80 % range; `sd` is one standard deviation of its logarithm. */
export type Activity = { activity: number; low: number; high: number; sd: number }

/**
 * How active a leaven is, from the bakes it raised: each bake's readings move what was believed before it, from the
 * prior on. Without readings it is the prior. Throws RangeError like fitDough.
 */
export function activityOf(bakes: Bake[], prior: DoughPrior): Activity {
  let { activity, activitySd } = prior
  for (const { leaven, readings, factor = 1, mostRise = prior.mostRise } of bakes) {
    const before = { ...prior, mostRise, activity: activity * factor, activitySd }
    const { dough, covariance } = fitDough(leaven, readings, before)
    activity = dough.activity / factor
    activitySd = Math.sqrt(covariance[0]![0]!)
  }
  return told(Math.log(activity), activitySd)
}

const told = (log: number, sd: number): Activity => ({
  activity: Math.exp(log),
  low: Math.exp(log - inEighty * sd),
  high: Math.exp(log + inEighty * sd),
  sd,
})
const inEighty = 1.2816

/** What to believe of a leaven's next dough: as active as it was, give or take what it differs from day to day. */
export const nextPrior = ({ activity, sd }: Activity, prior: DoughPrior): DoughPrior => ({
  ...prior,
  activity,
  activitySd: Math.hypot(sd, leastSpread),
})

/**
 * What a class's own leavens teach to believe of one of its leavens, from their activities under one prior: a normal
 * distribution of the logarithms, of which each activity is one uncertain sighting (random effects by DerSimonian &
 * Laird 1986, Control Clin Trials 7:177, from memory, not checked against the page). Used as the prior of a student's
 * activityOf, it draws a poorly known leaven toward the class and leaves a well known one alone. "Not enough" with
 * fewer than five leavens that readings say something of (readings that contradict each other do not); then the prior
 * stays the better belief.
 */
export function classPrior(activities: Activity[], prior: DoughPrior): Answer<DoughPrior> {
  const seen = activities
    .map((one) => withoutPrior(one, prior))
    .filter(({ weight }) => weight > leastSaid / prior.activitySd ** 2)
  if (seen.length < leastLeavens)
    return notEnough(`A class needs readings of ${leastLeavens} leavens to compare by; there are ${seen.length}.`)
  const among = varianceAmong(seen)
  const weights = seen.map(({ weight }) => 1 / (1 / weight + among))
  const total = sum(weights)
  const mean = sum(seen.map(({ log }, i) => weights[i]! * log)) / total
  const activitySd = Math.sqrt(Math.max(among, leastSpread ** 2) + 1 / total)
  return enough({ ...prior, activity: Math.exp(mean), activitySd })
}
// Our own judgement: a leaven counts when its readings say at least a tenth of what the prior does; five show a spread;
// and no class is so alike that leavens, or the same one from day to day, differ by less than 10 %.
const leastSaid = 0.1
const leastLeavens = 5
const leastSpread = 0.1

type Sighting = { log: number; weight: number }

/** What the readings alone said: the posterior's precision less the prior's. */
function withoutPrior({ activity, sd }: Activity, prior: DoughPrior): Sighting {
  const [after, before] = [1 / sd ** 2, 1 / prior.activitySd ** 2]
  const weight = after - before
  return { log: (after * Math.log(activity) - before * Math.log(prior.activity)) / weight, weight }
}

/** How far leavens truly differ, beyond what their own uncertainty explains. */
function varianceAmong(seen: Sighting[]) {
  const total = sum(seen.map(({ weight }) => weight))
  const mean = sum(seen.map(({ log, weight }) => weight * log)) / total
  const scatter = sum(seen.map(({ log, weight }) => weight * (log - mean) ** 2))
  return Math.max(0, (scatter - (seen.length - 1)) / (total - sum(seen.map(({ weight }) => weight ** 2)) / total))
}

const sum = (values: number[]) => values.reduce((total, value) => total + value, 0)
