import { dayOf, instantAt } from "../web/zones.ts"

type Window = { opensOn: string; closesOn: string; onTableTime: string; zone: string }

/** When the instructor suggests to eat: today if the window is open, else its nearest day, at the suggested time of the class's zone. */
export function suggestedOnTableAt({ opensOn, closesOn, onTableTime, zone }: Window, now: Date): Date {
  const today = dayOf(now, zone)
  const day = today < opensOn ? opensOn : today > closesOn ? closesOn : today
  return instantAt(`${day}T${onTableTime}`, zone)!
}

/** Whether the window, in the class's zone, has not yet opened, is open, or has passed. */
export function windowNow(
  { opensOn, closesOn, zone }: Omit<Window, "onTableTime">,
  now: Date,
): "ahead" | "open" | "past" {
  const today = dayOf(now, zone)
  return today < opensOn ? "ahead" : today > closesOn ? "past" : "open"
}
