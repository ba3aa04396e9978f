import type { PlotAxis, Series } from "./plot.ts"

type Named = { label: string; unit: string; digits?: number }

/** An axis over these values, widened to round ends, with ticks at 1, 2 or 5 times a power of ten. Throws RangeError for values that are not finite. */
export function niceAxis(from: number, to: number, { label, unit, digits }: Named, most = 6): PlotAxis {
  if (!Number.isFinite(from) || !Number.isFinite(to)) throw new RangeError(`no axis from ${from} to ${to}`)
  const [low, high] =
    Math.abs(to - from) < leastReach ? [from - 0.5, to + 0.5] : [Math.min(from, to), Math.max(from, to)]
  const step = niceStep((high - low) / most)
  const [first, last] = [Math.floor(low / step + tiny), Math.ceil(high / step - tiny)]
  const decimals = Math.max(0, -Math.floor(Math.log10(step) + tiny))
  const at = Array.from({ length: last - first + 1 }, (_, index) => Number(((first + index) * step).toFixed(decimals)))
  return {
    ...{ label, unit, from: at[0]!, to: at.at(-1)!, digits: digits ?? decimals + 1 },
    ticks: at.map((value) => ({ at: value, label: numberWords(value, decimals) })),
  }
}
// a value on a tick, as it comes out of binary sums, is on it
const tiny = 1e-9
/** Nothing that is measured in a kitchen differs by less. */
const leastReach = 1e-6

function niceStep(least: number) {
  const power = 10 ** Math.floor(Math.log10(least))
  return [1, 2, 5, 10].map((times) => times * power).find((step) => step >= least * (1 - tiny))!
}

/** An axis of hours, read by the clock (from midnight) or counted from `zero`, such as "mixing". */
export function hoursAxis(fromH: number, toH: number, { label, zero }: { label: string; zero?: string }): PlotAxis {
  const clock = zero === undefined
  const step = [0.25, 0.5, 1, 2, 3, 6, 12].find((hours) => (toH - fromH) / hours <= mostTicks) ?? 24
  const first = Math.ceil(fromH / step - tiny)
  const count = Math.max(0, Math.floor(toH / step + tiny) - first + 1)
  const ticks = Array.from({ length: count }, (_, index) => (first + index) * step)
  const labelOf = (h: number) => (clock ? clockWords(h) : h === 0 ? zero : `${h > 0 ? "+" : "−"}${Math.abs(h)} h`)
  return {
    ...{ label, unit: clock ? "" : "h", from: fromH, to: toH, digits: 2 },
    ticks: ticks.map((at) => ({ at, label: labelOf(at) })),
    ...(clock ? { reads: "clock" as const } : {}),
  }
}
const mostTicks = 12

/** An axis of names, each at its place in the list: 0, 1, 2 … */
export function namesAxis(label: string, names: string[]): PlotAxis {
  return {
    ...{ label, unit: "", from: -0.5, to: Math.max(names.length, 1) - 0.5, digits: 0, reads: "names" },
    ticks: names.map((name, at) => ({ at, label: name })),
  }
}

/** The smallest and largest values of some series along an axis: ranges, ends, 0 where bars stand, whole stacks. [0, 1] without any. */
export function reachOf(series: Pick<Series, "kind" | "points" | "stacked">[], along: "x" | "y"): [number, number] {
  const values =
    along === "x" ? series.flatMap(({ points }) => points.flatMap(({ x, until = x }) => [x, until])) : heightsOf(series)
  return values.length ? [Math.min(...values), Math.max(...values)] : [0, 1]
}

function heightsOf(series: Pick<Series, "kind" | "points" | "stacked">[]) {
  const single = series.flatMap(({ points }) => points.flatMap(({ y, low = y, high = y }) => [y, low, high]))
  const stacked = series.filter((one) => one.stacked).flatMap(({ points }) => points)
  const stackOf = (x: number, sign: number) =>
    sum(stacked.filter((one) => one.x === x && one.y * sign > 0).map(({ y }) => y))
  const stacks = [...new Set(stacked.map(({ x }) => x))].flatMap((x) => [stackOf(x, 1), stackOf(x, -1)])
  return [...single, ...stacks, ...(series.some(({ kind }) => kind === "bar") ? [0] : [])]
}
const sum = (values: number[]) => values.reduce((total, value) => total + value, 0)

/** A value as the table shows it: "14:35", "−2.5", or the name it stands for; units stand in the head. */
export function valueWords(value: number, { digits = 2, reads, ticks }: PlotAxis): string {
  if (reads === "clock") return clockWords(value)
  if (reads === "names") return ticks.find(({ at }) => at === value)?.label ?? numberWords(value, digits)
  return numberWords(value, digits)
}

const numberWords = (value: number, digits: number) => {
  const fixed = value.toFixed(digits)
  return Number(fixed) === 0 ? fixed.replace("-", "") : fixed.replace("-", "−")
}

/** "14:35"; what is of the day before or after says so: "02:10 +1 day". */
function clockWords(hours: number) {
  const minutes = Math.round(hours * 60)
  const days = Math.floor(minutes / 1440)
  const [h, min] = [Math.floor((minutes - days * 1440) / 60), ((minutes % 60) + 60) % 60]
  const clock = `${String(h).padStart(2, "0")}:${String(min).padStart(2, "0")}`
  return days === 0 ? clock : `${clock} ${days > 0 ? "+" : "−"}${Math.abs(days)} day${Math.abs(days) === 1 ? "" : "s"}`
}

/** "Rise, %"; the label alone where there is no unit. */
export const axisWords = ({ label, unit }: PlotAxis) => (unit ? `${label}, ${unit}` : label)
