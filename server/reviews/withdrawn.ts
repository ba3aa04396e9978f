import type { Plot, PlotAxis, PlotPoint, Series } from "../plots/plot.ts"

/** What stands where a bake stood that its baker has taken out of the class's sight. */
const notShared = "a bake that is not shared any more"

/** Kept plots without the bakes of these names; a plot that was of one of them alone is gone. */
export const plotsWithout = (plots: Plot[], names: string[]) =>
  plots.filter(({ title }) => !names.some((name) => speaksOf(title, name))).map((plot) => withoutNames(plot, names))

/** A kept plot without the bakes of these names: none of their points, and none of their names, is left in it. */
function withoutNames(plot: Plot, names: string[]): Plot {
  if (names.length === 0) return plot
  const isTheirs = (words: string | undefined) => words !== undefined && names.some((name) => speaksOf(words, name))
  const placesOn = ({ reads, ticks }: PlotAxis) =>
    new Set(reads === "names" ? ticks.filter(({ label }) => isTheirs(label)).map(({ at }) => at) : [])
  const [alongX, alongY] = [placesOn(plot.x), placesOn(plot.y)]
  const stays = ({ x, y, label }: PlotPoint) => !isTheirs(label) && !alongX.has(x) && !alongY.has(y)
  const series = plot.series
    .filter(({ name }) => !isTheirs(name))
    .map((one): Series => ({ ...one, points: one.points.filter(stays) }))
  const renamed = (axis: PlotAxis, places: Set<number>) => ({
    ...axis,
    ticks: axis.ticks.map((tick) => (places.has(tick.at) ? { ...tick, label: notShared } : tick)),
  })
  return {
    ...plot,
    ...{ title: unnamed(plot.title, names), says: unnamed(plot.says, names), series },
    ...{ x: renamed(plot.x, alongX), y: renamed(plot.y, alongY) },
    ...(plot.foot === undefined ? {} : { foot: unnamed(plot.foot, names) }),
  }
}

/** Whether words name somebody, alone or among others: "Bea", "Bea, bake 2", but not "Beatrice". */
function speaksOf(words: string, name: string) {
  return named(name).test(words)
}

const unnamed = (words: string, names: string[]) =>
  // the longer name first, or "Ana Lu" would leave " Lu" behind
  names.toSorted((a, b) => b.length - a.length).reduce((left, name) => left.replaceAll(named(name), notShared), words)

const named = (name: string) => new RegExp(`(?<![\\p{L}\\p{N}])${literally(name)}(?![\\p{L}\\p{N}])`, "gu")
const literally = (text: string) => text.replace(/[\\^$.*+?()[\]{}|]/g, "\\$&")
