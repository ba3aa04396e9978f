import { fermentingStages } from "../dough/schedule.ts"
import { dayOf, instantAt } from "../web/zones.ts"
import { type Facts, spansWithin } from "./facts.ts"

/** What all bakes are lined up by: when the bread was wanted, the first start of fermentation, or the clock. */
export const linings = ["table", "start", "clock"] as const
export type Lined = (typeof linings)[number]

/** Hours from each bake's own zero; `share` is the place of a tick, 0 at the left and 1 at the right. */
export type Axis = { lined: Lined; zone: string; fromH: number; toH: number; ticks: Tick[] }
type Tick = { share: number; label: string; second: boolean }

/** One axis for all bakes. It holds every plan, and what was done as far as 12 h beyond the plans on either side. */
export function layAxis(rows: Facts[], lined: Lined, zone: string): Axis {
  const plans = rows.flatMap((facts) => hoursOf(facts, plannedInstants(facts), lined, zone, "planned"))
  const done = rows.flatMap((facts) => hoursOf(facts, actualInstants(facts), lined, zone, "actual"))
  const wanted = lined === "table" ? [...plans, 0] : plans
  const [planFrom, planTo] = wanted.length ? [Math.min(...wanted), Math.max(...wanted)] : [0, 1]
  const near = done.map((h) => Math.min(Math.max(h, planFrom - farthestH), planTo + farthestH))
  const [from, to] = [Math.min(planFrom, ...near), Math.max(planTo, ...near)]
  const margin = Math.max((to - from) / 24, 0.1) // half a label at either end
  const [fromH, toH] = [from - margin, to + margin]
  return { lined, zone, fromH, toH, ticks: ticksOf(fromH, toH, lined) }
}
// A bake of another day would squeeze all others; what lies beyond is cut off and said so.
const farthestH = 12

/** The zero of a bake's own times, and of its plan's. */
export function originOf(facts: Facts, { lined, zone }: Pick<Axis, "lined" | "zone">): { actual: Date; planned: Date } {
  if (lined === "table") return { actual: facts.onTableAt, planned: facts.onTableAt }
  if (lined === "clock") {
    const midnight = midnightOf(facts.onTableAt, zone)
    return { actual: midnight, planned: midnight }
  }
  const fermenting = fermentingStages(facts.stages)
  const first = facts.planned.find(({ stage }) => stage === fermenting[0]) ?? facts.planned[0]
  const planned = first?.startsAt ?? facts.onTableAt
  return { actual: spansWithin(facts.spans, fermenting)[0]?.startsAt ?? planned, planned }
}

/** Counted from noon: on the day the clocks change, the hours after the change are the ones people bake in. */
function midnightOf(at: Date, zone: string) {
  return new Date(+instantAt(`${dayOf(at, zone)}T12:00`, zone)! - 12 * hourMs)
}
const hourMs = 3_600_000

export const offsetH = (at: Date, origin: Date) => (+at - +origin) / hourMs

function hoursOf(facts: Facts, instants: Date[], lined: Lined, zone: string, of: "actual" | "planned") {
  const origin = originOf(facts, { lined, zone })[of]
  return instants.map((at) => offsetH(at, origin))
}

function plannedInstants({ planned, stages }: Facts) {
  const fermenting = fermentingStages(stages)
  return planned
    .filter(({ stage }) => fermenting.includes(stage) || stage.kind === "bake")
    .flatMap(({ startsAt, endsAt }) => [startsAt, endsAt])
}

function actualInstants({ spans, stages }: Facts) {
  const fermenting = fermentingStages(stages)
  return spans
    .filter(({ stage }) => fermenting.includes(stage) || stage.kind === "bake")
    .flatMap(({ startsAt, endsAt }) => [startsAt, endsAt])
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
  if (h === 0) return lined === "table" ? "table" : "start"
  return `${h < 0 ? "−" : "+"}${Math.abs(h)} h`
}
