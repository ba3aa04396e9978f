import { dayBefore, dayOf, weekdayOf } from "../web/zones.ts"

export type Part = "early morning" | "morning" | "afternoon" | "evening" | "night" | "overnight"
/** `day` as "2026-11-14"; undefined when no day was said. `rest` is what was said beside day and part of the day. */
export type DayWords = { day?: string; part?: Part; rest: string; wrong?: string }

const weekdays = ["mon", "tue", "wed", "thu", "fri", "sat", "sun"]
const months = ["jan", "feb", "mar", "apr", "may", "jun", "jul", "aug", "sep", "oct", "nov", "dec"]
const monthName = "(jan|feb|mar|apr|may|jun|jul|aug|sep|oct|nov|dec)[a-z]{0,6}"
const weekday = /\b(?:last |this )?(mon|tues?|wed(?:nes)?|thu(?:rs?)?|fri|sat(?:ur)?|sun)(?:day)?\b/
const dayMonth = new RegExp(String.raw`\b(\d{1,2})(?:st|nd|rd|th)?(?: of)? ${monthName}\b(?:,? (20\d\d)\b)?`)
const monthDay = new RegExp(String.raw`\b${monthName} (\d{1,2})(?:st|nd|rd|th)?\b(?!:)(?:,? (20\d\d)\b)?`)
const isoDay = /\b(\d{4}-\d\d-\d\d)\b/
const parts = /\b(?:in )?(?:the )?(?:(early) )?(morning|afternoon|evening|night)\b/

/** Takes the day and the part of the day out of what was said: "sat 14 nov 16:30" is that day and "16:30". */
export function readDay(words: string, now: Date, zone: string): DayWords {
  const today = dayOf(now, zone)
  const back = (days: number) => dayBefore(today, days)
  let rest = words
  const take = (pattern: RegExp) => {
    const match = pattern.exec(rest)
    if (match) rest = rest.replace(match[0], " ").replace(/\s+/g, " ").trim()
    return match
  }
  if (take(/\bovernight\b|\b(?:in|during) the night\b|\b(?:all|through the) night\b/))
    return { part: "overnight", rest }

  let day: string | undefined
  if (take(/\b(?:the )?day before yesterday\b/)) day = back(2)
  else if (take(/\byesterday\b/)) day = back(1)
  else if (take(/\blast (?=night|evening)/)) day = back(1)
  else if (take(/\btonight\b/)) [day, rest] = [today, `${rest} night`]
  else if (take(/\btoday\b|\bthis (?=morning|afternoon|evening|early)/)) day = today

  const iso = take(isoDay)
  const written = take(dayMonth)
  const other = written ? null : take(monthDay)
  const named = take(weekday)
  if (iso) day = iso[1]!
  if (written) day = lastDate(Number(written[1]), written[2]!, written[3], today)
  if (other) day = lastDate(Number(other[2]), other[1]!, other[3], today)
  if (day === "") return { rest, wrong: "There is no such day; check the date." }
  if (named) {
    const wanted = weekdays.indexOf(named[1]!.slice(0, 3)) + 1
    day ??= back((weekdayOf(today) - wanted + 7) % 7)
    if (weekdayOf(day) !== wanted) return { rest, wrong: "That date is another day of the week; check it." }
  }
  const said = take(parts)
  const part = said && ((said[1] && said[2] === "morning" ? "early morning" : said[2]) as Part)
  return { ...(day ? { day } : {}), ...(part ? { part } : {}), rest }
}

/** The last such date up to today; "" when no calendar has it. */
function lastDate(date: number, month: string, year: string | undefined, today: string): string {
  const inYear = (of: number) => {
    const day = `${of}-${two(months.indexOf(month) + 1)}-${two(date)}`
    return weekdayOf(day) ? day : ""
  }
  if (year) return inYear(Number(year))
  const [thisYear] = today.split("-").map(Number)
  const now = inYear(thisYear!)
  return now && now <= today ? now : inYear(thisYear! - 1)
}
const two = (number: number) => String(number).padStart(2, "0")
