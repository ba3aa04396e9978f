import type { Say } from "../accounts/say.ts"
import type { Finger } from "../dough/verdict/facts.ts"
import type { Known, ReadingKind } from "../schema.ts"
import type { Reading } from "./queries.ts"

export const fingerWords: Record<Finger, string> = {
  "straight-back": "springs straight back",
  "slowly-partly": "comes back slowly, partly",
  stays: "stays",
}
export const fingers = Object.keys(fingerWords) as [Finger, ...Finger[]]

export const kindWords: Record<ReadingKind, string> = {
  ...{ dough: "Dough", room: "Room", fridge: "Fridge", oven: "Oven", water: "Water", levain: "Levain" },
  ...{ rise: "Rise", ph: "pH", finger: "Finger test", note: "Note" },
}

/** Temperatures that are taken now and then, and share a tile. */
export const otherTemperatures: ReadingKind[] = ["fridge", "oven", "water", "levain"]

/** What a rise or a pH may be of, what most people mean first. */
export const placesOf: Partial<Record<ReadingKind, Record<string, string>>> = {
  rise: { jar: "jar", bowl: "bowl", levain: "levain" },
  ph: { dough: "dough", levain: "levain" },
}

/** "Dough", "Rise in the bowl", "pH of the levain". */
export function nameOf({ kind, of }: Pick<Reading, "kind" | "of">) {
  if (of === "levain") return `${kindWords[kind]} of the levain`
  return of === "bowl" ? "Rise in the bowl" : kindWords[kind]
}

/** How a value is known, where it was not measured: a rise is judged by eye, a temperature felt. */
function knownIn(known: Known, kind: ReadingKind) {
  if (known === "measured") return ""
  return known === "felt" && (kind === "rise" || kind === "ph") ? "by eye" : known
}

/** A reading in the units of whoever looks, and beside it what was typed where that reads otherwise, how it is known, and of what. */
export function shownReading(reading: Reading, say: Say) {
  const value = valueIn(reading, say)
  const { typed } = reading
  const same = [typed, typed.replace(",", "."), `pH ${typed}`, `+${typed}`].includes(value)
  const of = reading.of === "levain" ? "of the levain" : reading.of === "bowl" ? "in the bowl" : ""
  return { value, typed: same ? "" : typed, known: knownIn(reading.known, reading.kind), of }
}

function valueIn({ kind, value, finger, typed }: Reading, say: Say) {
  if (finger) return fingerWords[finger]
  if (value === null) return typed
  if (kind === "rise") return say.rise(value)
  return kind === "ph" ? `pH ${Number(value.toFixed(2))}` : say.temperature(value)
}

/** The height a jar started at, as it was typed last, and the unit its heights are in. */
export function jarOf(rise: Reading | null) {
  const [start, now] = rise?.typed.split(" → ") ?? []
  if (!rise || start === undefined || now === undefined) return { start: "", unit: "mm", of: "" }
  return { start, unit: /[a-z"″]+$/i.exec(now)?.[0] ?? /[a-z"″]+$/i.exec(start)?.[0] ?? "mm", of: rise.of }
}

/** When a reading was taken, as it was told. */
export const takenWhen = ({ takenAt, takenAboutMin, takenTyped }: Reading) => ({
  at: takenAt,
  aboutMin: takenAboutMin,
  typed: takenTyped,
})
