import { letterPx } from "./labels.ts"
import { holds, shareOf } from "./places.ts"
import type { PlotAxis } from "./plot.ts"

/** A tick at per cent of its axis. `second`: its label has no room on a phone. A label may be left out everywhere. */
export type DrawnTick = { percent: number; label: string; second: boolean }

const [phonePx, laptopPx] = [270, 620]
const gapPx = 10

/** How much room the labels of the side take; see plots.css. */
export type Gutter = "narrow" | "middling" | "broad"
const gutterPx: Record<Gutter, number> = { narrow: 0, middling: 44, broad: 100 }

/** The room for the longest of these labels. */
export function gutterFor(ticks: DrawnTick[]): Gutter {
  const longest = Math.max(...ticks.map(({ label }) => label.length), 0)
  return longest > 12 ? "broad" : longest > 5 ? "middling" : "narrow"
}

/** Ticks along the bottom, labelled so that no two labels meet. */
export function ticksAcross(axis: PlotAxis, gutter: Gutter): DrawnTick[] {
  const ticks = axis.ticks.filter(({ at }) => holds(axis, at))
  const longest = Math.max(...ticks.map(({ label }) => label.length), 0) * letterPx + gapPx
  const shares = ticks.map(({ at }) => shareOf(at, axis))
  const apart = Math.min(...shares.slice(1).map((share, index) => share - shares[index]!), 1)
  const everyOn = (px: number) => Math.max(1, Math.ceil(longest / (apart * px)))
  const [onPhone, onLaptop] = [everyOn(phonePx - gutterPx[gutter]), everyOn(laptopPx - gutterPx[gutter])]
  // counted from 0, so that the start itself keeps its name
  const zero = Math.max(
    0,
    ticks.findIndex(({ at }) => at === 0),
  )
  const isAt = (index: number, every: number) => (index - zero) % every === 0
  return ticks.map(({ label }, index) => ({
    percent: shares[index]! * 100,
    label: isAt(index, onLaptop) || isAt(index, onPhone) ? label : "",
    second: !isAt(index, onPhone),
  }))
}

/** Ticks along the side, from the top where the axis runs down. */
export function ticksDown(axis: PlotAxis, fromTop: boolean): DrawnTick[] {
  return axis.ticks
    .filter(({ at }) => holds(axis, at))
    .map(({ at, label }) => ({
      percent: (fromTop ? shareOf(at, axis) : 1 - shareOf(at, axis)) * 100,
      label,
      second: false,
    }))
}
