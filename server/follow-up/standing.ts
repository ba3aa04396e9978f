import { countBack, fermentingStages, type Stage } from "../dough/schedule.ts"
import { type Facts, factsOf } from "../table/facts.ts"
import type { TableBake } from "../table/queries.ts"
import { instantAt } from "../web/zones.ts"

/**
 * Where a student stands with a bake day. `since`: they could have begun, by the window, their joining or their own plan; the
 * last thing came from the bench; the bake was finished. `missing` in words, each without a verb: "no photo".
 */
export type Standing =
  | { is: "ahead"; wantedAt: Date | null }
  | { is: "not begun"; since: Date; from: "window" | "joining" | "plan" }
  | { is: "at it" | "given up" | "complete"; bakeId: number; since: Date }
  | { is: "not finished" | "little logged"; bakeId: number; since: Date; missing: string[] }

type Day = { opensOn: string; zone: string; content: { stages: Stage[] } }
type Student = { joinedAt: Date; plan: { onTableAt: Date } | null; bakes: TableBake[] }

/** What can be asked of whom now; nobody is bothered before their time, at their bench, or after they gave up. */
export const isDue = ({ is }: Standing): boolean =>
  is === "not begun" || is === "not finished" || is === "little logged"

/** Judged by the newest bake that was not given up. */
export function standingOf(day: Day, { joinedAt, plan, bakes }: Student, now: Date): Standing {
  const bake = bakes.findLast(({ abandonedAt }) => !abandonedAt) ?? bakes.at(-1)
  if (!bake) return notBegun(day, joinedAt, plan, now)
  const { id: bakeId, abandonedAt, finishedAt } = bake
  if (abandonedAt) return { is: "given up", bakeId, since: abandonedAt }
  const facts = factsOf(bake, bake.content.stages, bake, now, bake.culture)
  const missing = missingIn(facts, bake)
  if (finishedAt) return { is: missing.length ? "little logged" : "complete", bakeId, since: finishedAt, missing }
  const since = latest([bake.madeAt, facts.lastLoggedAt, ...bake.photos.map(({ takenAt }) => takenAt)], now)
  if (+now - +since < quietMs) return { is: "at it", bakeId, since }
  return { is: "not finished", bakeId, since, missing }
}
// Longer than a night in the fridge, as in the table. Our own choice.
const quietMs = 16 * 3_600_000

function notBegun({ opensOn, zone, content }: Day, joinedAt: Date, plan: Student["plan"], now: Date): Standing {
  const opens = instantAt(`${opensOn}T00:00`, zone)!
  const begins = plan ? (countBack(content.stages, plan.onTableAt)[0]?.startsAt ?? plan.onTableAt) : opens
  if (now < opens || now < begins) return { is: "ahead", wantedAt: plan?.onTableAt ?? null }
  const since = latest([opens, joinedAt, begins], now)
  return {
    is: "not begun",
    since,
    from: plan && +since === +begins ? "plan" : +since === +joinedAt ? "joining" : "window",
  }
}

/** The same of one bake, for its baker. */
export const missingOf = (bake: TableBake, now: Date): string[] =>
  missingIn(factsOf(bake, bake.content.stages, bake, now, bake.culture), bake)

/** What the class would need to learn from a bake and its log leaves out, the most telling first. */
function missingIn({ warmth, spans, stages }: Facts, bake: TableBake): string[] {
  const fermenting = fermentingStages(stages)
  const [first, last] = [fermenting[0], fermenting.at(-1)]
  const begun = first && spans.some(({ stage }) => stage.key === first.key)
  const ended =
    last && spans.some(({ stage, end }) => (stage.key === last.key && end !== "open") || stage.kind === "bake")
  return [
    ...(warmth?.from === "dough" ? [] : ["no dough temperature"]),
    ...(first && !begun ? [`no start of ${lower(first.name)}`] : []),
    ...(last && !ended ? [`no end of ${lower(last.name)}`] : []),
    ...(bake.photos.length ? [] : ["no photo"]),
    ...(bake.cues.length ? [] : ["nothing of what was seen"]),
  ]
}
const lower = (name: string) => name.charAt(0).toLowerCase() + name.slice(1)

/** A time typed by hand may lie ahead, and says nothing of when somebody was last heard of. */
const latest = (instants: (Date | undefined)[], now: Date) =>
  new Date(Math.max(...instants.filter((at) => at && at <= now).map(Number)))
