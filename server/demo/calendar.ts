import type { Stage } from "../dough/schedule.ts"
import { dayOf, instantAt } from "../web/zones.ts"
import { hall } from "./people.ts"
import type { Story } from "./stories.ts"

const minuteMs = 60_000
const dayMs = 24 * 60 * minuteMs

/** Days and instants told from `now`, so that the class is always in the middle of its bake day. */
export function calendarAt(now: Date) {
  const daysAgo = (days: number) => new Date(+now - days * dayMs)
  return {
    daysAgo,
    /** "2026-11-14", by the hall's calendar. */
    dayFromNow: (days: number) => dayOf(daysAgo(-days), hall.zone),
    /** When the bread of a story was wanted, by its student's clock. */
    wantedAt(wanted: Story["wanted"], zone: string, stages: Stage[]): Date {
      if ("daysAgo" in wanted) return instantAt(`${dayOf(daysAgo(wanted.daysAgo), zone)}T${wanted.at}`, zone)!
      const fromBulk = stages.slice(stages.findIndex(({ kind }) => kind === "bulk"))
      const leftMin = fromBulk.reduce((sum, { lowMin, highMin }) => sum + (lowMin + highMin) / 2, 0)
      return new Date(+now + (leftMin - wanted.bulkBeganMinAgo) * minuteMs)
    },
  }
}
