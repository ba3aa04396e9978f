import type { Say } from "../accounts/say.ts"
import type { Bake, Mark, Reading } from "../bakes/queries.ts"
import type { Db } from "../db.ts"
import { cautionsFor } from "../formulas/cautions.ts"
import { type Estimate, estimateOf } from "./estimate.ts"
import { drawFan } from "./fan.ts"
import { listLessons, raisedIn } from "./queries.ts"
import {
  byPlanIn,
  leadIn,
  oddIn,
  optionsIn,
  rangeIn,
  restsIn,
  riseIn,
  runningIn,
  shapedIn,
  sharperIn,
  type Telling,
  timeIn,
} from "./words.ts"

type Seen = { bake: Bake; marks: Mark[]; readings: Reading[]; now: Date; say: Say; own: boolean }

/** The estimate as the bench shows it; null while nothing has begun, and once the bake is closed. */
export async function benchEstimate(db: Db, { bake, marks, readings, now, say, own }: Seen) {
  if (bake.finishedAt || bake.abandonedAt || !marks.length) return null
  const raised = raisedIn(db, bake)
  const { stages } = bake.content
  const estimate = estimateOf({ ...bake, stages, marks, readings, raised, lessons: await listLessons(db, bake), now })
  if (!estimate) return null
  const caution = estimate.kind === "rising" && estimate.options.length ? warmCaution(bake) : null
  return told(estimate, bake.onTableAt, { say, now, own, caution })
}

/** What to mind with egg and dairy that stand warm; null where the formula has none. */
const warmCaution = ({ content, ownIngredients }: Bake) =>
  cautionsFor(content, { own: ownIngredients }).find(({ key }) => key === "warm")?.short ?? null

function told(estimate: Estimate, onTableAt: Date, telling: Telling) {
  const { say, now, own } = telling
  if (estimate.kind === "cannot") {
    const { why, wants, soFar, byPlan } = estimate
    const facts = soFar ? [`${nowIn(soFar.rise, say)}.`, `${hoursIn(soFar, say)}.`] : []
    return { kind: "cannot" as const, why, wants, facts: byPlan ? [...facts, byPlanIn(byPlan, telling)] : facts }
  }
  if (estimate.kind === "shaped")
    return { kind: "shaped" as const, facts: shapedIn(estimate, telling), rests: restsIn(estimate.rests, own) }
  const { time, rise, targetRise, hoursAtTarget, rests, course } = estimate
  const ticks = hoursBetween(course.from, course.until, say)
  return {
    kind: "rising" as const,
    lead: leadIn(time, telling),
    facts: [`${nowIn(rise, say)}, the target is ${say.rise(targetRise)}`, hoursIn(estimate, say, hoursAtTarget)],
    odd: oddIn(estimate, say),
    running: runningIn(estimate, onTableAt, telling),
    options: optionsIn({ ...estimate, now }, telling),
    caution: telling.caution,
    sharper: estimate.sharper ? { words: sharperIn(estimate, say)!, reading: estimate.sharper.kind } : null,
    rests: restsIn(rests, own),
    fan: {
      ...drawFan(course, ticks),
      targetWords: `shape at ${say.rise(targetRise)}`,
      nowWords: `${say.rise(rise.value)} at ${say.time(now)}`,
      words: `Rise from ${say.time(course.from)}: ${riseIn(rise, say)} now; ${time.kind === "ready" ? `${say.rise(targetRise)} about ${timeIn(time.readyAt, telling)} ${rangeIn(time, telling)}` : time.why}`,
    },
    rows: rowsOf(estimate, ticks, telling),
  }
}

const nowIn = (rise: Parameters<typeof riseIn>[0], say: Say) => `Now ${riseIn(rise, say)}`

function hoursIn({ hours, since }: { hours: number; since: Date }, say: Say, atTarget?: number): string {
  const ahead = atTarget === undefined ? "" : `, about ${say.hours(atTarget)} at the target`
  return `${say.hours(hours)} reference hours since ${say.time(since)}${ahead}`
}

/** Whole hours by the reader's clock, no more of them than a narrow drawing can label. */
function hoursBetween(from: Date, until: Date, say: Say): Date[] {
  const first = +from + ((60 - Number(say.time(from).slice(3))) % 60) * 60_000
  const step = [1, 2, 3, 4, 6, 12].find((hours) => (+until - first) / hours / hourMs < mostTicks) ?? 24
  const count = Math.max(0, Math.floor((+until - first) / step / hourMs) + 1)
  return Array.from({ length: count }, (_, index) => new Date(first + index * step * hourMs))
}
const hourMs = 3_600_000
const mostTicks = 7

/** The drawing in numbers: what was read, now, and the hours to come. */
function rowsOf({ course, riseAt, time }: Extract<Estimate, { kind: "rising" }>, ticks: Date[], telling: Telling) {
  const { say, now } = telling
  const read = course.read.map(({ at, rise }) => ({ at, what: `read ${say.rise(rise)}` }))
  const ready = time.kind === "ready" ? [{ at: time.readyAt, what: "likely at the target" }] : []
  const ahead = ticks.filter((at) => at > now).map((at) => ({ at, what: "" }))
  return [...read, { at: now, what: "now" }, ...ready, ...ahead]
    .sort((a, b) => +a.at - +b.at)
    .map(({ at, what }) => ({
      at: `${say.day(at) === say.day(now) ? "" : `${say.day(at).split(" ")[0]} `}${say.time(at)}`,
      what,
      rise: riseIn(riseAt(at), say),
    }))
}
