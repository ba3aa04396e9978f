import { countBack, type Stage } from "../dough/schedule.ts"
import { dayAfter, dayOf, instantAt } from "../web/zones.ts"

type Window = { opensOn: string; closesOn: string; zone: string }
type BakeDay = Window & { onTableTime: string; content: { stages: Stage[] } }

/**
 * When the instructor suggests to eat, by the class's clock: on the first day of the window, from today, whose first
 * stage has not already begun; on the last day when none is left.
 */
export function suggestedOnTableAt({ opensOn, closesOn, onTableTime, zone, content }: BakeDay, now: Date): Date {
  const at = (day: string) => instantAt(`${day}T${onTableTime}`, zone)!
  const begins = (day: string) => countBack(content.stages, at(day))[0]?.startsAt ?? at(day)
  const today = dayOf(now, zone)
  let day = today > opensOn ? today : opensOn
  while (day < closesOn && begins(day) < now) day = dayAfter(day)
  return at(day < closesOn ? day : closesOn)
}

/** Whether the window, in the class's zone, has not yet opened, is open, or has passed. */
export function windowNow({ opensOn, closesOn, zone }: Window, now: Date): "ahead" | "open" | "past" {
  const today = dayOf(now, zone)
  return today < opensOn ? "ahead" : today > closesOn ? "past" : "open"
}
