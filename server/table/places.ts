import { startClock } from "../dough/fermentation/clock.ts"
import { type Culture, referenceC } from "../dough/fermentation/growth.ts"
import { type CurvePoint, doughCurve, heldOver } from "../dough/fermentation/temperature-curve.ts"
import { fermentingStages, type PlannedStage, type Stage } from "../dough/schedule.ts"
import { dayOf, instantAt } from "../web/zones.ts"
import { type Facts, spansWithin } from "./facts.ts"

/**
 * What all bakes are lined up by: when the bread was wanted, the first start of fermentation, the start of a stage of that
 * key, the clock, or the dough's own progress, where an hour is a reference hour and no temperature is left to be seen.
 */
export const linings = ["table", "start", "clock", "reference"] as const
export type Lined = (typeof linings)[number] | `from-${string}`

const hourMs = 3_600_000

/** Where an instant lies, in hours from a bake's zero; of what is not on the axis at all, undefined. */
type Place = (at: Date) => number | undefined
/** `unmarked`: nobody marked what bakes are lined up by, so this one stands where its plan has it. */
export type Places = { actual: Place; planned: Place; unmarked: boolean }

/** A bake, with the time zone of its class where that is not the one of all. */
export type Zoned = Facts & { zone?: string }

/** The hours of a bake's own instants and of its plan's, by what all are lined up by. */
export function placesOf(facts: Zoned, { lined, zone }: { lined: Lined; zone: string }): Places {
  if (lined === "reference") return inReferenceHours(facts)
  if (lined === "table") return from(facts.onTableAt, facts.onTableAt)
  if (lined === "clock") {
    const midnight = midnightOf(facts.onTableAt, facts.zone ?? zone)
    return from(midnight, midnight)
  }
  return fromStage(facts, lined)
}

const from = (zero: Date, plannedZero: Date, unmarked = false): Places => ({
  ...{ actual: (at) => (+at - +zero) / hourMs, planned: (at) => (+at - +plannedZero) / hourMs },
  unmarked,
})

/** Counted from noon: on the day the clocks change, the hours after the change are the ones people bake in. */
function midnightOf(at: Date, zone: string) {
  return new Date(+instantAt(`${dayOf(at, zone)}T12:00`, zone)! - 12 * hourMs)
}

function fromStage(facts: Facts, lined: Lined): Places {
  const fermenting = fermentingStages(facts.stages)
  const stage = lined === "start" ? fermenting[0] : facts.stages.find(({ key }) => `from-${key}` === lined)
  const planned = (facts.planned.find((one) => one.stage === stage) ?? facts.planned[0])?.startsAt ?? facts.onTableAt
  const spans =
    lined === "start" ? spansWithin(facts.spans, fermenting) : spansWithin(facts.spans, stage ? [stage] : [])
  return from(spans[0]?.startsAt ?? planned, planned, spans.length === 0 && facts.spans.length > 0)
}

function inReferenceHours({ spans, stages, planned, fermented, warmth, culture }: Facts): Places {
  const times = [...spansWithin(spans, fermentingStages(stages)), ...(fermented ? [fermented] : [])]
  const own = warmth && clockOver(warmth.curve, times, culture)
  return { actual: own ?? nowhere, planned: plannedClock(planned, culture) ?? nowhere, unmarked: false }
}
const nowhere: Place = () => undefined

/** What lies before the first or after the last of these times counts as their ends. */
function clockOver(
  curve: CurvePoint[],
  times: { startsAt: Date; endsAt: Date }[],
  culture: Culture,
): Place | undefined {
  if (!times.length) return undefined
  const startsAt = new Date(Math.min(...times.map((time) => +time.startsAt)))
  const endsAt = new Date(Math.max(...times.map((time) => +time.endsAt)))
  return startClock(heldOver(curve, startsAt, endsAt), startsAt, endsAt, culture).hoursAt
}

function plannedClock(planned: PlannedStage[], culture: Culture): Place | undefined {
  const curves = plannedCurves(planned)
  if (!curves.length) return undefined
  const times = curves.map(({ curve }) => ({ startsAt: curve[0]!.at, endsAt: curve.at(-1)!.at }))
  return clockOver(
    curves.flatMap(({ curve }) => curve),
    times,
    culture,
  )
}

/**
 * The temperatures a plan asks for, stage by stage from start to end, as `plannedReferenceHours` reckons them; [] when a
 * driven stage has no reference temperature.
 */
export function plannedCurves(planned: PlannedStage[]): { stage: Stage; curve: CurvePoint[] }[] {
  const fermenting = fermentingStages(planned.map(({ stage }) => stage))
  if (fermenting.some((stage) => stage.drivenByTemperature && stage.referenceC === undefined)) return []
  let doughC = fermenting[0]?.referenceC ?? referenceC
  return planned
    .filter(({ stage }) => fermenting.includes(stage))
    .map(({ stage, startsAt, endsAt }) => {
      const curve = heldOver(plannedCurve(stage, startsAt, endsAt, doughC), startsAt, endsAt)
      doughC = stage.referenceC ?? doughC
      return { stage, curve }
    })
}

function plannedCurve(stage: Stage, startsAt: Date, endsAt: Date, beforeC: number): CurvePoint[] {
  if (stage.kind !== "retard") return doughCurve([{ at: startsAt, doughC: stage.referenceC ?? beforeC }], [])
  const fridge = { startsAt, endsAt, cold: true, surroundingsC: stage.referenceC }
  return doughCurve([{ at: startsAt, doughC: beforeC }], [fridge])
}
