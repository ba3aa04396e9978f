import { stageNow } from "../bakes/progress.ts"
import { countBack, type PlannedStage, pausedMin, type Stage } from "../dough/schedule.ts"
import type { Pause } from "../schema.ts"

type Mark = {
  stageKey: string
  startedAt: Date
  endedAt: Date | null
  pauses: Pause[]
  startedAboutMin: number | null
}
export type SoFar = {
  stages: Stage[]
  onTableAt: Date
  marks: Mark[]
  /** Keys of the stages that were left out. */
  skipped?: string[]
  finishedAt: Date | null
  abandonedAt: Date | null
  /** When anything last came from this bench, pressing "start" included. */
  heardAt: Date
}

/** Where a dough stands. `since` is when that began, `next` what comes then and when it was planned to begin. */
export type Place =
  | { in: "stage"; stage: Stage; since: Date; pausedSince: Date | null; plan: PlannedStage }
  | { in: "between"; stage: Stage; since: Date; next: PlannedStage }
  | { in: "beginning"; next: PlannedStage | null }
  | { in: "done" | "finished" | "given up"; since: Date }

/** Against the baker's own plan, in minutes. */
export type Pace = { is: "on plan" } | { is: "ahead" | "behind"; minutes: number }

/**
 * Nothing has come for longer than it should, since an instant: than a short stage takes; than three hours of a long one;
 * past the end, `by` then, of one to sleep through; past the planned start of the next one.
 */
export type Quiet = { since: Date; stage: Stage } & (
  | { why: "short" }
  | { why: "long" }
  | { why: "slept" | "next"; by: Date }
)

export type Bench = { place: Place; pace: Pace | null; quiet: Quiet | null }

// Our own judgement, all of them. A tap comes a few minutes late:
const leastSlackMin = 5
// nobody looks at a dough more often than this, nor should a class worry before;
const [shortestSilenceMin, longestSilenceMin] = [30, 180]
// a stage of more than so long is one to sleep through, as a retard is, and nobody writes before breakfast.
const sleepMin = 8 * 60
const breakfastMin = 60

/**
 * Where one dough stands at an instant, how that lies against its baker's own plan, and whether its baker has gone quiet.
 * Throws RangeError like countBack.
 */
export function benchAt(bake: SoFar, now: Date): Bench {
  const place = placeOf(bake)
  return { place, pace: paceOf(place, bake, now), quiet: quietIn(place, bake.heardAt, now) }
}

function placeOf({ stages, onTableAt, marks, skipped, finishedAt, abandonedAt }: SoFar): Place {
  if (finishedAt) return { in: "finished", since: finishedAt }
  if (abandonedAt) return { in: "given up", since: abandonedAt }
  const plan = countBack(stages, onTableAt)
  const planOf = (stage: Stage | undefined) => plan.find((planned) => planned.stage === stage)
  const { running, done, next } = stageNow(marks, stages, skipped)
  if (running) {
    const { startedAt, pauses } = running.mark
    const pause = pauses.find(({ to }) => to === null)
    const pausedSince = pause ? new Date(pause.from) : null
    return { in: "stage", stage: running.stage, since: startedAt, pausedSince, plan: planOf(running.stage)! }
  }
  const last = done.toSorted((a, b) => +a.mark.endedAt! - +b.mark.endedAt!).at(-1)
  if (!last) return { in: "beginning", next: planOf(next) ?? null }
  const since = last.mark.endedAt!
  return next ? { in: "between", stage: last.stage, since, next: planOf(next)! } : { in: "done", since }
}

/**
 * How far a dough is from its plan, in minutes: when its running stage will end if it takes the middle of its range, or
 * ends now when it has taken longer, against when it was planned to; between stages, now against the planned start of the
 * next. Within half of the stage's own range it is on plan. null where there is nothing to compare any more, or not yet.
 */
function paceOf(place: Place, { marks, stages, onTableAt }: SoFar, now: Date): Pace | null {
  if (place.in === "stage") {
    const { startedAt, pauses, startedAboutMin } = marks.find(({ stageKey }) => stageKey === place.stage.key)!
    const endsAt = +startedAt + (middleMin(place.stage) + pausedMin(pauses, now)) * 60_000
    return compared(
      minutesBetween(place.plan.endsAt, Math.max(endsAt, +now)),
      slackOf(place.stage) + (startedAboutMin ?? 0),
    )
  }
  if (place.in === "between") return compared(minutesBetween(place.next.startsAt, now), slackOf(place.stage))
  if (place.in === "beginning") {
    const lateMin = place.next ? minutesBetween(place.next.startsAt, now) : 0
    return place.next && lateMin > slackOf(place.next.stage) ? { is: "behind", minutes: lateMin } : null
  }
  const last = stages.at(-1)
  return place.in === "done" && last ? compared(minutesBetween(onTableAt, place.since), slackOf(last)) : null
}

const compared = (lateMin: number, slackMin: number): Pace =>
  Math.abs(lateMin) <= slackMin
    ? { is: "on plan" }
    : { is: lateMin > 0 ? "behind" : "ahead", minutes: Math.abs(lateMin) }

const middleMin = ({ lowMin, highMin }: Stage) => (lowMin + highMin) / 2
const slackOf = ({ lowMin, highMin }: Stage) => Math.max(leastSlackMin, (highMin - lowMin) / 2)
const minutesBetween = (from: Date, to: Date | number) => (+to - +from) / 60_000

/** A loaf that cools, or one that is done, worries nobody. */
function quietIn(place: Place, since: Date, now: Date): Quiet | null {
  const silentMin = minutesBetween(since, now)
  if (place.in === "stage") return place.stage.kind === "cool" ? null : quietInStage(place, since, now)
  if (!("next" in place) || !place.next || silentMin <= longestSilenceMin) return null
  const { stage, startsAt: by } = place.next
  const allowedMin = place.in === "between" ? shortestSilenceMin : longestSilenceMin
  return minutesBetween(by, now) > allowedMin ? { since, stage, why: "next", by } : null
}

function quietInStage(place: { stage: Stage; since: Date }, since: Date, now: Date): Quiet | null {
  const { stage } = place
  const silentMin = minutesBetween(since, now)
  if (stage.kind === "retard" || stage.highMin > sleepMin) {
    const by = new Date(+place.since + stage.highMin * 60_000)
    return Math.min(silentMin, minutesBetween(by, now)) > breakfastMin ? { since, stage, why: "slept", by } : null
  }
  if (stage.highMin > longestSilenceMin) return silentMin > longestSilenceMin ? { since, stage, why: "long" } : null
  return silentMin > Math.max(shortestSilenceMin, stage.highMin) ? { since, stage, why: "short" } : null
}
