import type { Stage } from "../dough/schedule.ts"
import type { ReadingKind } from "../schema.ts"
import { type Correction, readingThen, timesThen } from "./corrections.ts"
import type { Times } from "./mark-form.ts"
import type { Mark, Photo, Reading } from "./queries.ts"

/** Who corrected something, and when. */
type By = { by: string; madeAt: Date }
/** How a time was told. */
type Moment = { aboutMin: number | null; typed: string }
/** `was`: what stood there before, the first first. `gone`: it was taken back, and counts no more; `restores`: all of it can be put back here. `saidBy`: the user who logged it, where that is kept beside it; a reading's is known by the number of its form. */
export type LogEntry = { at: Date; gone: By | null; saidBy?: number | null } & (
  | ({ what: "start" | "end"; stage: Stage; was: (By & { at: Date | null })[]; restores?: boolean } & Moment)
  | { what: "pause" | "resume"; stage: Stage; restores?: boolean }
  | { what: "reading"; reading: Reading; was: (By & { reading: Reading })[] }
  | { what: "photo"; photo: Photo }
)
type Logged = {
  marks: Mark[]
  readings: Reading[]
  /** Readings that were taken back. */
  removed: Reading[]
  photos: Photo[]
  stages: Stage[]
  corrections: Correction[]
}

/** Everything that was logged, in the order it happened. `marks` in the order of their starts: at one instant a stage ends before the next starts. */
export function logOf({ marks, readings, removed, photos, stages, corrections }: Logged): LogEntry[] {
  const takenBack = stages.filter(({ key }) => marks.every(({ stageKey }) => stageKey !== key))
  const entries: LogEntry[] = [
    ...marks.flatMap((mark) => ofStage(find(stages, mark.stageKey), mark, corrections)),
    ...takenBack.flatMap((stage) => ofStage(stage, null, corrections)),
    ...[...readings, ...removed].map((reading) => ofReading(reading, corrections)),
    ...photos.map((photo): LogEntry => ({ at: photo.takenAt, what: "photo", photo, saidBy: photo.userId, gone: null })),
  ]
  return entries.toSorted((a, b) => +a.at - +b.at)
}

const find = (stages: Stage[], wanted: string) => stages.find(({ key }) => key === wanted)

/** A stage's starts, pauses and ends as they stand, and those that no longer do. */
function ofStage(stage: Stage | undefined, mark: Mark | null, corrections: Correction[]): LogEntry[] {
  if (!stage) return []
  const made = corrections.filter(({ stageKey }) => stageKey === stage.key)
  const versions = [...made.map(({ was }) => was && timesThen(was)), mark]
  const steps = made.map(({ by, madeAt }, index) => ({
    ...{ by, madeAt },
    before: versions[index]!,
    after: versions[index + 1]!,
  }))
  const last = made.at(-1)
  if (!mark) {
    const before = versions.findLast((times) => times !== null)
    if (!before || !last) return []
    return standing(stage, before).map((entry, index) => ({ ...entry, gone: last, restores: index === 0 }))
  }
  const whole = steps.filter(({ before, after }) => before && after)
  const moved = (field: "startedAt" | "endedAt") =>
    whole
      .filter(({ before, after }) => +(before[field] ?? 0) !== +(after[field] ?? 0))
      .map(({ by, madeAt, before }) => ({ by, madeAt, at: before[field] }))
  const was = { start: moved("startedAt"), end: moved("endedAt") }
  const saidBy = { start: mark.startedBy, end: mark.endedBy }
  const entries = standing(stage, mark).map((entry) =>
    entry.what === "start" || entry.what === "end"
      ? { ...entry, was: was[entry.what], saidBy: saidBy[entry.what] }
      : entry,
  )
  const lostEnd = mark.endedAt ? undefined : was.end.findLast(({ at }) => at !== null)
  const lostEnds = lostEnd ? [{ ...endOf(stage, { ...mark, endedAt: lostEnd.at! }), gone: lostEnd }] : []
  const lostPauses = whole.flatMap(({ by, madeAt, before, after }) =>
    before.pauses
      .filter(({ from, to }) => !after.pauses.some((pause) => pause.from === from && pause.to === to))
      .map(({ from }): LogEntry => ({ what: "pause", at: new Date(from), stage, gone: { by, madeAt } })),
  )
  return [...entries, ...lostEnds, ...lostPauses]
}

function standing(stage: Stage, times: Times): LogEntry[] {
  const { startedAt, startedAboutMin, startedTyped, endedAt, pauses } = times
  const moment = { aboutMin: startedAboutMin, typed: startedTyped }
  const kept = { gone: null, stage }
  return [
    { ...kept, at: startedAt, what: "start", was: [], ...moment },
    ...pauses.flatMap(({ from, to }): LogEntry[] => [
      { ...kept, at: new Date(from), what: "pause" },
      ...(to ? [{ ...kept, at: new Date(to), what: "resume" as const }] : []),
    ]),
    ...(endedAt ? [endOf(stage, { ...times, endedAt })] : []),
  ]
}

const endOf = (stage: Stage, { endedAt, endedAboutMin, endedTyped }: Times & { endedAt: Date }): LogEntry => ({
  ...{ at: endedAt, what: "end", stage, was: [], gone: null },
  ...{ aboutMin: endedAboutMin, typed: endedTyped },
})

function ofReading(reading: Reading, corrections: Correction[]): LogEntry {
  const made = corrections.filter(({ readingId }) => readingId === reading.id)
  const versions = [...made.map(({ was }) => readingThen(reading, was!)), reading]
  const was = made
    .map(({ by, madeAt }, index) => ({ by, madeAt, reading: versions[index]!, after: versions[index + 1]! }))
    .filter(({ reading: before, after }) => said(before) !== said(after))
  return { at: reading.takenAt, what: "reading", reading, was, gone: reading.removedAt ? made.at(-1)! : null }
}

const said = ({ value, finger, typed, known, of, takenAt, takenAboutMin }: Reading) =>
  JSON.stringify([value, finger, typed, known, of, takenAt, takenAboutMin])

/** The newest reading of one of these kinds; undefined while there is none. */
export const lastOf = (readings: Reading[], ...kinds: ReadingKind[]) =>
  readings.findLast((reading) => kinds.includes(reading.kind))
