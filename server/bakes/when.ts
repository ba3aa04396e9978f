import { clockTime, dayAfter, dayAndTime, dayBefore, dayOf, instantAt, instantsAt, wallTime } from "../web/zones.ts"
import { type Ago, readAgo } from "./when-ago.ts"
import { type Clock, type ClockWords, readClock } from "./when-clock.ts"
import { type Part, readDay } from "./when-day.ts"

/** A moment as somebody told it: `aboutMin` is how far off it may be either way, null when it was told exactly. */
export type When = { at: Date; aboutMin: number | null; typed: string }
/** `present` is what the field already holds: left as it was shown, it stays so to the second. */
export type Asked = { now: Date; zone: string; opensAt?: Date; present?: When | null }
type Refusal = { error: string }

// A phone's clock may run a little ahead of ours. Our own choice.
export const skewMs = 2 * 60_000
// A levain or a trial may come well before the bake day; over a month before it, a slip is likelier. Our own choice.
export const longestBeforeMs = 31 * 86_400_000

/** How sure a vague time is, in minutes either way: all our own choice, each for the reason beside it. */
const about = {
  /** Who says "about 40 minutes" would not say so of half an hour nor of fifty minutes: a quarter of it, within limits. */
  ago: (min: number) => Math.min(90, Math.max(5, Math.round(min / 4))),
  /** Who counts in days means the same part of the day. */
  days: 6 * 60,
  /** "About 14:30" is said of the nearest half or quarter hour, "about 2" of the nearest hour. */
  minutes: 15,
  hours: 30,
}
/** When parts of the day begin and end, minutes after midnight of their day; "last night" is before going to bed. */
const partsOfDay: Record<Exclude<Part, "overnight">, [number, number]> = {
  "early morning": [4 * 60, 8 * 60],
  morning: [6 * 60, 12 * 60],
  afternoon: [12 * 60, 18 * 60],
  evening: [18 * 60, 22 * 60],
  night: [20 * 60, 24 * 60],
}
/** From going to bed to getting up, across midnight. */
const overnight: [number, number] = [22 * 60, 7 * 60]

const unread = "Say when, such as “40 min ago”, “14:30” or “yesterday 22:00”."
const future = "That is in the future."

/**
 * A moment from how people give it: "40 min ago", "about 2", "14:30", "yesterday evening", "overnight", "Sat 2–3 pm", or
 * the value of a datetime-local field. A time without a day is the last such time before now; what is vague is taken in
 * its middle, with half its width in `aboutMin`. Never in the future. What cannot be read comes back as a sentence.
 */
export function readWhen(text: string, asked: Asked): When | Refusal {
  const { present, zone, now, opensAt } = asked
  const typed = text.normalize("NFC").replace(/\s+/g, " ").trim()
  if (present && asShown(present, zone).includes(typed)) return present
  if (typed.length > 80) return { error: unread }
  const read = fieldValue.test(typed) ? exactly(instantAt(typed, zone)) : fromWords(tidy(typed), asked)
  if ("error" in read) return read
  if (+read.at > +now + skewMs) return { error: future }
  if (opensAt && +read.at < +opensAt - longestBeforeMs)
    return { error: "That is more than a month before the bake day." }
  const at = new Date(Math.min(+read.at, +now))
  return { at, aboutMin: read.aboutMin, typed: fieldValue.test(typed) ? "" : typed }
}
const fieldValue = /^\d{4}-\d\d-\d\d[T ]\d\d:\d\d(?::\d\d(?:\.\d{1,3})?)?$/

/** A moment as its field shows it, to be corrected there: "Sat 14 Nov 16:30", "about Sat 14 Nov 16:30". */
export const writeWhen = ({ at, aboutMin }: Pick<When, "at" | "aboutMin">, zone: string, clock: "24" | "12" = "24") =>
  `${aboutMin ? "about " : ""}${dayAndTime(at, zone, clock)}`
const asShown = (when: When, zone: string) => [
  wallTime(when.at, zone),
  writeWhen(when, zone),
  writeWhen(when, zone, "12"),
]

type Read = { at: Date; aboutMin: number | null } | Refusal
const exactly = (at: Date | undefined): Read => (at ? { at, aboutMin: null } : { error: unread })

function tidy(typed: string) {
  return typed
    .toLowerCase()
    .replace(/[\u2010-\u2015\u2212]/g, "-")
    .replace(/(\d*) ?½/g, (_, whole: string) => `${whole || 0}.5`)
    .replace(/\b([ap])\. ?m\b\.?/g, "$1m")
    .replace(/[,;]+(?!\d)|\.$/g, " ")
    .replace(/\s+/g, " ")
    .trim()
}

const roughly =
  /\b(?:about|around|roughly|approximately|approx|circa|ca|maybe|probably|more or less|or so|i think)\b\.?|~|(?<=[a-z\d])-?ish\b/g

function fromWords(said: string, asked: Asked): Read {
  const words = said.replace(roughly, " ").replace(/\s+/g, " ").trim()
  const isRough = words !== said
  if (/^(?:just |right )?now$|^just (?:this )?(?:minute|second|moment)$|^a moment ago$/.test(words))
    return exactly(asked.now)
  if (/^in (?:\d|an? |half|the next)|\btomorrow\b|\bnext /.test(words)) return { error: future }
  const [, before] = /^(.*\S) (?:ago|back|earlier|before)$/.exec(words) ?? []
  if (before) return ago(readAgo(before), isRough, asked)
  if (readAgo(words) && !readClock(words)) return { error: `Is that “${words} ago”?` }
  return onClock(words, isRough, asked)
}

