import type { Change } from "../changes/as-baked.ts"
import { fermentingStages, type Stage } from "../dough/schedule.ts"
import type { Finger } from "../dough/verdict/facts.ts"
import type { Raised } from "../estimate/leaven.ts"
import type { Known, Pause, ReadingKind, Vessel } from "../schema.ts"
import type { Mix } from "./mix.ts"

type LoggedMark = {
  stageKey: string
  startedAt: Date
  endedAt: Date | null
  pauses?: Pause[]
  startedAboutMin?: number | null
  endedAboutMin?: number | null
}
export type LoggedReading = {
  kind: ReadingKind
  takenAt: Date
  stageKey: string | null
  value: number | null
  finger: Finger | null
  known?: Known
  of?: string
  typed?: string
  takenAboutMin?: number | null
}
/**
 * What one bake's log holds, marks and readings in any order, what its baker did otherwise than the formula says, and what
 * raises it: by the formula, and as it was made.
 */
export type Log = {
  onTableAt: Date
  finishedAt: Date | null
  abandonedAt: Date | null
  marks: LoggedMark[]
  readings: LoggedReading[]
  changes?: Change[]
  raised?: { planned: Raised; actual: Raised }
  /** What it was made of, and what was seen and measured of it. */
  mix?: Pick<Mix, "hydration" | "salt" | "fat" | "sugar">
  vessel?: Vessel
  cues?: string[]
  insideC?: number | null
  doughMassG?: number | null
  bakedMassG?: number | null
}

/** `end` is "marked", or "next" when the next stage's start stands in for it, or "open" as far as is known. */
export type Span = { stage: Stage; startsAt: Date; endsAt: Date; end: "marked" | "next" | "open"; pauses: Pause[] }
export type State = "nothing" | "running" | "over" | "abandoned"

// A stage left open is believed for this long after the last thing logged: longer than a night in the fridge. Our own choice.
const quietHours = 16

/** The stages somebody marked, in the order of the plan. Marks of stages that the revision does not know are left out. */
export function spansOf(log: Log, stages: Stage[], now: Date): Span[] {
  return stages.flatMap((stage): Span[] => {
    const mark = log.marks.find(({ stageKey }) => stageKey === stage.key)
    if (!mark) return []
    const { startedAt: startsAt, endedAt, pauses = [] } = mark
    if (endedAt) return [{ stage, startsAt, endsAt: endedAt, end: "marked", pauses }]
    const next = earliest(log.marks.map((other) => other.startedAt).filter((at) => at > startsAt))
    if (next) return [{ stage, startsAt, endsAt: next, end: "next", pauses }]
    return [{ stage, startsAt, endsAt: new Date(Math.max(+openUntil(log, now), +startsAt)), end: "open", pauses }]
  })
}

/** How far an open stage is taken to have run. */
function openUntil(log: Log, now: Date) {
  const last = lastLogged(log)
  if (!last || log.finishedAt) return last ?? log.onTableAt
  const until = log.abandonedAt ?? now
  return isQuiet(log, until) ? last : until
}

function isQuiet(log: Log, at: Date) {
  const last = lastLogged(log)
  return last !== undefined && +at - +last > quietHours * 3_600_000
}

export function lastLogged({ marks, readings }: Log) {
  const instants = [
    ...marks.flatMap(({ startedAt, endedAt }) => [startedAt, endedAt ?? startedAt]),
    ...readings.map(({ takenAt }) => takenAt),
  ]
  return instants.length ? new Date(Math.max(...instants.map(Number))) : undefined
}

/**
 * "over" from the end of the last stage that temperature drives on, when the student closed the bake, or when nothing has
 * been logged for so long that nothing more will come.
 */
export function stateOf(log: Log, stages: Stage[], spans: Span[], now: Date): State {
  if (log.abandonedAt) return "abandoned"
  if (!log.marks.length && !log.readings.length) return "nothing"
  const last = fermentingStages(stages).at(-1)
  const proofed = spans.some(({ stage, end }) => stage.key === last?.key && end !== "open")
  const baked = spans.some(({ stage }) => stage.kind === "bake")
  return proofed || baked || log.finishedAt || isQuiet(log, now) ? "over" : "running"
}

const earliest = (instants: Date[]) => (instants.length ? new Date(Math.min(...instants.map(Number))) : undefined)
