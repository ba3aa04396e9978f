import { Temporal } from "temporal-polyfill"

/** The IANA time zones this machine knows, UTC first. */
export const zones = ["UTC", ...Intl.supportedValuesOf("timeZone").filter((zone) => zone !== "UTC")]

export function isZone(zone: string) {
  try {
    Temporal.Now.zonedDateTimeISO(zone)
    return true
  } catch {
    return false
  }
}

/**
 * The instant of a wall time ("2026-11-14T16:30", as a datetime-local field sends it) in a zone; undefined when it is
 * no such time. A time that a clock change skips moves forward by the gap, one that happens twice is the earlier one
 * (the "compatible" rule of RFC 5545 section 3.3.5 and of Temporal).
 */
export function instantAt(wallTime: string, zone: string): Date | undefined {
  try {
    const zoned = Temporal.PlainDateTime.from(wallTime).toZonedDateTime(zone, { disambiguation: "compatible" })
    return new Date(zoned.epochMilliseconds)
  } catch {
    return undefined
  }
}

/** Every instant at which clocks in a zone show this: two when they go back over it, else the one of `instantAt`. */
export function instantsAt(wallTime: string, zone: string): Date[] {
  const at = instantAt(wallTime, zone)
  if (!at) return []
  const later = Temporal.PlainDateTime.from(wallTime).toZonedDateTime(zone, { disambiguation: "later" })
  const again = new Date(later.epochMilliseconds)
  return again > at ? [at, again] : [at]
}

const wall = (at: Date, zone: string) => Temporal.Instant.fromEpochMilliseconds(at.getTime()).toZonedDateTimeISO(zone)

/** "2026-11-14T16:30", the value of a datetime-local field. */
export const wallTime = (at: Date, zone: string) =>
  wall(at, zone).toPlainDateTime().toString({ smallestUnit: "minute" })
/** "2026-11-14T16:30:00+00:00": wall time with its distance from UTC, exact and still readable as a clock. */
export const wallTimeWithOffset = (at: Date, zone: string) =>
  wall(at, zone).toString({ timeZoneName: "never", smallestUnit: "second" })
/** "2026-11-14" */
export const dayOf = (at: Date, zone: string) => wall(at, zone).toPlainDate().toString()
/** The day after "2026-11-14". */
export const dayAfter = (day: string) => Temporal.PlainDate.from(day).add({ days: 1 }).toString()
/** So many days before "2026-11-14". */
export const dayBefore = (day: string, days: number) => Temporal.PlainDate.from(day).subtract({ days }).toString()
/** 1 for a Monday to 7 for a Sunday, 0 for what is no day. */
export function weekdayOf(day: string): number {
  try {
    return Temporal.PlainDate.from(day).dayOfWeek
  } catch {
    return 0
  }
}
/** "16:30", or "4:30 pm". */
export function clockTime(at: Date, zone: string, clock: "24" | "12" = "24"): string {
  const time = wall(at, zone).toPlainTime()
  if (clock === "24") return time.toString({ smallestUnit: "minute" })
  return `${time.hour % 12 || 12}:${String(time.minute).padStart(2, "0")} ${time.hour < 12 ? "am" : "pm"}`
}
/** "Sat 14 Nov" */
export const dayName = (day: string) => dayNames.format(new Date(`${day}T12:00:00Z`)).replace(",", "")
// made once: making one takes a hundred times as long as using it
const dayNames = new Intl.DateTimeFormat("en-GB", { weekday: "short", day: "numeric", month: "short", timeZone: "UTC" })
/** "Sat 14 Nov 16:30", or "Sat 14 Nov 4:30 pm". */
export const dayAndTime = (at: Date, zone: string, clock: "24" | "12" = "24") =>
  `${dayName(dayOf(at, zone))} ${clockTime(at, zone, clock)}`
/** "Europe/Lisbon" as people read it: "Lisbon". */
export const zoneName = (zone: string) => zone.split("/").at(-1)?.replaceAll("_", " ") ?? zone
