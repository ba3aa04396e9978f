import { cToF } from "../dough/units.ts"
import { niceAxis } from "./axes.ts"
import type { Plot, PlotAxis, PlotPoint } from "./plot.ts"

/** A plot in its reader's units: temperatures are kept in °C, and somebody in °F reads theirs. */
export function inUnitsOf(plot: Plot, unit: "C" | "F"): Plot {
  if (unit === "C" || (plot.x.unit !== "°C" && plot.y.unit !== "°C")) return plot
  const [onX, onY] = [plot.x.unit === "°C", plot.y.unit === "°C"]
  return {
    ...plot,
    x: onX ? inF(plot.x) : plot.x,
    y: onY ? inF(plot.y) : plot.y,
    series: plot.series.map((series) => ({
      ...series,
      points: series.points.map((point) => pointInF(point, onX, onY)),
    })),
  }
}

const inF = ({ from, to, label, digits }: PlotAxis) => niceAxis(cToF(from), cToF(to), { label, unit: "°F", digits })

function pointInF(point: PlotPoint, onX: boolean, onY: boolean): PlotPoint {
  const x = onX ? { x: cToF(point.x), ...(point.until === undefined ? {} : { until: cToF(point.until) }) } : {}
  const range = point.low === undefined ? {} : { low: cToF(point.low) }
  const upper = point.high === undefined ? {} : { high: cToF(point.high) }
  return { ...point, ...x, ...(onY ? { y: cToF(point.y), ...range, ...upper } : {}) }
}
