import type { Say } from "../accounts/say.ts"
import type { Bake, Mark, Reading } from "./queries.ts"
import { takenWhen } from "./reading-words.ts"
import { writeWhen } from "./when.ts"

/** A reading as it stood in its form, to be corrected there. */
export function typedReading(reading: Reading, say: Say): Record<string, string> {
  const { kind, known, of } = reading
  const kept = { takenAt: writeWhen(takenWhen(reading), say.zone, say.clock), known, of }
  if (kind === "finger") return { ...kept, value: reading.finger ?? "" }
  const [start, now] = kind === "rise" ? reading.typed.split(" → ") : []
  return now === undefined ? { ...kept, value: reading.typed } : { ...kept, startHeight: start ?? "", value: now }
}

/** A stage's times as they stood in their form. */
export function typedMark(mark: Mark | null, say: Say): Record<string, string> {
  const exactly = (iso: string | null) =>
    iso ? writeWhen({ at: new Date(iso), aboutMin: null }, say.zone, say.clock) : ""
  if (!mark) return {}
  const { startedAt, startedAboutMin, endedAt, endedAboutMin, pauses } = mark
  return {
    startedAt: writeWhen({ at: startedAt, aboutMin: startedAboutMin }, say.zone, say.clock),
    endedAt: endedAt ? writeWhen({ at: endedAt, aboutMin: endedAboutMin }, say.zone, say.clock) : "",
    ...Object.fromEntries(
      pauses.flatMap(({ from, to }, index) => [
        [`pause${index}From`, exactly(from)],
        [`pause${index}To`, exactly(to)],
      ]),
    ),
  }
}

/** A bake's result as text for its form, in the units of whoever looks. */
export function typedResult(bake: Bake, say: Say): Record<string, string> {
  const shown = (value: number | null, show: (value: number) => string) => (value === null ? "" : show(value))
  return {
    insideC: shown(bake.insideC, say.temperature),
    doughMassG: shown(bake.doughMassG, say.mass),
    bakedMassG: shown(bake.bakedMassG, say.mass),
    heightMm: shown(bake.heightMm, (mm) => `${Number(mm.toFixed(1))} mm`),
    ownWords: bake.ownWords,
  }
}
