import type { Plot, PlotAxis, PlotPoint } from "./plot.ts"

/** A drawing is `across` by `across` of its own units, whatever its size on the page. */
export const across = 1000
export type Place = [x: number, y: number]

/** Where a value lies on the page: to the right, and downward. */
export type Places = { at(x: number, y: number): Place; inside(point: Pick<PlotPoint, "x" | "y">): boolean }

/** How finely a drawing is drawn unless it is said, in its units. */
const fine = 0.1

/** Where the values of a plot lie in its drawing, to the nearest `step` of its units. */
export function placesOf({ x, y, turned }: Pick<Plot, "x" | "y" | "turned">, step = fine): Places {
  const rounded = (unit: number) => tidy(Math.round(unit / step) * step)
  const [right, down] = turned ? [y, x] : [x, y]
  return {
    at: (atX, atY) => {
      const [r, d] = turned ? [atY, atX] : [atX, atY]
      const shareDown = shareOf(d, down)
      return [rounded(shareOf(r, right) * across), rounded((turned ? shareDown : 1 - shareDown) * across)]
    },
    inside: (point) => holds(x, point.x) && holds(y, point.y),
  }
}

/** How far along its axis a value lies, from 0 to 1. */
export const shareOf = (value: number, { from, to }: PlotAxis) => (value - from) / (to - from)

export const holds = ({ from, to }: PlotAxis, value: number) => {
  const slack = (to - from) * 1e-9
  return value >= from - slack && value <= to + slack
}

/** Without the noise of binary sums. */
const tidy = (value: number) => Math.round(value * 100) / 100
