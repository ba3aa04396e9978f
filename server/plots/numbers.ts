import { axisWords, valueWords } from "./axes.ts"
import { placesOf } from "./places.ts"
import type { Plot, PlotAxis, PlotPoint, Series } from "./plot.ts"

/** The numbers of series that share every x, one row an x and one column a series. `beyond`: not in the drawing. */
export type Numbers = {
  heads: string[]
  rows: { x: string; cells: string[]; beyond: boolean }[]
  /** The places in the plot of the series in its columns. */
  series: number[]
  units: { x: string; y: string }
}

/** Everything a plot draws as numbers, in the order in which it is drawn. */
export function numbersOf(plot: Plot): Numbers[] {
  const places = placesOf(plot)
  return alikeIn(plot.series).map((alike) => {
    const [first] = alike
    const spans = first!.kind === "span"
    return {
      heads: [axisWords(plot.x) || "Name", ...alike.map(({ name }) => headOf(name, plot.y))],
      rows: first!.points.map((point, nth) => ({
        x: spans ? rangeWords(point.x, point.until ?? point.x, plot.x) : (point.at ?? valueWords(point.x, plot.x)),
        cells: alike.map((series) => cellWords(series.points[nth]!, series, plot.y)),
        beyond: alike.some(({ points }) => !places.inside(points[nth]!)),
      })),
      series: alike.map((one) => plot.series.indexOf(one)),
      units: { x: plot.x.unit, y: plot.y.unit },
    }
  })
}

/** Series with the same x's stand in one table, in the place of the first of them. */
function alikeIn(series: Series[]): Series[][] {
  const groups = new Map<string, Series[]>()
  for (const one of series.filter(({ points }) => points.length)) {
    const key = JSON.stringify([one.kind === "span", one.points.map(({ x, until }) => [x, until])])
    groups.set(key, [...(groups.get(key) ?? []), one])
  }
  return [...groups.values()]
}

/** "own rise, %"; the name alone where there is no unit, or where it says it already. */
const headOf = (name: string, { unit }: PlotAxis) => (unit && !name.endsWith(unit) ? `${name}, ${unit}` : name)

/** "34", "34 (28 to 41), felt", "28 to 41" of a band; a label after it. */
function cellWords({ y, low, high, label, guessed }: PlotPoint, { kind }: Series, axis: PlotAxis): string {
  const value = valueWords(y, axis)
  const range = low !== undefined && high !== undefined && kind !== "band" ? ` (${rangeWords(low, high, axis)})` : ""
  const words = kind === "band" ? rangeWords(y, high ?? y, axis) : value + range
  return [words, guessed && "not measured", label].filter(Boolean).join(", ")
}

const rangeWords = (from: number, to: number, axis: PlotAxis) => `${valueWords(from, axis)} to ${valueWords(to, axis)}`
