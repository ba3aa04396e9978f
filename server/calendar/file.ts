import ical, { ICalAlarmType, ICalCalendarMethod, ICalEventStatus, ICalEventTransparency } from "ical-generator"
import type { CalendarEvent } from "./events.ts"

/** How often a calendar is asked to look again. Our own choice: a plan that moves is seen in time for the next stage. */
const refreshEveryS = 3600

/** Events as a calendar reads them (RFC 5545), in UTC, so that nobody's clock change touches what lies between two of them. */
export function calendarFile(events: CalendarEvent[], { madeAt, renewed }: { madeAt: Date; renewed: boolean }): string {
  const calendar = ical({
    prodId: "//Common Oven//Bake days//EN",
    method: ICalCalendarMethod.PUBLISH,
    scale: "GREGORIAN",
  })
  // the library writes a calendar's name as it is, so nothing that somebody typed may stand in it
  if (renewed) calendar.name("Bake days").ttl(refreshEveryS)
  if (events.length === 0) calendar.timezone({ name: "Etc/UTC", generator: () => nothingButUtc })
  for (const event of events) {
    calendar.createEvent({
      ...{ id: event.uid, sequence: event.sequence, stamp: madeAt, lastModified: event.movedAt ?? null },
      ...{
        start: event.from,
        end: event.to ?? null,
        summary: plain(event.summary),
        description: plain(event.description),
      },
      ...{ url: event.url, categories: [{ name: "Baking" }] },
      status: event.chosen ? ICalEventStatus.CONFIRMED : ICalEventStatus.TENTATIVE,
      transparency: event.busy ? ICalEventTransparency.OPAQUE : ICalEventTransparency.TRANSPARENT,
      alarms: event.alarms.map(({ minBefore, words }) => ({
        ...{ type: ICalAlarmType.display, trigger: minBefore * 60, description: plain(words) },
      })),
    })
  }
  return `${calendar.toString()}\r\n`
}

/** Text may hold no control characters but tabs and, escaped by the library, new lines (RFC 5545, section 3.3.11). */
const plain = (text: string) => text.replace(/\r\n?/g, "\n").replace(/[^\P{Cc}\t\n]/gu, "")

/** A calendar must hold something (RFC 5545, section 3.4): without bake days, what UTC is. */
const nothingButUtc = [
  ...["BEGIN:VTIMEZONE", "TZID:Etc/UTC", "BEGIN:STANDARD", "DTSTART:19700101T000000"],
  ...["TZOFFSETFROM:+0000", "TZOFFSETTO:+0000", "END:STANDARD", "END:VTIMEZONE"],
].join("\r\n")
