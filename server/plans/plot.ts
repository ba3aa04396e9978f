import type { Say } from "../accounts/say.ts"
import type { DayPlan, DayQuestion } from "../dough/day/day.ts"
import { between } from "../dough/fermentation/temperature-curve.ts"
import { niceAxis, reachOf } from "../plots/axes.ts"
import type { Plot, PlotAxis, PlotPoint, Series } from "../plots/plot.ts"
import { dayAfter, dayOf, instantAt } from "../web/zones.ts"

const hourMs = 3_600_000

/** The dough's temperature over the day, with what is around it and when each stage begins; undefined without a curve. */
export function dayPlot(plan: DayPlan, { places }: DayQuestion, say: Say): Plot | undefined {
  const [first, last] = [plan.curve[0], plan.curve.at(-1)]
  if (!first || !last || first.at >= last.at) return undefined
  const midnight = instantAt(`${dayOf(first.at, say.zone)}T00:00`, say.zone)!
  const at = (instant: Date, y: number): PlotPoint => ({
    x: (+instant - +midnight) / hourMs,
    y,
    at: say.day(instant) === say.day(first.at) ? say.time(instant) : say.dayAndTime(instant),
  })
  const stages = plan.stages.filter(({ startsAt, endsAt }) => startsAt >= first.at && endsAt <= last.at)
  const series: Series[] = [
    {
      ...{ name: "Around it", kind: "step", role: "plan" },
      points: stages.map(({ startsAt, place }) => at(startsAt, places[place] ?? places.room)),
    },
    {
      ...{ name: "Dough", kind: "line", role: "own" },
      points: sampled(plan.curve, stages).map((one) => at(one.at, one.doughC)),
    },
    {
      ...{ name: "A stage begins", kind: "dots", role: "own" },
      points: stages.map(({ stage, startsAt, startC }) => ({ ...at(startsAt, startC), label: stage.name })),
    },
  ]
  const [lowC, highC] = reachOf(series, "y")
  return {
    title: "How warm the dough is, through your day",
    says: `From ${say.dayAndTime(first.at)} to ${say.dayAndTime(last.at)} the dough goes from ${say.temperature(first.doughC)} to ${say.temperature(last.doughC)}.`,
    x: clockAxis(midnight, first.at, last.at, say),
    y: niceAxis(lowC - 1, highC + 1, { label: "Temperature", unit: "°C", digits: 1 }),
    series,
    foot: "Reckoned from what the dough is mixed to and where it stands, by Newton’s law of cooling. Nothing of it is measured yet.",
  }
}

type Moment = { at: Date; doughC: number }

/** Every half hour, and where a stage begins: what somebody reads in a table. */
function sampled(curve: Moment[], stages: { startsAt: Date; endsAt: Date }[]): Moment[] {
  const [from, to] = [+curve[0]!.at, +curve.at(-1)!.at]
  const halfHours = Array.from(
    { length: Math.floor((to - from) / (hourMs / 2)) },
    (_, nth) => from + (nth * hourMs) / 2,
  )
  const cuts = stages.flatMap(({ startsAt, endsAt }) => [+startsAt, +endsAt])
  const times = [...new Set([from, ...halfHours, ...cuts, to])]
    .filter((ms) => ms >= from && ms <= to)
    .sort((a, b) => a - b)
  let next = 0
  return times.map((ms) => {
    while (next < curve.length - 1 && +curve[next + 1]!.at < ms) next++
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
