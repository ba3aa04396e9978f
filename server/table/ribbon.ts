import { type Culture, rate, worksBetween } from "../dough/fermentation/growth.ts"
import { type CurvePoint, stretchesOf } from "../dough/fermentation/temperature-curve.ts"
import { fermentingStages, type PlannedStage, type StageKind } from "../dough/schedule.ts"
import type { Axis } from "./axis.ts"
import { type Facts, spansWithin } from "./facts.ts"
import { type Places, placesOf, plannedCurves, type Zoned } from "./places.ts"
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
  /** What all are lined up by is not marked in this one. */
  unmarked: boolean
}
type Bar = { x: number; width: number }

export const ribbonWidth = 1000
const ribbonHeight = 64
/** Height of the rate 1, so that the fastest dough of each culture is equally high: sourdough's at 27 °C, 1.2 times that of 1. */
export const rateHeightOf = (culture: Culture) => fastest / rate(worksBetween[culture].bestC, culture)
const fastest = 53

/**
 * A bake as areas over one time axis. Height is the fermentation rate at the dough's own temperature, 1 at 24 °C, so an
 * area divided by `rateHeightOf` and by the axis's units an hour is the reference hours in it, whatever the temperature. On
 * an axis of reference hours every height is 1, and the same holds.
 */
export function drawRibbon(facts: Zoned, axis: Axis): Ribbon {
  const { actual, planned, unmarked } = placesOf(facts, axis)
  const x = xOn(axis, actual)
  const fermenting = spansWithin(facts.spans, fermentingStages(facts.stages))
  const baking = facts.spans.filter(({ stage }) => stage.kind === "bake")
  const yAt = axis.lined === "reference" ? () => level(facts.culture) : heightsOf(facts.culture)
  const ends = [...fermenting, ...baking].flatMap(({ startsAt, endsAt }) => [x(startsAt), x(endsAt)])
  const stretches = facts.fermented ? [...fermenting, facts.fermented] : fermenting
  const areas = facts.warmth ? areasOf(fermenting, stretches, facts.warmth.curve, x, yAt) : []
  return {
    areas,
    plan: planOf(facts.planned, xOn(axis, planned), yAt),
    oven: barsOf(baking, x),
    plannedOven: barsOf(
      facts.planned.filter(({ stage }) => stage.kind === "bake"),
      xOn(axis, planned),
    ),
    names: namesOf(areas),
    dots: dotsOf(facts, x, yAt),
    beyond: { before: ends.some((end) => end < 0), after: ends.some((end) => end > ribbonWidth) },
    unmarked,
  }
}

/** What is nowhere on the axis lies at NaN, which no drawing shows. */
const xOn =
  ({ fromH, toH }: Axis, place: Places["actual"]): XAt =>
  (at) =>
    (((place(at) ?? Number.NaN) - fromH) / (toH - fromH)) * ribbonWidth
const heightsOf =
  (culture: Culture): YAt =>
  (doughC) =>
    ribbonHeight - rateHeightOf(culture) * rate(doughC, culture)
const level = (culture: Culture) => ribbonHeight - rateHeightOf(culture)
type YAt = (doughC: number) => number

function dotsOf({ warmth }: Facts, x: XAt, yAt: YAt): Ribbon["dots"] {
  return (warmth?.points ?? [])
    .map(({ at, c, known }) => ({ x: x(at), y: yAt(c), from: warmth!.from, guessed: known !== undefined }))
    .filter((dot) => dot.x >= 0 && dot.x <= ribbonWidth)
}

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
  const all = points.map(({ at, doughC }): XY => [x(at), yAt(doughC)])
  const top = all.filter(([, y], index) => y !== all[index - 1]?.[1] || y !== all[index + 1]?.[1])
  return [[x(first.at), ribbonHeight], ...top, [x(last.at), ribbonHeight]]
}

/** One outline a stage. */
function planOf(planned: PlannedStage[], x: XAt, yAt: YAt): XY[][] {
  return plannedCurves(planned).flatMap(({ curve }) => {
    const points = runsOf(curve, curve[0]!.at, curve.at(-1)!.at).flatMap((run) => run.points)
    return points.length ? [closed(points, x, yAt)] : []
  })
}

/** Where no hour passes, in an oven on an axis of reference hours, a bar is as wide as can be seen. */
function barsOf(spans: Time[], x: XAt): Bar[] {
  return spans
    .map(({ startsAt, endsAt }) => ({ x: x(startsAt), width: Math.max(x(endsAt) - x(startsAt), thinnest) }))
    .filter((bar) => Number.isFinite(bar.x))
}
const thinnest = 4

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
