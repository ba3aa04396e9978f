import type { Say } from "../accounts/say.ts"
import type { Bake, Reading } from "./queries.ts"

/** A reading as it stood in its form, to be corrected there. */
export function typedReading(reading: Reading, say: Say): Record<string, string> {
  const takenAt = say.field(reading.takenAt)
  if (reading.kind === "finger") return { takenAt, value: reading.finger ?? "" }
  const [start, now] = reading.kind === "rise" ? reading.typed.split(" → ") : []
  return now === undefined ? { takenAt, value: reading.typed } : { takenAt, startHeight: start ?? "", value: now }
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
