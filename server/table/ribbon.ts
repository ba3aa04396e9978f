import { type Culture, rate, referenceC, worksBetween } from "../dough/fermentation/growth.ts"
import { type CurvePoint, doughCurve, stretchesOf } from "../dough/fermentation/temperature-curve.ts"
import { fermentingStages, type PlannedStage, type Stage, type StageKind } from "../dough/schedule.ts"
import type { Axis } from "./axis.ts"
import { offsetH, originOf } from "./axis.ts"
import { type Facts, spansWithin } from "./facts.ts"
import type { Span } from "./spans.ts"

/** x from 0 at the left end of the axis to `ribbonWidth`, y downward from the top; both in units of the drawing. */
export type XY = [x: number, y: number]
type Area = { kind: StageKind | "between"; assumed: boolean; points: XY[] }
export type Ribbon = {
  areas: Area[]
  plan: XY[][]
  oven: Bar[]
  plannedOven: Bar[]
  names: { x: number; words: string }[]
  /** `guessed`: felt or assumed, not measured. */
  dots: { x: number; y: number; from: "dough" | "room"; guessed: boolean }[]
  /** The bake runs on beyond an end of the axis. */
  beyond: { before: boolean; after: boolean }
}
type Bar = { x: number; width: number }

export const ribbonWidth = 1000
const ribbonHeight = 64
/** Height of the rate 1, so that the fastest dough of each culture is equally high: sourdough's at 27 °C, 1.2 times that of 1. */
export const rateHeightOf = (culture: Culture) => fastest / rate(worksBetween[culture].bestC, culture)
const fastest = 53

/**
 * A bake as areas over one time axis. Height is the fermentation rate at the dough's own temperature, 1 at 24 °C, so an
 * area divided by `rateHeightOf` and by the axis's units an hour is the reference hours in it, whatever the temperature.
 */
export function drawRibbon(facts: Facts, axis: Axis): Ribbon {
  const origin = originOf(facts, axis)
  const x = (at: Date, from = origin.actual) => xAt(offsetH(at, from), axis)
  const fermenting = spansWithin(facts.spans, fermentingStages(facts.stages))
  const baking = facts.spans.filter(({ stage }) => stage.kind === "bake")
  const yAt = heightsOf(facts.culture)
  const inside = (at: number) => at >= 0 && at <= ribbonWidth
  const ends = [...fermenting, ...baking].flatMap(({ startsAt, endsAt }) => [x(startsAt), x(endsAt)])
  const stretches = facts.fermented ? [...fermenting, facts.fermented] : fermenting
  const areas = facts.warmth ? areasOf(fermenting, stretches, facts.warmth.curve, (at) => x(at), yAt) : []
  return {
    areas,
    plan: planOf(facts.planned, (at) => x(at, origin.planned), yAt),
    oven: barsOf(baking, (at) => x(at)),
    plannedOven: barsOf(
      facts.planned.filter(({ stage }) => stage.kind === "bake"),
      (at) => x(at, origin.planned),
    ),
    names: namesOf(areas),
    dots: (facts.warmth?.points ?? [])
      .map(({ at, c, known }) => ({ x: x(at), y: yAt(c), from: facts.warmth!.from, guessed: known !== undefined }))
      .filter((dot) => inside(dot.x)),
    beyond: { before: ends.some((end) => end < 0), after: ends.some((end) => end > ribbonWidth) },
  }
}

const xAt = (hours: number, { fromH, toH }: Axis) => ((hours - fromH) / (toH - fromH)) * ribbonWidth
const heightsOf =
  (culture: Culture): YAt =>
  (doughC) =>
    ribbonHeight - rateHeightOf(culture) * rate(doughC, culture)
type YAt = (doughC: number) => number

