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
  /** x runs downward and y to the right: for bars and spans that have names, so that names of any length can be read. */
  turned?: true
}

/**
 * `from`, `to` and `at` of a tick in the axis's unit. Made by axes.ts. "°C" is a temperature that a reader in °F is shown
 * in theirs; a difference of temperatures has another unit, such as "°C warmer".
 */
export type PlotAxis = {
  label: string
  unit: string
  from: number
  to: number
  ticks: { at: number; label: string }[]
  /** Decimals of its numbers in the table; 2 unless said. */
  digits?: number
  /** `clock`: hours since midnight, read as 14:35. `names`: whole numbers that stand for the names of their ticks. */
  reads?: "clock" | "names"
}

/**
 * `line` joins its points, `dots` does not, `band` is filled between each y and its `high`, `step` keeps each y until the
 * next, `bar` stands from 0, `span` lies from x to `until`. `role` decides the look, never by colour alone: what was done,
 * the plan (dashed), the class's middle, its spread, a fitted line, its limits, one that stands apart.
 */
export type Series = {
  name: string
  kind: "line" | "dots" | "band" | "step" | "bar" | "span"
  role: Role
  points: PlotPoint[]
  /** A bar that stands on the `stacked` ones before it at the same x; those below 0 hang from each other. */
  stacked?: true
  /** A line whose points were each measured, and are marked. */
  marked?: true
}
export type Role = "own" | "other" | "plan" | "median" | "spread" | "fit" | "limits" | "outlier" | "target"

/**
 * `low` and `high` are its range, drawn as a whisker; of a band `high` is its other edge, of a span `until` its end. `label`
 * is written beside it where there is room, and always stands in the table. `guessed`: felt or assumed, drawn hollow.
 * `at` is its x in words, where the axis cannot say it: the clock of a day on which clocks are changed. `tone` of a span, from
 * light to dark.
 */
export type PlotPoint = {
  x: number
  y: number
  low?: number
  high?: number
  until?: number
  label?: string
  at?: string
  guessed?: true
  tone?: 1 | 2 | 3
}
