import type { Range } from "../dough/amounts.ts"

// Longer than any stage of bread; beyond it a slip is likelier. Our own limit.
const mostMin = 14 * 24 * 60

const number = String.raw`\d{1,5}(?:[.,]\d+)?`
const duration = new RegExp(
  `^(?:(${number}) ?(d|days?) ?)?(?:(${number}) ?(h|hrs?|hours?) ?)?(?:(${number}) ?(m|mins?|minutes?|')?)?$`,
)
const asked = "Give a time such as 90, 45 min, 4 h 30 or 4–5 h."

/**
 * How long a stage lasts, in minutes, from "90", "45 min", "4 h 30", "4–5 h", "12 to 16 hours", "2 d". A number alone is
 * minutes; the lower end of a range takes the unit of the upper one. Blank reads as 0. Errors are sentences.
 */
export function readDuration(text: string): { value: Range } | { error: string } {
  const typed = text.normalize("NFKC").trim().toLowerCase().replace(/\s+/g, " ")
  if (typed === "") return { value: { low: 0, high: 0 } }
  const ends = typed.split(/ ?[-–—] ?| to /)
  const [first = "", last = first] = ends
  const lent = /^[\d.,]+$/.test(first) ? `${first} ${last.replace(/^[\d.,]+ ?([a-z']*).*$/, "$1")}` : first
  const [low, high] = [minutesIn(lent.trim()), minutesIn(last)]
  if (ends.length > 2 || low === undefined || high === undefined) return { error: asked }
  if (low > high) return { error: "The range runs backwards; write the shorter time first." }
  if (high > mostMin) return { error: "That is more than a fortnight; check the unit." }
  return { value: { low, high } }
}

function minutesIn(text: string) {
  const match = duration.exec(text)
  if (!match || text === "") return undefined
  const [, days, , hours, , minutes] = match
  const value = (part: string | undefined) => Number((part ?? "0").replace(",", "."))
  return Math.round(value(days) * 1440 + value(hours) * 60 + value(minutes))
}
