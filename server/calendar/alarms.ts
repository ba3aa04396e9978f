import type { Say } from "../accounts/say.ts"
import { clockTime, dayBefore, dayOf, instantAt } from "../web/zones.ts"
import type { Moment } from "./moments.ts"

export type Alarm = { minBefore: number; words: string }

/** How long before hands are needed a calendar may call; null never. Our own choice. */
export const leadTimes = [5, 10, 20, 30, 60] as const
export type Lead = (typeof leadTimes)[number] | null
export const usualLead: Lead = 10

/** What stands in an address: "30", "never"; anything else is the usual lead. */
export const leadIn = (typed: string | undefined): Lead =>
  typed === "never" ? null : (leadTimes.find((lead) => String(lead) === typed) ?? usualLead)

/** A day that begins before nine is told of at eight the evening before, by the person's clock. Our own choice. */
const early = "09:00"
const evening = "20:00"

/** When a calendar calls for one moment of a day; the table calls nobody, who has it in the oven knows. */
export function alarmsFor(moment: Moment, { first, lead, say }: { first: boolean; lead: Lead; say: Say }): Alarm[] {
  if (lead === null || moment.what === "table") return []
  const soon = { minBefore: lead, words: `In ${say.minutes(lead)}: ${moment.name}` }
  if (!first || clockTime(moment.from, say.zone) >= early) return [soon]
  const eve = instantAt(`${dayBefore(dayOf(moment.from, say.zone), 1)}T${evening}`, say.zone)!
  const minBefore = (+moment.from - +eve) / 60_000
  return [{ minBefore, words: `Tomorrow at ${say.time(moment.from)}: ${moment.name}` }, soon]
}
