import type { BakeDay } from "../bake-days/queries.ts"
import { pictureOf } from "../class-picture/picture.ts"
import { againstTemperature, causesPlot, explainedPlot } from "../class-picture/plots.ts"
import { type KeyedPlot, plotsOfBakeDay } from "../curves/for-review.ts"
import { raisedBy } from "../estimate/leaven.ts"
import { namesAxis, niceAxis, reachOf } from "../plots/axes.ts"
import type { Plot, Series } from "../plots/plot.ts"
import { mainFlours } from "../table/mix.ts"
import { figuresOf, type Laid, namedAs } from "./class-view.ts"

export type { KeyedPlot }

/** The plots that a review of this bake day may show, made from what the whole class sees. */
export function plotsFor(bakeDay: BakeDay, laid: Laid[]): KeyedPlot[] {
  const fermented = { key: "fermented", plot: fermentedOf(laid) }
  return [fermented, ...plotsOfClass(bakeDay, laid), ...plotsOfBakeDay(laid, bakeDay)].filter(({ plot }) =>
    plot.series.some(({ points }) => points.length),
  )
}

/** What the class shows together, as its own page has it; nothing below the number of bakes that shows anything. */
function plotsOfClass(bakeDay: BakeDay, laid: Laid[]): KeyedPlot[] {
  const bakes = laid.map(({ bake, row }) => ({
    ...{ key: String(bake.id), name: namedAs(bake), row },
    flour: mainFlours(bake.mix).join(", "),
  }))
  const picture = pictureOf(bakes, bakeDay, raisedBy(bakeDay.content, bakeDay.ownIngredients))
  if (!picture.enough) return []
  const { timed, explained } = picture.value
  const target = bakeDay.targetRise ? `+${Math.round(bakeDay.targetRise * 100)} %` : "the target"
  return [
    ...(timed.bakes.length ? [{ key: "time-temperature", plot: againstTemperature(timed, target) }] : []),
    { key: "causes", plot: causesPlot(picture.value) },
    ...(explained.enough ? [{ key: "spread", plot: explainedPlot(explained.value) }] : []),
  ]
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
