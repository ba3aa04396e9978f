import type { Place } from "./places.ts"

/** A line through places, each step counted from the one before: shorter than saying where everything is. */
export function linePath(places: Place[]): string {
  return places
    .map((place, index) => (index === 0 ? `M${pair(place)}` : `l${pair(step(places[index - 1]!, place))}`))
    .join("")
}

/** Up or down only where a new value begins. */
export function stepPath(places: Place[], endX: number): string {
  const [first] = places
  if (!first) return ""
  return `M${pair(first)}${places
    .slice(1)
    .map(([x, y]) => `H${x}V${y}`)
    .join("")}H${endX}`
}

/** Between one edge and the other. */
export const areaPath = (edge: Place[], other: Place[]) =>
  edge.length ? `${linePath([...edge, ...other.toReversed()])}z` : ""

/** No length at all: the round or square ends of its stroke are the marks, which stay as they are however the drawing is stretched. */
export const marksPath = (places: Place[]) =>
  places
    .map((place, index) => `${index === 0 ? `M${pair(place)}` : `m${pair(step(places[index - 1]!, place))}`}h0`)
    .join("")

/** From one place straight to the other. */
export const whiskerPath = (ends: [Place, Place][]) => ends.map(([from, to]) => `M${pair(from)}L${pair(to)}`).join("")

const pair = ([x, y]: Place) => `${x}${y < 0 ? "" : ","}${y}`
const step = ([fromX, fromY]: Place, [toX, toY]: Place): Place => [tenth(toX - fromX), tenth(toY - fromY)]
const tenth = (value: number) => Math.round(value * 10) / 10
