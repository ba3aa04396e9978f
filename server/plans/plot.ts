import type { Say } from "../accounts/say.ts"
import type { DayQuestion } from "../dough/day/day.ts"
import { between, type CurvePoint } from "../dough/fermentation/temperature-curve.ts"
import { niceAxis, reachOf } from "../plots/axes.ts"
import type { Plot, PlotAxis, PlotPoint, Series } from "../plots/plot.ts"
import { dayAfter, dayOf, instantAt } from "../web/zones.ts"
import type { CourseStage } from "./course.ts"

const hourMs = 3_600_000
const halfHourMs = hourMs / 2

/** How warm the dough is from its mixing to the oven, with what is around it and when each stage begins; undefined for none. */
export function dayPlot(curve: CurvePoint[], course: CourseStage[], places: DayQuestion["places"], say: Say) {
  const stages = course.filter(({ warmth }) => warmth === "dough")
  const [from, to] = [stages[0]?.startsAt, stages.at(-1)?.endsAt]
  if (!from || !to || from >= to || !curve.length) return undefined
  const midnight = instantAt(`${dayOf(from, say.zone)}T00:00`, say.zone)!
  const at = (instant: Date, y: number): PlotPoint => ({
    x: (+instant - +midnight) / hourMs,
    y,
    at: say.day(instant) === say.day(from) ? say.time(instant) : say.dayAndTime(instant),
  })
  const series: Series[] = [
    {
      ...{ name: "Around it", kind: "step", role: "plan" },
      points: stages.map(({ startsAt, place }) => at(startsAt, places[place] ?? places.room)),
    },
    {
      ...{ name: "Dough", kind: "line", role: "own" },
      points: sampled(curve, from, to, stages).map((one) => at(one.at, one.doughC)),
    },
    {
      ...{ name: "A stage begins", kind: "dots", role: "own" },
      points: stages.map(({ stage, startsAt, startC }) => ({ ...at(startsAt, startC), label: stage.name })),
    },
  ]
  const [lowC, highC] = reachOf(series, "y")
  const plot: Plot = {
    title: "How warm the dough is, from the bowl to the oven",
    says: `From ${say.dayAndTime(from)} to ${say.dayAndTime(to)} the dough goes from ${say.temperature(stages[0]!.startC)} to ${say.temperature(stages.at(-1)!.endC)}.`,
    x: clockAxis(midnight, from, to, say),
    y: niceAxis(lowC - 1, highC + 1, { label: "Temperature", unit: "°C", digits: 1 }),
    series,
    foot: "Reckoned from what the dough is mixed to and where it stands, by Newton’s law of cooling. Nothing of it is measured yet.",
  }
  return plot
}

type Moment = { at: Date; doughC: number }

/** Every half hour by the clock, and where a stage begins: what somebody reads in a table. */
function sampled(curve: Moment[], startsAt: Date, endsAt: Date, stages: CourseStage[]): Moment[] {
  const [from, to] = [+startsAt, +endsAt]
  const first = Math.ceil(from / halfHourMs) * halfHourMs
  const halfHours = Array.from(
    { length: Math.max(0, Math.ceil((to - first) / halfHourMs)) },
    (_, nth) => first + nth * halfHourMs,
  )
  const cuts = stages.flatMap(({ startsAt, endsAt }) => [+startsAt, +endsAt])
  const times = [...new Set([from, ...halfHours, ...cuts, to])]
    .filter((ms) => ms >= from && ms <= to)
    .sort((a, b) => a - b)
  let next = 0
  return times.map((ms) => {
    while (next < curve.length - 1 && +curve[next + 1]!.at <= ms) next++
    const [a, b] = [curve[next]!, curve[Math.min(next + 1, curve.length - 1)]!]
    const share = +b.at > +a.at ? (ms - +a.at) / (+b.at - +a.at) : 0
    return { at: new Date(ms), doughC: between(a.doughC, b.doughC, Math.min(Math.max(share, 0), 1)) }
  })
}

/**
 * Hours since midnight as they pass, with ticks where clocks show a round hour: on a day whose clocks are changed the two are
 * not the same.
 */
function clockAxis(midnight: Date, first: Date, last: Date, say: Say): PlotAxis {
  const [from, to] = [first, last].map((at) => (+at - +midnight) / hourMs) as [number, number]
  const step = [1, 2, 3, 6].find((hours) => (to - from) / hours <= mostTicks) ?? 12
  const ticks: PlotAxis["ticks"] = []
  for (let day = dayOf(first, say.zone); day <= dayOf(last, say.zone); day = dayAfter(day)) {
    for (let hour = 0; hour < 24; hour += step) {
      const instant = instantAt(`${day}T${String(hour).padStart(2, "0")}:00`, say.zone)!
      const x = (+instant - +midnight) / hourMs
      if (x >= from && x <= to)
        ticks.push({ at: x, label: hour === 0 ? say.dayName(day).slice(0, 3) : say.time(instant) })
    }
  }
  return { label: `By the clock in ${say.zoneName()}`, unit: "", from, to, ticks, digits: 2, reads: "clock" }
}
const mostTicks = 10
