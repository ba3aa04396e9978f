import { sayTo } from "../accounts/say.ts"
import { listBakesBy, listCurrent } from "../bake-days/queries.ts"
import type { Db } from "../db.ts"
import { findOwnDay } from "../plans/own-day.ts"
import type { Viewer } from "../web/access.ts"
import { dayBefore, dayOf } from "../web/zones.ts"
import type { Lead } from "./alarms.ts"
import { type CalendarEvent, digestOf, eventsOf } from "./events.ts"
import { versionOf } from "./queries.ts"

type Asked = { now: Date; lead: Lead; publicUrl: string }

/** One bake day as one person's calendar shows it; undefined where there is no such bake day. */
export async function findCalendarDay(db: Db, person: Viewer, bakeDayId: number, { now, ...asked }: Asked) {
  const day = await findOwnDay(db, person, bakeDayId, now)
  if (!day) return undefined
  const version = await versionOf(db, { bakeDayId, userId: person.id }, digestOf(day), now)
  const bake = (await listBakesBy(db, bakeDayId, person.id)).find(
    ({ finishedAt, abandonedAt }) => !finishedAt && !abandonedAt,
  )
  const events = eventsOf(day, { ...asked, userId: person.id, bakeId: bake?.id, version, say: sayTo(person) })
  return { bakeDay: day.bakeDay, events }
}

/** How long a bake day stays in a calendar when its window has passed. Our own choice. */
const daysKept = 14

/**
 * Every bake day of somebody's classes that is under way or to come, and those of the last fortnight for which they had a
 * plan: a suggestion that nobody took was no day of theirs.
 */
export async function listCalendarEvents(db: Db, person: Viewer, asked: Asked): Promise<CalendarEvent[]> {
  const today = dayOf(asked.now, person.zone)
  const listed = await listCurrent(db, person, dayBefore(today, daysKept))
  const events: CalendarEvent[] = []
  for (const { id, closesOn, planned } of listed) {
    if (closesOn < today && !planned) continue
    events.push(...((await findCalendarDay(db, person, id, asked))?.events ?? []))
  }
  return events
}
