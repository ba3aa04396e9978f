import type { PlotPoint } from "../plots/plot.ts"
import type { Course } from "./courses.ts"
import { namedAs } from "./measured.ts"

/** A sentence about one bake's rise, for somebody who does not see its curve. */
export function riseSays({ laid, rise, target }: Course): string {
  const name = namedAs(laid.bake)
  const last = rise.at(-1)
  if (!last) return `No rise of ${name} was read.`
  const wanted = target[0] ? `, of ${Math.round(target[0].y)} % wanted` : ""
  return `${name}: ${readings(rise.length)}, the last ${signed(last.y)} %${wanted}.`
}

/** The same about its temperatures. */
export function warmthSays({ laid, dough, room }: Course): string {
  const name = namedAs(laid.bake)
  if (!dough.length && !room.length) return `No temperature of ${name} was measured.`
  return [rangeOf(`Dough of ${name}`, dough), rangeOf(dough.length ? "Its room" : `Room of ${name}`, room)]
    .filter(Boolean)
    .join(" ")
}

/** The same about its stages. */
export function stagesSay({ laid, stages, plannedStages }: Course): string {
  const name = namedAs(laid.bake)
  if (!stages.length) return `No stage of ${name} was marked.`
  const planned = (key: string) => plannedStages.find(({ stage }) => stage.key === key)
  const told = stages.map(({ stage, x, until }) => {
    const plan = planned(stage.key)
    return `${stage.name.toLowerCase()} ${hours(until - x)}${plan ? ` (plan ${hours(plan.until - plan.x)})` : ""}`
  })
  return `${name}: ${told.join(", ")}.`
}

function rangeOf(what: string, points: PlotPoint[]) {
  const [first, last] = [points[0], points.at(-1)]
  if (!first || !last) return ""
  if (points.length === 1) return `${what}: ${first.y.toFixed(1)} °C once.`
  const all = points.map(({ y }) => y)
  return `${what}: ${readings(points.length)} between ${Math.min(...all).toFixed(1)} and ${Math.max(...all).toFixed(1)} °C.`
}

const readings = (count: number) => (count === 1 ? "one point" : `${count} points`)
const signed = (value: number) => `${value < 0 ? "−" : "+"}${Math.abs(Math.round(value))}`
const hours = (count: number) => `${count.toFixed(1)} h`
