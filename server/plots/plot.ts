/**
 * Everything one plot shows, as plain data in the units it is read in, so that the drawing and the table of numbers under
 * it come from the same values, and a published review can keep it whole.
 */
export type Plot = {
  title: string
  /** One sentence that says what is to be seen, for somebody who does not see it. */
  says: string
  x: PlotAxis
  y: PlotAxis
  series: Series[]
  /** Sources and remarks, under the numbers. */
  foot?: string
}

/** `from` and `to` in the axis's unit; `at` of a tick likewise. */
export type PlotAxis = { label: string; unit: string; from: number; to: number; ticks: { at: number; label: string }[] }

/**
 * `line` joins its points, `dots` does not, `band` is filled between each y and its `high`, `step` keeps each y until the
 * next, `bar` stands from 0. `role` decides the look, never by colour alone: what was done, the plan (dashed), the class's
 * middle, its spread, a fitted line, its limits, one that stands apart.
 */
export type Series = {
  name: string
  kind: "line" | "dots" | "band" | "step" | "bar"
  role: "own" | "other" | "plan" | "median" | "spread" | "fit" | "limits" | "outlier" | "target"
  points: { x: number; y: number; high?: number; label?: string }[]
}
