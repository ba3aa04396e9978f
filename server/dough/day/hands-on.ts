import type { AskedStage } from "./asked.ts"
import type { DayPlan, DayStage } from "./day.ts"
import { common, freeFor, type Spans, spread, type Taken } from "./minutes.ts"

/** The minutes of hands on the dough that one step of a day needs: at its start, at its end, or here and there in between. */
export type HandsOn = { atStartMin: number; atEndMin: number; foldsMin: number }

/** Carrying a dough from one place to another, or bread out of the oven. Our own judgement. */
const leastMin = 2

/**
 * What a stage needs of somebody's hands. Folds in a bulk come between; a bake is loaded at its start and taken out at its
 * end; anything else is done first; and a dough that changes its place is carried there.
 */
export function handsOnOf(asked: AskedStage, before: AskedStage | undefined, after: AskedStage | undefined): HandsOn {
  const { stage, phase } = asked
  const { kind, handsOnMin } = stage
  const none = { atStartMin: 0, atEndMin: 0, foldsMin: 0 }
  if (phase === "oven") {
    const [isFirst, isLast] = [before?.phase !== "oven", after?.phase !== "oven"]
    const half = isLast ? handsOnMin / 2 : handsOnMin
    return {
      ...none,
      atStartMin: isFirst ? Math.max(leastMin, half) : half,
      atEndMin: isLast ? Math.max(leastMin, handsOnMin / 2) : 0,
    }
  }
  const isCarried = before !== undefined && before.phase !== "oven" && phase !== "after" && before.place !== asked.place
  const carriedMin = isCarried ? leastMin : 0
  if (kind === "bulk" && handsOnMin > 0) return { ...none, atStartMin: carriedMin, foldsMin: handsOnMin }
  return { ...none, atStartMin: Math.max(handsOnMin, carriedMin) }
}

/** Folds of a bulk: how many, how long each, and how far from one to the next, all in minutes. */
export type Folds = { count: number; eachMin: number; everyMin: number }

/**
 * Folds in the first half of a bulk that is at least so long: about five minutes each, three quarters of an hour apart or
 * closer where it is short (common practice: every 30 to 60 minutes). undefined where they would fill it: then it is all done first.
 */
export function foldsIn(foldsMin: number, shortestMin: number): Folds | undefined {
  const count = Math.min(mostFolds, Math.max(1, Math.round(foldsMin / usualFoldMin)))
  const eachMin = foldsMin / count
  const everyMin = Math.min(usuallyEveryMin, Math.floor(shortestMin / 2 / (count + 0.5)))
  return everyMin >= 2 * eachMin ? { count, eachMin, everyMin } : undefined
}
const mostFolds = 4
const usualFoldMin = 5
const usuallyEveryMin = 45

/** Each fold has its own stretch of the bulk, in minutes from its start, in which it may come sooner or later. */
const stretchesOf = ({ count, everyMin }: Folds) =>
  Array.from({ length: count }, (_, i) => ({ from: everyMin * (i + 0.5), wished: everyMin * (i + 1) }))

/** When a bulk may begin so that somebody is there for each of its folds. */
export function startsFor(folds: Folds, taken: Taken[]): Spans {
  const free = freeFor(folds.eachMin, taken)
  return stretchesOf(folds).reduce<Spans>(
    (starts, { from }) => common(starts, spread(free, -(from + folds.everyMin - folds.eachMin), -from)),
    [[Number.NEGATIVE_INFINITY, Number.POSITIVE_INFINITY]],
  )
}

/** When the folds of a bulk come that begins at this minute: as near as somebody is there to when they are wished. */
export function foldTimes(folds: Folds, startMin: number, taken: Taken[]): number[] {
  const free = freeFor(folds.eachMin, taken)
  return stretchesOf(folds).map(({ from, wished }) => {
    const own: Spans = [[startMin + from, startMin + from + folds.everyMin - folds.eachMin]]
    return nearestTo(common(free, own), startMin + wished) ?? startMin + wished
  })
}
const nearestTo = (spans: Spans, wished: number) => {
  const clipped = spans.map(([from, to]) => Math.min(Math.max(from, wished), to))
  return clipped.toSorted((a, b) => Math.abs(a - wished) - Math.abs(b - wished))[0]
}

/** The moments of a day in which somebody must be there, in order, each with its stage: for a calendar. */
export const handsOnMoments = (plan: DayPlan): { stage: DayStage; from: Date; to: Date }[] =>
  plan.stages
    .flatMap((stage) => stage.handsOn.map((moment) => ({ stage, ...moment })))
    .toSorted((a, b) => +a.from - +b.from)
