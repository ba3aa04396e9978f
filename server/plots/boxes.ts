import type { Place, Places } from "./places.ts"
import type { Plot, PlotPoint, Series } from "./plot.ts"

/** A bar or a span, in per cent of the drawing. `fill` names its look, `hatch` what it is filled with instead of a colour. */
export type Box = { x: number; y: number; width: number; height: number; fill: string; hatch?: Hatch; label?: string }
export type Hatch = "lines" | "dots" | "cross"

/** The bars of one series, and the whiskers that stand in their middle. */
export type Bars = { boxes: Box[]; whiskers: [Place, Place][] }

/** The bars of every series that has any: beside each other, or on each other where they are stacked. */
export function barsOf(plot: Plot, places: Places): Map<Series, Bars> {
  const all = plot.series.filter(({ kind }) => kind === "bar")
  const stack = all.filter(({ stacked }) => stacked)
  const columns = [...(stack.length ? [stack] : []), ...all.filter(({ stacked }) => !stacked).map((one) => [one])]
  const width = barWidth / Math.max(columns.length, 1)
  return new Map(columns.flatMap((column, nth) => columnOf(column, -barWidth / 2 + nth * width, width * 0.92, places)))
}
// Room between the bars of one name and those of the next.
const barWidth = 0.72

/** Series that stand on each other, `left` of their x and so wide. */
function columnOf(column: Series[], left: number, width: number, places: Places): [Series, Bars][] {
  const ends = new Map<string, number>()
  return column.map((series, layer) => {
    const fill = series.stacked ? `layer-${layer % layers}` : `role-${series.role}`
    const bars = series.points.map((point) => {
      const base = series.stacked ? baseOf(ends, point) : 0
      const [from, to] = [point.x + left, point.x + left + width]
      return {
        box: boxBetween(places.at(from, base), places.at(to, base + point.y), fill),
        whiskers: whiskersOf(point, (from + to) / 2, base, places),
      }
    })
    return [series, { boxes: bars.map(({ box }) => box), whiskers: bars.flatMap(({ whiskers }) => whiskers) }]
  })
}
/** The looks of a stack's layers, from 0 outward; one of each pair beside another can be told without colour. */
const layers = 5
const hatches: Record<string, Hatch> = {
  "layer-1": "lines",
  "layer-2": "dots",
  "layer-4": "cross",
  "role-other": "lines",
}
/** What a bar of this look is hatched with, if anything. */
const hatchOf = (fill: string) => (hatches[fill] ? { hatch: hatches[fill] } : {})

/** The end of the stack so far, which grows up and down from 0. */
function baseOf(ends: Map<string, number>, { x, y }: PlotPoint) {
  const key = `${x} ${y < 0 ? "down" : "up"}`
  const base = ends.get(key) ?? 0
  ends.set(key, base + y)
  return base
}

/** The range of a point at this x, counted from `base`; [] where it has none. */
export function whiskersOf({ low, high }: PlotPoint, x: number, base: number, places: Places): [Place, Place][] {
  return low === undefined || high === undefined ? [] : [[places.at(x, base + low), places.at(x, base + high)]]
}

/** The spans of one series, lying at their heights. */
export function spansOf({ points, role }: Series, places: Places): Box[] {
  return points.map(({ x, y, until = x, label, tone }) => {
    const fill = tone ? `tone-${tone}` : `role-${role}`
    const box = boxBetween(places.at(x, y - spanHeight / 2), places.at(until, y + spanHeight / 2), fill)
    return label ? { ...box, label } : box
  })
}
const spanHeight = 0.62

function boxBetween([x1, y1]: Place, [x2, y2]: Place, fill: string): Box {
  const [x, y] = [Math.min(x1, x2) / 10, Math.min(y1, y2) / 10]
  return { x, y, width: Math.abs(x2 - x1) / 10, height: Math.abs(y2 - y1) / 10, fill, ...hatchOf(fill) }
}
