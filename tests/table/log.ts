import type { Log, LoggedReading } from "../../server/table/spans.ts"
import { tinLoaf } from "../class-day.ts"

export const at = (clock: string, day = 14) => new Date(`2026-11-${day}T${clock}:00Z`)
/** The tin loaf of the tests: bulk 4–6 h and proof 2 h at 24 °C, so 5 h + 20 min + 2 h planned from bulk to oven. */
export const stages = tinLoaf.stages
export const target = { targetRise: 0.5 }
export const nextDay = at("12:00", 16)

export function log(
  marks: Record<string, [string, string?]>,
  readings: [kind: LoggedReading["kind"], clock: string, value: number | NonNullable<LoggedReading["finger"]>][] = [],
  changes: Partial<Log> = {},
): Log {
  return {
    onTableAt: at("18:00"),
    finishedAt: null,
    abandonedAt: null,
    marks: Object.entries(marks).map(([stageKey, [start, end]]) => ({
      stageKey,
      startedAt: at(start),
      endedAt: end ? at(end) : null,
    })),
    readings: readings.map(([kind, clock, value]) => ({
      kind,
      takenAt: at(clock),
      stageKey: null,
      value: typeof value === "number" ? value : null,
      finger: typeof value === "string" ? value : null,
    })),
    ...changes,
  }
}

/** Everything as planned, from bulk at 09:00 to the oven at 16:20. */
export const onPlan = {
  bulk: ["09:00", "14:00"],
  shape: ["14:00", "14:20"],
  proof: ["14:20", "16:20"],
  bake: ["16:20", "17:00"],
} satisfies Record<string, [string, string]>
