import type { BakeDay } from "../bake-days/queries.ts"
import { type KeyedPlot, plotsOfBakeDay } from "../curves/for-review.ts"
import { namesAxis, niceAxis, reachOf } from "../plots/axes.ts"
import type { Plot, Series } from "../plots/plot.ts"
import { figuresOf, type Laid, namedAs } from "./class-view.ts"

export type { KeyedPlot }

/** The plots that a review of this bake day may show, made from what the whole class sees. */
export function plotsFor({ zone }: BakeDay, laid: Laid[]): KeyedPlot[] {
  const fermented = { key: "fermented", plot: fermentedOf(laid) }
  return [fermented, ...plotsOfBakeDay(laid, { zone })].filter(({ plot }) =>
    plot.series.some(({ points }) => points.length),
  )
}

function fermentedOf(laid: Laid[]): Plot {
  const bakes = laid.flatMap((one) => {
    const { hours } = figuresOf(one)
    return hours === undefined ? [] : [{ name: namedAs(one.bake), hours, plannedHours: one.row.plannedHours }]
  })
  const series: Series[] = [
    { name: "fermented", kind: "bar", role: "other", points: bakes.map(({ hours }, x) => ({ x, y: hours })) },
    {
      name: "the plan",
      kind: "dots",
      role: "plan",
      points: bakes.flatMap(({ plannedHours: y }, x) => (y === undefined ? [] : [{ x, y }])),
    },
  ]
  return {
    title: "How far each dough fermented",
    says: "Reference hours of each bake from the start of the first stage that temperature drives to the end of the last, beside its plan.",
    x: namesAxis(
      "Bake",
      bakes.map(({ name }) => name),
    ),
    y: niceAxis(...reachOf(series, "y"), { label: "Fermented", unit: "ref h", digits: 1 }),
    series,
    turned: true,
  }
}
