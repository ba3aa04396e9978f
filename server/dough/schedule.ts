import { type Culture, rate } from "./fermentation/growth.ts"
import { referenceHours } from "./fermentation/reference-hours.ts"
import { doughCurve } from "./fermentation/temperature-curve.ts"

export const stageKinds = ["mix", "rest", "bulk", "fold", "divide", "shape", "proof", "retard", "bake", "cool"] as const
export type StageKind = (typeof stageKinds)[number]

/** Durations in minutes, `referenceC` the dough temperature in °C they are meant for. */
export type Stage = {
  key: string
  kind: StageKind
  name: string
  lowMin: number
  highMin: number
  referenceC?: number
  drivenByTemperature: boolean
  handsOnMin: number
  cue: string
  tip: string
}

export type PlannedStage = {
  stage: Stage
  startsAt: Date
  endsAt: Date
  earliestStart: Date
  latestStart: Date
  earliestEnd: Date
  latestEnd: Date
}

/**
 * Clock times for stages that run one after another and end at `onTableAt`. `startsAt` and `endsAt` take the middle of
 * every range. Earliest is when all stages from there on take their longest, latest when they take their shortest.
 * Throws RangeError for a duration that is negative, not a number, or whose range runs backwards.
 */
export function countBack(stages: Stage[], onTableAt: Date): PlannedStage[] {
  const planned: PlannedStage[] = []
  let [middle, earliest, latest] = [onTableAt, onTableAt, onTableAt]
  for (const stage of stages.toReversed()) {
    checkDuration(stage)
    const ends = { endsAt: middle, earliestEnd: earliest, latestEnd: latest }
    middle = minutesBefore(middle, middleMin(stage))
    earliest = minutesBefore(earliest, stage.highMin)
    latest = minutesBefore(latest, stage.lowMin)
    planned.unshift({ stage, startsAt: middle, earliestStart: earliest, latestStart: latest, ...ends })
  }
  return planned
}

/** Minutes of pauses, ISO instants, one that is not over yet up to `until`; 0 for a pause that ends before it begins. */
export function pausedMin(pauses: { from: string; to: string | null }[], until: Date): number {
  const lengths = pauses.map(({ from, to }) => (to === null ? +until : Date.parse(to)) - Date.parse(from))
  return lengths.reduce((total, ms) => total + Math.max(0, ms), 0) / 60_000
}

const middleMin = ({ lowMin, highMin }: Stage) => (lowMin + highMin) / 2
const minutesBefore = (at: Date, minutes: number) => new Date(+at - minutes * 60_000)

/** Throws RangeError for a duration that is negative, not a number, or whose range runs backwards. */
export function checkDuration({ name, lowMin, highMin }: Stage) {
  if (!(lowMin >= 0 && lowMin <= highMin && highMin < Number.POSITIVE_INFINITY))
    throw new RangeError(`${name}: ${lowMin} to ${highMin} min is not a duration`)
}

/** All stages from the first that temperature drives to the last; [] when it drives none. */
export function fermentingStages(stages: Stage[]): Stage[] {
  const first = stages.findIndex(({ drivenByTemperature }) => drivenByTemperature)
  const last = stages.findLastIndex(({ drivenByTemperature }) => drivenByTemperature)
  return first < 0 ? [] : stages.slice(first, last + 1)
}

/**
 * The hours at `referenceC` of fermentation/growth.ts that the plan asks for, from the start of the first driven stage to
 * the end of the last, at middle durations. Each stage is at its own reference temperature; one in between without any
 * keeps that of the stage before. In a retard the dough cools toward its reference temperature as in `doughCurve`: held at
 * the fridge's temperature from the first minute it would seem to ferment far less than it will.
 * undefined when no stage is driven, or a driven one has no reference temperature. Throws RangeError like countBack.
 */
export function plannedReferenceHours(stages: Stage[], culture: Culture = "sourdough"): number | undefined {
  const fermenting = fermentingStages(stages)
  if (!fermenting.length) return undefined
  if (fermenting.some((stage) => stage.drivenByTemperature && stage.referenceC === undefined)) return undefined
  let doughC = fermenting[0]!.referenceC!
  let total = 0
  for (const stage of fermenting) {
    checkDuration(stage)
    const toC = stage.referenceC ?? doughC
    const hours = middleMin(stage) / 60
    total += stage.kind === "retard" ? coolingHours(doughC, toC, hours, culture) : hours * rate(toC, culture)
    doughC = toC
  }
  return total
}

/**
 * The reference hours of so many hours in a fridge at `surroundingsC`, of a dough that comes to it at `fromC`: as a logged
 * bake is reckoned from one reading at the fridge door. Throws RangeError for hours below 0.
 */
export function coolingHours(fromC: number, surroundingsC: number, hours: number, culture: Culture) {
  const startsAt = new Date(0)
  const endsAt = new Date(hours * 3_600_000)
  const curve = doughCurve([{ at: startsAt, doughC: fromC }], [{ startsAt, endsAt, surroundingsC, cold: true }])
  return referenceHours(curve, startsAt, endsAt, culture)
}
