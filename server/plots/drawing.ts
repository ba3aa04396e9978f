import { type Bars, type Box, barsOf, spansOf, whiskersOf } from "./boxes.ts"
import { type Label, labelsOf } from "./labels.ts"
import { areaPath, linePath, marksPath, stepPath, whiskerPath } from "./paths.ts"
import { across, holds, type Places, placesOf } from "./places.ts"
import type { Plot, Role, Series } from "./plot.ts"
import { type DrawnTick, type Gutter, gutterFor, ticksAcross, ticksDown } from "./ticks.ts"

/** One series as paths over `across` by `across` units, and boxes in per cent. `index` is its place in the plot. */
export type DrawnSeries = {
  index: number
  name: string
  kind: Series["kind"]
  role: Role
  area: string
  line: string
  marks: string
  /** The marks of what was only felt or assumed, and of what was only meant. */
  hollow: string
  whiskers: string
  boxes: Box[]
}
export type Drawing = {
  across: DrawnTick[]
  down: DrawnTick[]
  /** Where 0 lies, in per cent of the axis of values, when it lies inside. */
  zero?: number
  /** From the back to the front. */
  series: DrawnSeries[]
  labels: Label[]
  /** The names of lines that are written beside them. */
  named: Label[]
  turned: boolean
  /** px; only where names run down, which need room. */
  height?: number
  gutter: Gutter
  /** What each look means. */
  looks: { series: DrawnSeries; words: string }[]
  /** How many points lie outside the axes, and are only in the table. */
  beyond: number
}

/** A plot as a drawing, to the nearest `step` of its units. */
export function drawPlot(plot: Plot, step?: number): Drawing {
  const places = placesOf(plot, step)
  const bars = barsOf(plot, places)
  const turned = plot.turned === true
  const drawn = plot.series.map((series, index) => drawSeries(series, index, plot, places, bars.get(series)))
  const down = ticksDown(turned ? plot.x : plot.y, turned)
  const gutter = gutterFor(down)
  return {
    across: ticksAcross(turned ? plot.y : plot.x, gutter),
    down,
    ...(plot.y.reads !== "names" && holds(plot.y, 0) ? { zero: places.at(plot.x.from, 0)[turned ? 0 : 1] / 10 } : {}),
    series: drawn.toSorted((a, b) => fromTheBack.indexOf(a.role) - fromTheBack.indexOf(b.role)),
    labels: labelsOf(plot, places),
    named: plot.series
      .filter(({ role, kind }) => role === "target" && kind === "line")
      .flatMap((series) => nameOf(series, places)),
    turned,
    ...heightOf(plot),
    gutter,
    looks: looksOf(drawn, plot.series),
    beyond: plot.series.flatMap(({ points }) => points).filter((point) => !places.inside(point)).length,
  }
}

/** As much as its names need, one under another. */
function heightOf({ turned, x, y }: Plot) {
  const names = turned ? x : y
  return names.reads === "names" ? { height: Math.max(names.to - names.from, 1) * rowPx } : {}
}
const rowPx = 34
const fromTheBack: Role[] = ["spread", "limits", "plan", "target", "median", "fit", "other", "own", "outlier"]

function drawSeries(series: Series, index: number, plot: Plot, places: Places, bars?: Bars): DrawnSeries {
  const { name, kind, role, marked } = series
  const points = series.points.filter(places.inside)
  const at = points.map(({ x, y }) => places.at(x, y))
  const marks = kind === "dots" || marked
  const whiskers = bars?.whiskers ?? points.flatMap((point) => whiskersOf(point, point.x, 0, places))
  return {
    ...{ index, name, kind, role },
    area:
      kind === "band"
        ? areaPath(
            at,
            points.map(({ x, y, high = y }) => places.at(x, high)),
          )
        : "",
    line: kind === "line" ? linePath(at) : kind === "step" ? stepPath(at, places.at(plot.x.to, 0)[0]) : "",
    marks: marks ? marksPath(at) : "",
    hollow: marks ? marksPath(at.filter((_, nth) => role === "target" || points[nth]!.guessed)) : "",
    whiskers: kind === "band" || kind === "span" ? "" : whiskerPath(whiskers),
    boxes: kind === "span" ? spansOf({ ...series, points }, places) : (bars?.boxes ?? []),
  }
}

/** Many lines of one look that have their names beside them are one entry. */
function looksOf(drawn: DrawnSeries[], all: Series[]) {
  const lookOf = ({ kind, role, marks }: DrawnSeries) => `${kind} ${role} ${Boolean(marks)}`
  const isNamed = ({ index }: DrawnSeries) =>
    all[index]!.points.some(({ label }) => label) && all[index]!.kind === "line"
  return drawn.flatMap((series) => {
    const alike = drawn.filter((other) => isNamed(other) && lookOf(other) === lookOf(series))
    if (!isNamed(series) || alike.length < 2) return [{ series, words: series.name }]
    return series === alike[0] ? [{ series, words: "each of them, named at its end" }] : []
  })
}

/** At the left end of a line, over it. */
function nameOf({ name, points }: Series, places: Places): Label[] {
  const first = points.find(places.inside)
  if (!first) return []
  const [x, y] = places.at(first.x, first.y)
  return [{ x: x / 10, y: y / 10, words: name, anchor: "start", dx: 4, dy: y < across / 12 ? 15 : -5 }]
}