/** The time from the first start to the last end, cut at every mark; what lies between two stages ferments as well. */
function areasOf(spans: Span[], stretches: Time[], curve: CurvePoint[], x: XAt, yAt: YAt): Area[] {
  const cuts = stretches.flatMap(({ startsAt, endsAt }) => [+startsAt, +endsAt])
  const times = [...new Set(cuts)].sort((a, b) => a - b).map((ms) => new Date(ms))
  return times.slice(1).flatMap((to, index) => {
    const from = times[index]!
    const running = spans.filter((span) => span.startsAt <= from && span.endsAt >= to)
    const kind = running.sort((a, b) => +b.startsAt - +a.startsAt)[0]?.stage.kind ?? "between"
    return runsOf(curve, from, to).map(({ assumed, points }) => ({ kind, assumed, points: closed(points, x, yAt) }))
  })
}

type XAt = (at: Date) => number
type Time = { startsAt: Date; endsAt: Date }

/** The curve between two instants, as runs that are all measured or all assumed. */
function runsOf(curve: CurvePoint[], from: Date, to: Date) {
  const runs: { assumed: boolean; points: Moment[] }[] = []
  for (const { startsAt, endsAt, fromC, toC, assumed } of stretchesOf(curve, from, to)) {
    const steps = Math.max(1, Math.ceil(Math.abs(toC - fromC) / 0.5)) // the rate bends between two temperatures
    const points = Array.from({ length: steps + 1 }, (_, step): Moment => {
      const share = step / steps
      return { at: new Date(+startsAt + (+endsAt - +startsAt) * share), doughC: fromC + (toC - fromC) * share }
    })
    const run = runs.at(-1)
    if (run?.assumed === assumed) run.points.push(...points)
    else runs.push({ assumed, points })
  }
  return runs
}
type Moment = { at: Date; doughC: number }

function closed(points: Moment[], x: XAt, yAt: YAt): XY[] {
  const [first, last] = [points[0]!, points.at(-1)!]
  const top = points.map(({ at, doughC }): XY => [x(at), yAt(doughC)])
  return [[x(first.at), ribbonHeight], ...top, [x(last.at), ribbonHeight]]
}

/** One outline a stage, as `plannedReferenceHours` reckons it; none when a driven stage has no reference temperature. */
function planOf(planned: PlannedStage[], x: XAt, yAt: YAt): XY[][] {
  const fermenting = fermentingStages(planned.map(({ stage }) => stage))
  if (fermenting.some((stage) => stage.drivenByTemperature && stage.referenceC === undefined)) return []
  let doughC = fermenting[0]?.referenceC ?? referenceC
  return planned
    .filter(({ stage }) => fermenting.includes(stage))
    .map(({ stage, startsAt, endsAt }) => {
      const curve = plannedCurve(stage, startsAt, endsAt, doughC)
      doughC = stage.referenceC ?? doughC
      return runsOf(curve, startsAt, endsAt).flatMap(({ points }) => points)
    })
    .filter((points) => points.length > 0)
    .map((points) => closed(points, x, yAt))
}

function plannedCurve(stage: Stage, startsAt: Date, endsAt: Date, beforeC: number): CurvePoint[] {
  if (stage.kind !== "retard") return doughCurve([{ at: startsAt, doughC: stage.referenceC ?? beforeC }], [])
  const fridge = { startsAt, endsAt, cold: true, surroundingsC: stage.referenceC }
  return doughCurve([{ at: startsAt, doughC: beforeC }], [fridge])
}

function barsOf(spans: Time[], x: (at: Date) => number): Bar[] {
  return spans.map(({ startsAt, endsAt }) => ({ x: x(startsAt), width: x(endsAt) - x(startsAt) }))
}

/** A stage's kind under its area, where the area is wide enough to read it. */
function namesOf(areas: Area[]) {
  const kinds = [...new Set(areas.map(({ kind }) => kind))]
  return kinds.flatMap((kind) => {
    const xs = areas.filter((area) => area.kind === kind).flatMap(({ points }) => points.map(([x]) => x))
    const [from, to] = [Math.max(0, Math.min(...xs)), Math.min(ribbonWidth, Math.max(...xs))]
    return kind === "between" || to - from < wideEnough ? [] : [{ x: (from + to) / 2, words: kind }]
  })
}
const wideEnough = ribbonWidth / 9
