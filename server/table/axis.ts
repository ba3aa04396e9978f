import { fermentingStages, type Stage } from "../dough/schedule.ts"
import { type Lined, type Places, placesOf, type Zoned } from "./places.ts"

export type { Lined } from "./places.ts"

/** Hours from each bake's own zero; `share` is the place of a tick, 0 at the left and 1 at the right. */
export type Axis = { lined: Lined; zone: string; fromH: number; toH: number; ticks: Tick[] }
type Tick = { share: number; label: string; second: boolean }

/** One axis for all bakes. It holds every plan, and what was done as far as 12 h beyond the plans on either side. */
export function layAxis(rows: Zoned[], lined: Lined, zone: string): Axis {
  const plan = { from: Number.POSITIVE_INFINITY, to: Number.NEGATIVE_INFINITY }
  const done = { from: Number.POSITIVE_INFINITY, to: Number.NEGATIVE_INFINITY }
  if (lined === "table") widen(plan, [0])
  for (const facts of rows) {
    const { actual, planned } = placesOf(facts, { lined, zone })
    widen(plan, hoursOf(facts.planned, facts.stages, planned))
    widen(done, hoursOf(facts.spans, facts.stages, actual))
  }
  if (plan.from > plan.to) Object.assign(plan, done.from > done.to ? { from: 0, to: 1 } : done)
  const near = (h: number) => Math.min(Math.max(h, plan.from - farthestH), plan.to + farthestH)
  const [from, to] = [Math.min(plan.from, near(done.from)), Math.max(plan.to, near(done.to))]
  const margin = Math.max((to - from) / 24, 0.1) // half a label at either end
  const [fromH, toH] = [from - margin, to + margin]
  return { lined, zone, fromH, toH, ticks: ticksOf(fromH, toH, lined) }
}
// A bake of another day would squeeze all others; what lies beyond is cut off and said so.
const farthestH = 12

type Extent = { from: number; to: number }
function widen(extent: Extent, hours: number[]) {
  for (const h of hours) {
    extent.from = Math.min(extent.from, h)
    extent.to = Math.max(extent.to, h)
  }
}

function hoursOf(
  times: { stage: Stage; startsAt: Date; endsAt: Date }[],
  stages: Stage[],
  place: Places["actual"],
): number[] {
  const fermenting = fermentingStages(stages)
  return times
    .filter(({ stage }) => fermenting.includes(stage) || stage.kind === "bake")
    .flatMap(({ startsAt, endsAt }) => [place(startsAt), place(endsAt)])
    .filter((h) => h !== undefined)
}

function ticksOf(fromH: number, toH: number, lined: Lined): Tick[] {
  const step = [1, 2, 3, 6, 12].find((hours) => (toH - fromH) / hours <= mostTicks) ?? 24
  const first = Math.ceil(fromH / step)
  const count = Math.floor(toH / step) - first + 1
  return Array.from({ length: count }, (_, index) => {
    const h = (first + index) * step
    return {
      share: (h - fromH) / (toH - fromH),
      label: labelOf(h, lined),
      second: count > roomy && (first + index) % 2 !== 0,
    }
  })
}
const mostTicks = 14
// More labels than this run into each other on a phone, where every second one is left out.
const roomy = 7

function labelOf(h: number, lined: Lined) {
  if (lined === "clock") return `${String(((h % 24) + 24) % 24).padStart(2, "0")}:00`
  if (lined === "reference") return h === 0 ? "0 ref h" : String(h)
  if (h === 0) return lined === "table" ? "table" : "start"
  return `${h < 0 ? "−" : "+"}${Math.abs(h)} h`
}
