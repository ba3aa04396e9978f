import type { Say } from "../accounts/say.ts"
import type { Stage } from "../dough/schedule.ts"
import type { ReadingKind } from "../schema.ts"
import { fingerWords } from "./forms.ts"
import type { Mark, Photo, Reading } from "./queries.ts"

type Entry = { at: Date } & (
  | { what: "start" | "end"; stage: Stage }
  | { what: "reading"; reading: Reading }
  | { what: "photo"; photo: Photo }
)

/** Everything that was logged, in the order it happened. `marks` in the order of their starts: at one instant a stage ends before the next starts. */
export function logOf(marks: Mark[], readings: Reading[], photos: Photo[], stages: Stage[]): Entry[] {
  const entries: Entry[] = [
    ...marks.flatMap((mark) => startAndEnd(mark, stages)),
    ...readings.map((reading) => ({ at: reading.takenAt, what: "reading" as const, reading })),
    ...photos.map((photo) => ({ at: photo.takenAt, what: "photo" as const, photo })),
  ]
  return entries.toSorted((a, b) => +a.at - +b.at)
}

function startAndEnd({ stageKey, startedAt, endedAt }: Mark, stages: Stage[]): Entry[] {
  const stage = stages.find(({ key }) => key === stageKey)
  if (!stage) return []
  const start: Entry = { at: startedAt, what: "start", stage }
  return endedAt ? [start, { at: endedAt, what: "end", stage }] : [start]
}

/** A reading in the units of whoever looks, and beside it what was typed where that reads otherwise. */
export function shownReading(reading: Reading, say: Say): { value: string; typed: string } {
  const value = valueIn(reading, say)
  const { typed } = reading
  const same = [typed, typed.replace(",", "."), `pH ${typed}`].includes(value)
  return { value, typed: same ? "" : typed }
}

function valueIn({ kind, value, finger, typed }: Reading, say: Say) {
  if (finger) return fingerWords[finger]
  if (value === null) return typed
  if (kind === "dough" || kind === "room") return say.temperature(value)
  return kind === "rise" ? say.rise(value) : `pH ${Number(value.toFixed(2))}`
}

/** The newest reading of one kind; undefined while there is none. */
export const lastOf = (readings: Reading[], kind: ReadingKind) => readings.findLast((reading) => reading.kind === kind)
