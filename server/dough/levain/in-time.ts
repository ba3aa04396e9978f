import { rate } from "../fermentation/growth.ts"
import { hourMs } from "../fermentation/temperature-curve.ts"
import {
  alike,
  type Build,
  buildsFrom,
  buildsUntil,
  type Count,
  counts,
  feedingsOf,
  hoursOf,
  isEnough,
  type Levain,
  limitsFor,
  mostFrom,
  quickestShare,
  shareFilling,
} from "./builds.ts"
import { shareRipeAfter } from "./ripening.ts"

/** When somebody can feed a levain first, when it is wanted ripe, and when nobody feeds it in between. */
export type Between = { feedAt: Date; ripeAt: Date; away?: { from: Date; to: Date }[] }

/**
 * The builds of a levain that is to be ripe at a given time. "late": the quickest there are from that feeding on, because of the
 * "time" or because of the "starter" there is; to be in time they would have to be fed at `feedBy`. "early": even the thinnest would
 * be ripe before, so they are fed later than asked. "too little": not even the most builds make that much; `makesG` is
 * what they can make for the dough. `once` is when a single feeding would do, where several fill the time.
 */
export type InTime =
  | { kind: "in time"; builds: Build[]; once?: Date; atNight: boolean }
  | { kind: "late"; builds: Build[]; because: "time" | "starter"; feedBy: Date }
  | { kind: "early"; builds: Build[] }
  | { kind: "too little"; makesG: number }

/**
 * How to feed a levain so that it is ripe at a given time: as few builds as fill it, or the number asked for, all of one
 * share, since that takes least starter for the time. Never more starter than there is. Throws RangeError for a time that
 * does not lie after the feeding, and where nothing grows at that temperature.
 */
export function inTime(levain: Levain, between: Between, asked?: Count): InTime {
  const { feedAt, ripeAt } = between
  const hours = (+ripeAt - +feedAt) / hourMs
  if (!(hours > 0)) throw new RangeError("the time to be ripe must lie after the feeding")
  if (!(rate(levain.atC) > 0)) throw new RangeError(`nothing grows at ${levain.atC} °C`)
  const tried = (asked ? [asked] : counts).map((count) => tryOut(count, hours, levain))
  const fitting = tried.find(({ how }) => how === "fits")
  if (fitting)
    return { kind: "in time", ...awake(fitting.count, levain, between), ...onceLater(fitting.count, levain, ripeAt) }
  const slow = tried.find(({ how }) => how === "slow")
  if (slow)
    return {
      kind: "early",
      builds: buildsUntil(thinnest(slow.count, levain), levain, ripeAt),
    }
  return quickest(tried, levain, between)
}

type Tried = { count: Count; how: "fits" | "quick" | "slow" | "starter" }

/** Whether so many equal feedings fill the time, or would have to be quicker or slower than feedings are. */
function tryOut(count: Count, hours: number, levain: Levain): Tried {
  const { least, most } = limitsFor(count, levain)
  const share = shareFilling(hours, count, levain)
  if (share > most) return { count, how: "quick" }
  const enough = isEnough(alike(Math.max(share, least), count, levain), levain)
  return { count, how: !enough ? "starter" : share < least ? "slow" : "fits" }
}

function quickest(tried: Tried[], levain: Levain, { feedAt, ripeAt }: Between): InTime {
  const ways = tried.flatMap(({ count }) => {
    const share = quickestShare(count, levain)
    return share === undefined ? [] : [alike(share, count, levain)]
  })
  const [best] = ways.toSorted((a, b) => hoursOf(a, levain.rise) - hoursOf(b, levain.rise))
  if (!best)
    return {
      kind: "too little",
      makesG: mostFrom(thinnest(Math.max(...tried.map(({ count }) => count)) as Count, levain), levain),
    }
  const builds = buildsFrom(best, levain, feedAt)
  const lateMs = +builds.at(-1)!.ripe.at - +ripeAt
  const first = tried[0]!
  const quickestOfAll = alike(limitsFor(first.count, levain).most, first.count, levain)
  const because = first.how === "quick" && isEnough(quickestOfAll, levain) ? "time" : "starter"
  return { kind: "late", builds, because, feedBy: new Date(+feedAt - lateMs) }
}

const thinnest = (count: Count, levain: Levain) => alike(limitsFor(count, levain).least, count, levain)

function onceLater(count: Count, levain: Levain, ripeAt: Date): { once?: Date } {
  if (count === 1) return {}
  const one = thinnest(1, levain)
  return isEnough(one, levain) ? { once: buildsUntil(one, levain, ripeAt)[0]!.feedAt } : {}
}

/**
 * The builds with their feedings moved out of the hours in which nobody feeds: each to the nearer end of them, as far as the feedings stay
 * within their limits and find starter enough; else they stay in equal times and are `atNight`.
 */
function awake(count: Count, levain: Levain, { feedAt, ripeAt, away = [] }: Between) {
  const step = (+ripeAt - +feedAt) / count
  const equal = Array.from({ length: count - 1 }, (_, index) => new Date(+feedAt + step * (index + 1)))
  const within = (at: Date) => away.find(({ from, to }) => from < at && at < to)
  const choices = equal.map((at) => {
    const span = within(at)
    return span ? [span.from, span.to] : [at]
  })
  const moved = (times: Date[]) => times.reduce((sum, at, index) => sum + Math.abs(+at - +equal[index]!), 0)
  const ways = combined(choices)
    .filter((times) => !times.some(within))
    .toSorted((a, b) => moved(a) - moved(b))
  const limits = limitsFor(count, levain)
  for (const times of ways) {
    const ends = [feedAt, ...times, ripeAt]
    const hours = ends.slice(1).map((at, index) => (+at - +ends[index]!) / hourMs)
    const shares = hours.map((one) =>
      one > 0 ? shareRipeAfter(one * rate(levain.atC), levain.rise) : Number.POSITIVE_INFINITY,
    )
    if (shares.some((share) => share > limits.most || share < limits.least)) continue
    const feedings = feedingsOf(shares, levain)
    if (isEnough(feedings, levain)) return { builds: buildsFrom(feedings, levain, feedAt), atNight: false }
  }
  const share = shareFilling((+ripeAt - +feedAt) / hourMs, count, levain)
  return { builds: buildsFrom(alike(share, count, levain), levain, feedAt), atNight: true }
}

const combined = (choices: Date[][]): Date[][] =>
  choices.reduce<Date[][]>((ways, next) => ways.flatMap((way) => next.map((at) => [...way, at])), [[]])
