import type { Away } from "../dough/day/day.ts"
import type { Kitchen } from "../kitchens/kitchen.ts"
import { dayAfter, dayBefore, dayOf, instantAt, instantsAt, weekdayOf } from "../web/zones.ts"
import type { Wishes } from "./wishes.ts"

type Asked = { kitchen: Kitchen; wishes: Wishes; zone: string; from: Date; to: Date }

/**
 * When somebody sleeps or is busy between two instants, by wall times of their zone: a night that the clocks are changed in
 * is an hour longer or shorter. Of a time that clocks show twice, all of it counts; one that they skip has no length.
 */
export function awayBetween({ kitchen, wishes, zone, from, to }: Asked): Away[] {
  const days = daysFrom(dayBefore(dayOf(from, zone), 1), dayOf(to, zone))
  const { sleep, busy = [] } = kitchen
  const nights = sleep ? days.map((day) => daily(day, sleep, zone, "asleep")) : []
  const weekly = wishes.usualBusy === false ? [] : busy
  const usual = weekly.flatMap(({ days: on, ...hours }) =>
    days.filter((day) => on.includes(weekdayOf(day))).map((day) => daily(day, hours, zone, "busy")),
  )
  const thatDay = (wishes.busy ?? []).map((one) => between(one.from, one.to, zone, "busy"))
  return [...nights, ...usual, ...thatDay]
    .filter((away) => away !== undefined)
    .filter((away) => away.to > from && away.from < to)
    .sort((a, b) => +a.from - +b.from)
}

function daysFrom(first: string, last: string): string[] {
  const days: string[] = []
  for (let day = first; day <= last; day = dayAfter(day)) days.push(day)
  return days
}

/** An end that is not after the start is of the next day. */
const daily = (day: string, { from, to }: { from: string; to: string }, zone: string, why: Away["why"]) =>
  between(`${day}T${from}`, `${to > from ? day : dayAfter(day)}T${to}`, zone, why)

function between(from: string, to: string, zone: string, why: Away["why"]): Away | undefined {
  const [start, end] = [instantAt(from, zone), instantsAt(to, zone).at(-1)]
  return start && end && start < end ? { from: start, to: end, why } : undefined
}
