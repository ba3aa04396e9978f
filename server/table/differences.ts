import type { Change } from "../changes/as-baked.ts"
import { type Culture, rate } from "../dough/fermentation/growth.ts"
import { referenceHours } from "../dough/fermentation/reference-hours.ts"
import { meanDoughC } from "../dough/fermentation/temperature-curve.ts"
import { fermentingStages, type Stage } from "../dough/schedule.ts"
import { type Facts, minutesBetween } from "./facts.ts"
import type { Span } from "./spans.ts"
import { waitIn } from "./waiting.ts"

/**
 * One way in which a bake differed from its plan or its formula. `weight` orders them: roughly the share of the planned
 * fermentation that it added or took away. `min` in minutes and `c` in °C are above 0 for longer, later, warmer.
 */
export type Difference = { weight: number } & (
  | { kind: "length"; stage: string; min: number }
  | { kind: "wait"; min: number }
  | { kind: "oven"; min: number }
  | { kind: "warmth"; c: number }
  | { kind: "rise"; share: number; target: number }
  | { kind: "change"; change: Change }
)

// Below these nobody would call it a difference; all are our own judgement, no published source.
const least = { lengthMin: 10, waitMin: 15, ovenMin: 30, warmthC: 0.8, riseShare: 0.08 }
// A missed target rise or a late oven is a sign more than a cause, so each counts less than its size. Our own judgement.
const riseWeight = 0.1
const ovenWeight = 0.2

/** The differences worth a word, the largest first. */
export function differencesOf(facts: Facts): Difference[] {
  return [
    ...[...lengths(facts), ...waiting(facts), ...warmth(facts), ...rise(facts), ...oven(facts)],
    ...changed(facts),
  ].sort((a, b) => b.weight - a.weight)
}

/** A stage inside its planned range is on plan, wherever in it. */
function lengths({ stages, times, plannedHours, culture }: Facts): Difference[] {
  const fermenting = fermentingStages(stages)
  return times.flatMap(({ stage, actualMin, difference }): Difference[] => {
    if (actualMin === undefined || difference === undefined || !fermenting.includes(stage)) return []
    const inside = actualMin >= stage.lowMin && actualMin <= stage.highMin
    if (inside || Math.abs(difference) < least.lengthMin) return []
    return [
      { kind: "length", stage: stage.name, min: difference, weight: shareOf(difference, stage, plannedHours, culture) },
    ]
  })
}

/** Dough that is ready and waits for a hot oven goes on fermenting. */
function waiting({ stages, spans, plannedHours, culture }: Facts): Difference[] {
  const last = fermentingStages(stages).at(-1)
  const min = waitIn({ stages, spans })
  if (!last || min === undefined || min < least.waitMin) return []
  return [{ kind: "wait", min, weight: shareOf(min, last, plannedHours, culture) }]
}

const shareOf = (min: number, { referenceC }: Stage, plannedHours: number | undefined, culture: Culture) =>
  ((Math.abs(min) / 60) * (referenceC === undefined ? 1 : rate(referenceC, culture))) / (plannedHours ?? 8)

/** Mean over time of dough minus reference temperature, in the driven stages; a fridge is left out, it is mostly assumed. */
function warmth({ stages, spans, warmth, plannedHours, culture }: Facts): Difference[] {
  if (!warmth) return []
  const driven = spans.filter(isDriven).filter(({ stage }) => stages.includes(stage))
  const parts = driven.flatMap(({ stage, startsAt, endsAt }) => {
    const meanC = meanDoughC(warmth.curve, startsAt, endsAt)
    if (meanC === undefined) return []
    const hours = minutesBetween(startsAt, endsAt) / 60
    const gained = referenceHours(warmth.curve, startsAt, endsAt, culture) - hours * rate(stage.referenceC, culture)
    return [{ hours, off: (meanC - stage.referenceC) * hours, gained }]
  })
  const hours = sum(parts.map((part) => part.hours))
  if (hours === 0) return []
  const c = sum(parts.map((part) => part.off)) / hours
  if (Math.abs(c) < least.warmthC) return []
  return [{ kind: "warmth", c, weight: Math.abs(sum(parts.map((part) => part.gained))) / (plannedHours ?? 8) }]
}
const isDriven = (span: Span): span is Span & { stage: { referenceC: number } } =>
  span.stage.drivenByTemperature && span.stage.kind !== "retard" && span.stage.referenceC !== undefined
const sum = (values: number[]) => values.reduce((total, value) => total + value, 0)

function rise({ state, rise, targetRise }: Facts): Difference[] {
  if (
    state !== "over" ||
    !rise ||
    rise.known === "assumed" ||
    !targetRise ||
    Math.abs(rise.share - targetRise) < least.riseShare
  )
    return []
  const weight = (Math.abs(rise.share - targetRise) / targetRise) * riseWeight
  return [{ kind: "rise", share: rise.share, target: targetRise, weight }]
}

function oven({ planned, spans, plannedHours }: Facts): Difference[] {
  const actual = spans.find(({ stage }) => stage.kind === "bake")
  const intended = planned.find(({ stage }) => stage.key === actual?.stage.key)
  if (!actual || !intended) return []
  const min = minutesBetween(intended.startsAt, actual.startsAt)
  if (Math.abs(min) < least.ovenMin) return []
  return [{ kind: "oven", min, weight: (Math.abs(min) / 60 / (plannedHours ?? 8)) * ovenWeight }]
}

/** What was done otherwise is told, whatever it did: only a skipped stage that temperature drives, and a leaven, weigh. */
function changed({ changes, stages, plannedHours, culture }: Facts): Difference[] {
  return changes.map((change) => {
    const stage = change.kind === "skipped" ? stages.find(({ key }) => key === change.stageKey) : undefined
    if (!stage?.drivenByTemperature) return { kind: "change", change, weight: change.leaven ? leavenWeight : 0 }
    const weight = shareOf((stage.lowMin + stage.highMin) / 2, stage, plannedHours, culture)
    return { kind: "change", change, weight }
  })
}
// More or less leaven moves a dough by hours, none at all by everything. Our own judgement.
const leavenWeight = 0.5