function ago(read: Ago | undefined, isRough: boolean, { now, zone }: Asked): Read {
  if (!read) return { error: unread }
  const { lowMin, highMin, vague, days } = read
  if (days !== undefined) {
    const at = instantAt(`${dayBefore(dayOf(now, zone), days)}T${clockTime(now, zone)}`, zone)
    return at ? { at, aboutMin: about.days } : { error: unread }
  }
  const middle = (lowMin + highMin) / 2
  const at = new Date(+now - middle * 60_000)
  if (highMin > lowMin) return { at, aboutMin: (highMin - lowMin) / 2 }
  return { at, aboutMin: isRough || vague ? about.ago(middle) : null }
}

function onClock(words: string, isRough: boolean, asked: Asked): Read {
  const { day, part, rest, wrong } = readDay(words, asked.now, asked.zone)
  if (wrong) return { error: wrong }
  const time = rest.replace(/^(?:at |on |from |since )+|(?: at| on)+$|^(?:at|on)$/g, "")
  if (!time && part) return within(part, day, asked)
  if (!time && day) return { error: "Say at what time of that day, such as “yesterday 22:00” or “yesterday evening”." }
  const read = readClock(time)
  if (!read) return { error: unread }
  if ("asks" in read) return { error: read.asks }
  return between(read, day, part, isRough, asked)
}

/** Somewhere in a part of a day, or in as much of it as is over; without a day in the last one that has begun. */
function within(part: Part, day: string | undefined, { now, zone }: Asked): Read {
  const today = dayOf(now, zone)
  for (const one of day ? [day] : [today, dayBefore(today, 1)]) {
    const [from, to] = extentOf(part, one, zone)
    if (from >= now) continue
    const end = to > now ? now : to
    return { at: new Date((+from + +end) / 2), aboutMin: Math.round((+end - +from) / 120_000) }
  }
  return { error: future }
}

function extentOf(part: Part, day: string, zone: string): [Date, Date] {
  if (part === "overnight") return [atMinute(dayBefore(day, 1), overnight[0], zone), atMinute(day, overnight[1], zone)]
  const [from, to] = partsOfDay[part]
  return [atMinute(day, from, zone), atMinute(day, to, zone)]
}

function atMinute(day: string, minute: number, zone: string): Date {
  const of = minute === 24 * 60 ? dayAfter(day) : day
  return instantAt(`${of}T${two(Math.floor(minute / 60) % 24)}:${two(minute % 60)}`, zone)!
}

function between(read: Ends, day: string | undefined, part: Part | undefined, isRough: boolean, asked: Asked): Read {
  const { from, to } = read
  if (from === to) {
    const at = last(to, day, part, asked)
    return at instanceof Date ? { at, aboutMin: isRough ? (to.minute ? about.minutes : about.hours) : null } : at
  }
  const overMidnight = day && to.hours.length === 1 && to.hours[0]! < from.hours.at(-1)! ? dayAfter(day) : day
  const end = last(to, overMidnight, part, asked)
  const begun = last(from, day, part, asked)
  // at 14:40, "2–3 pm" is still going on
  const goesOn = begun instanceof Date && !(end instanceof Date && end >= begun)
  const until = goesOn || !(end instanceof Date) ? asked.now : end
  const start = last(from, day, part, { ...asked, now: until })
  if (!(start instanceof Date)) return start
  if (+until - +start > longestRangeMs) return { error: unread }
  return { at: new Date((+start + +until) / 2), aboutMin: Math.round((+until - +start) / 120_000) }
}
type Ends = Exclude<ClockWords, { asks: string }>
// "10 to 9" is no range of eleven hours that anybody means. Our own choice.
const longestRangeMs = 8 * 3_600_000

/** The last such time up to now, on that day or any; a question where it may as well be twelve hours earlier or later. */
function last(clock: Clock, day: string | undefined, part: Part | undefined, { now, zone }: Asked): Date | Refusal {
  const today = dayOf(now, zone)
  const fitting = clock.hours.filter((hour) => !part || fits(hour, part))
  const days = day ? [day] : [today, dayBefore(today, 1)]
  const times = fitting.flatMap((hour) =>
    days.flatMap((one) =>
      instantsAt(`${afterMidnight(hour, part) && day ? dayAfter(one) : one}T${two(hour)}:${two(clock.minute)}`, zone),
    ),
  )
  const past = times.filter((at) => +at <= +now + skewMs).sort((a, b) => +a - +b)
  const latest = past.at(-1)
  if (!latest) return { error: fitting.length ? future : unread }
  const asWritten = Number(clockTime(latest, zone).slice(0, 2)) === clock.hours[0]
  const unsure = fitting.length > 1 && (day ? past.length > 1 : !clock.spoken && !asWritten)
  return unsure
    ? {
        error: `That could be ${fitting.map((hour) => `${two(hour)}:${two(clock.minute)}`).join(" or ")}; write it so.`,
      }
    : latest
}

const fits = (hour: number, part: Part) => {
  if (part === "early morning" || part === "morning") return hour < 12
  if (part === "afternoon") return hour >= 12 && hour < 19
  if (part === "evening") return hour >= 16
  return hour >= 18 || hour < 9
}
/** "Last night at 1" is of the morning after. */
const afterMidnight = (hour: number, part: Part | undefined) => part === "night" && hour < 9
const two = (number: number) => String(number).padStart(2, "0")
