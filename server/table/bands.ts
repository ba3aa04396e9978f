import type { Say } from "../accounts/say.ts"
import type { Band } from "./values.ts"

/** Mean of temperatures as they were read, °C; undefined for none. */
export function meanOf(points: { c: number }[]): number | undefined {
  return points.length ? points.reduce((sum, { c }) => sum + c, 0) / points.length : undefined
}

/** The two degrees Celsius that a temperature lies in: narrow enough to matter to a dough, wide enough for company. Our own choice. */
export function bandIn(c: number, say: Say): Band {
  const from = Math.floor(c / bandC) * bandC
  const bare = (words: string) => words.replace(/\s*°.$/, "")
  return { key: String(from), words: `${bare(say.temperature(from))} to ${say.temperature(from + bandC)}`, order: from }
}
const bandC = 2
