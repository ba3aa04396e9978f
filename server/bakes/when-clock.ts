/**
 * A time of day: the hours it may mean, since "2:30" may be half past two at night or in the afternoon, and whether it was
 * spoken ("half past two", "2") or read off a clock ("2:30").
 */
export type Clock = { hours: number[]; minute: number; spoken: boolean }
/** One time or two ends; or a question where the words could mean two things. */
export type ClockWords = { from: Clock; to: Clock } | { asks: string }

const half = "(am|pm)?"
const digits = new RegExp(String.raw`^(\d{1,2})[:.h](\d\d)(?::\d\d)? ?${half}$`)
const bare = new RegExp(String.raw`^(\d{1,2}) ?(?:o'?clock)? ?${half}$`)
const four = /^(\d\d)(\d\d)$/
const spoken = new RegExp(String.raw`^(half|quarter|a quarter|\d{1,2}(?: min(?:utes)?)?) (past|to) (\d{1,2}) ?${half}$`)
const named: Record<string, number> = { noon: 12, midday: 12, midnight: 0 }

/** "14:30", "2.30 pm", "quarter to 3", "2–3 pm", "between 2 and 3"; undefined when it is no time of day. */
export function readClock(words: string): ClockWords | undefined {
  const text = words.replace(hourWord, (word) => String(hourWords.indexOf(word)))
  const unclear = /^(5|10) to (\d{1,2})$/.exec(text)
  if (unclear)
    return { asks: `“${words}” could be a time or two; write it with figures, such as 14:50 or 10:00–15:00.` }
  const loose = /^half (\d{1,2})$/.exec(text)
  if (loose)
    return { asks: `“${words}” means different times in different places; write it with figures, such as 14:30.` }
  const at = one(text)
  if (at) return { from: at, to: at }
  const [, first, second] = /^(?:between |from )?(.{1,16}?) ?(?:-|to|and|until|till) ?(.{1,16})$/.exec(text) ?? []
  const to = second ? one(second) : undefined
  if (!first || !to) return undefined
  const from = one(first) ?? undefined
  return from && { from: sharing(first, from, second!, to), to }
}
const hourWords = "zero one two three four five six seven eight nine ten eleven twelve".split(" ")
const hourWord = new RegExp(String.raw`\b(?:${hourWords.slice(1).join("|")})\b`, "g")

function one(text: string): Clock | undefined {
  if (Object.hasOwn(named, text)) return { hours: [named[text]!], minute: 0, spoken: true }
  const [, hour, minute, of] = digits.exec(text) ?? four.exec(text) ?? []
  if (hour && minute) return clock(hour, Number(minute), of, false)
  const [, whole, halfOf] = bare.exec(text) ?? []
  if (whole) return clock(whole, 0, halfOf, true)
  const [, count, side, next, nextOf] = spoken.exec(text) ?? []
  if (!count || !next) return undefined
  const min = count === "half" ? 30 : count.endsWith("quarter") ? 15 : Number.parseInt(count, 10)
  const on = clock(next, side === "past" ? min : 60 - min, nextOf, true)
  if (!on || side === "past") return on
  return { ...on, hours: on.hours.map((hourOn) => (hourOn + 23) % 24) }
}

function clock(hour: string, minute: number, of: string | undefined, isSpoken: boolean): Clock | undefined {
  const h = Number(hour)
  if (minute > 59 || minute < 0 || h > 23 || (of && (h > 12 || h === 0))) return undefined
  const both = h === 12 ? [12, 0] : [h, h + 12]
  const wanted = (one: number) => !of || (of === "am" ? one < 12 : one >= 12)
  const sure = !of && (hour.startsWith("0") || h > 12)
  return { hours: sure ? [h] : both.filter(wanted), minute, spoken: isSpoken }
}

/** In "2–3 pm" both are in the afternoon, in "11–1 pm" only the second. */
function sharing(first: string, from: Clock, second: string, to: Clock): Clock {
  if (!/[ap]m$/.test(second) || /[ap]m$/.test(first) || from.hours.length === 1) return from
  const end = to.hours[0]! * 60 + to.minute
  const before = from.hours.filter((hour) => hour * 60 + from.minute <= end)
  return { ...from, hours: [before.length ? Math.max(...before) : Math.max(...from.hours)] }
}
