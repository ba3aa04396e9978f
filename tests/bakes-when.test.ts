import fc from "fast-check"
import { describe, expect, test } from "vitest"
import { readWhen, writeWhen } from "../server/bakes/when.ts"
import { wallTime } from "../server/web/zones.ts"

const zone = "Europe/Lisbon"
/** A Saturday afternoon in winter, when Lisbon keeps UTC. */
const now = new Date("2026-11-14T16:00:30Z")
const opensAt = new Date("2026-11-13T00:00:00Z")

const read = (text: string, at = now, inZone = zone) => {
  const when = readWhen(text, { now: at, zone: inZone })
  if ("error" in when) return when.error
  return wallTime(when.at, inZone).replace("T", " ") + (when.aboutMin === null ? "" : ` ± ${when.aboutMin}`)
}

describe("a moment as people give it", () => {
  test.each([
    ["now", "2026-11-14 16:00"],
    ["just now", "2026-11-14 16:00"],
    ["40 min ago", "2026-11-14 15:20"],
    ["40 minutes ago", "2026-11-14 15:20"],
    ["forty minutes ago", "2026-11-14 15:20"],
    ["twenty-five minutes ago", "2026-11-14 15:35"],
    ["about 40 minutes ago", "2026-11-14 15:20 ± 10"],
    ["About 40 minutes ago.", "2026-11-14 15:20 ± 10"],
    ["30–40 min ago", "2026-11-14 15:25 ± 5"],
    ["between 30 and 40 minutes ago", "2026-11-14 15:25 ± 5"],
    ["a few minutes ago", "2026-11-14 15:57 ± 5"],
    ["a couple of hours ago", "2026-11-14 14:00 ± 30"],
    ["half an hour ago", "2026-11-14 15:30"],
    ["an hour ago", "2026-11-14 15:00"],
    ["an hour and a half ago", "2026-11-14 14:30"],
    ["one and a half hours ago", "2026-11-14 14:30"],
    ["1½ h ago", "2026-11-14 14:30"],
    ["1,5 h ago", "2026-11-14 14:30"],
    ["three quarters of an hour ago", "2026-11-14 15:15"],
    ["1 h 20 min ago", "2026-11-14 14:40"],
    ["1h20 ago", "2026-11-14 14:40"],
    ["roughly 10 hours ago", "2026-11-14 06:00 ± 90"],
    ["2 days ago", "2026-11-12 16:00 ± 360"],

    ["14:30", "2026-11-14 14:30"],
    ["at 14.30", "2026-11-14 14:30"],
    ["14h30", "2026-11-14 14:30"],
    ["1430", "2026-11-14 14:30"],
    ["2.30 pm", "2026-11-14 14:30"],
    ["2:30 p.m.", "2026-11-14 14:30"],
    ["half past two", "2026-11-14 14:30"],
    ["quarter to 3", "2026-11-14 14:45"],
    ["20 past 11", "2026-11-14 11:20"],
    ["2 o'clock", "2026-11-14 14:00"],
    ["noon", "2026-11-14 12:00"],
    ["midnight", "2026-11-14 00:00"],
    ["02:30", "2026-11-14 02:30"],
    ["10:15", "2026-11-14 10:15"],
    ["22:00", "2026-11-13 22:00"],
    ["about 14:30", "2026-11-14 14:30 ± 15"],
    ["around 2", "2026-11-14 14:00 ± 30"],
    ["2ish", "2026-11-14 14:00 ± 30"],
    ["14:30-ish", "2026-11-14 14:30 ± 15"],
    ["14:30 or so", "2026-11-14 14:30 ± 15"],

    ["between 2 and 3", "2026-11-14 14:30 ± 30"],
    ["2–3 pm", "2026-11-14 14:30 ± 30"],
    ["from 14:00 to 14:20", "2026-11-14 14:10 ± 10"],
    ["11–1 pm", "2026-11-14 12:00 ± 60"],
    ["11 pm – 1 am", "2026-11-14 00:00 ± 60"],
    ["yesterday 11 pm–1 am", "2026-11-14 00:00 ± 60"],
    ["Fri 2–3 pm", "2026-11-13 14:30 ± 30"],

    ["yesterday 22:00", "2026-11-13 22:00"],
    ["22:00 yesterday", "2026-11-13 22:00"],
    ["yesterday evening", "2026-11-13 20:00 ± 120"],
    ["the day before yesterday at 22:00", "2026-11-12 22:00"],
    ["today 9 am", "2026-11-14 09:00"],
    ["last night", "2026-11-13 22:00 ± 120"],
    ["last night at 11", "2026-11-13 23:00"],
    ["last night at 1", "2026-11-14 01:00"],
    ["this morning", "2026-11-14 09:00 ± 180"],
    ["early this morning", "2026-11-14 06:00 ± 120"],
    ["8 this morning", "2026-11-14 08:00"],
    ["this afternoon", "2026-11-14 14:00 ± 120"],
    ["overnight", "2026-11-14 02:30 ± 270"],
    ["during the night", "2026-11-14 02:30 ± 270"],
    ["Sat 14:00", "2026-11-14 14:00"],
    ["on Friday at 2 pm", "2026-11-13 14:00"],
    ["Sunday morning", "2026-11-08 09:00 ± 180"],
    ["Fri 13 Nov 16:30", "2026-11-13 16:30"],
    ["13 November, 16:30", "2026-11-13 16:30"],
    ["Nov 13 16:30", "2026-11-13 16:30"],
    ["about Fri 13 Nov 16:30", "2026-11-13 16:30 ± 15"],
    ["2026-11-14T15:59", "2026-11-14 15:59"],
    ["2026-11-14 09:05", "2026-11-14 09:05"],
  ])("%s", (text, expected) => expect(read(text)).toBe(expected))

  test.each([
    ["", "Say when, such as “40 min ago”, “14:30” or “yesterday 22:00”."],
    ["when the radio went off", "Say when, such as “40 min ago”, “14:30” or “yesterday 22:00”."],
    ["25:00", "Say when, such as “40 min ago”, “14:30” or “yesterday 22:00”."],
    ["yesterday", "Say at what time of that day, such as “yesterday 22:00” or “yesterday evening”."],
    ["40 min", "Is that “40 min ago”?"],
    ["2:30", "That could be 02:30 or 14:30; write it so."],
    ["yesterday at 9", "That could be 09:00 or 21:00; write it so."],
    ["half two", "“half two” means different times in different places; write it with figures, such as 14:30."],
    ["10 to 3", "“10 to 3” could be a time or two; write it with figures, such as 14:50 or 10:00–15:00."],
    ["31 Feb 14:00", "There is no such day; check the date."],
    ["Tue 14 Nov 14:00", "That date is another day of the week; check it."],
    ["in 20 minutes", "That is in the future."],
    ["tomorrow 9:00", "That is in the future."],
    ["today 18:00", "That is in the future."],
    ["this evening", "That is in the future."],
    ["2026-11-14T16:30", "That is in the future."],
  ])("%j is refused: %s", (text, sentence) => expect(read(text)).toBe(sentence))
})

test("the words are kept as typed, and the value of a datetime field is no words", () => {
  expect(readWhen(" about  40 minutes ago", { now, zone })).toMatchObject({ typed: "about 40 minutes ago" })
  expect(readWhen("2026-11-14T15:59", { now, zone })).toMatchObject({ typed: "", aboutMin: null })
})

test("a moment a minute ahead of our clock is now, and one long before the bake day a slip", () => {
  expect(readWhen("2026-11-14T16:01", { now, zone })).toMatchObject({ at: now })
  expect(readWhen("2026-09-14T16:01", { now, zone, opensAt })).toEqual({
    error: "That is more than a month before the bake day.",
  })
})

test("a time that is left as its field showed it stays so to the second, words and width included", () => {
  const present = { at: new Date("2026-11-14T13:20:37Z"), aboutMin: 10, typed: "about 40 minutes ago" }
  expect(writeWhen(present, zone)).toBe("about Sat 14 Nov 13:20")
  for (const text of [writeWhen(present, zone), wallTime(present.at, zone)])
    expect(readWhen(text, { now, zone, present })).toEqual(present)
  expect(readWhen("13:25", { now, zone, present })).toMatchObject({ aboutMin: null, typed: "13:25" })
})

test("a part of the day that is still going on reaches as far as now", () => {
  const morning = new Date("2026-11-14T08:00:00Z")
  expect(read("this morning", morning)).toBe("2026-11-14 07:00 ± 60")
  expect(read("overnight", new Date("2026-11-14T03:00:00Z"))).toBe("2026-11-14 00:30 ± 150")
  expect(read("2–3 pm", new Date("2026-11-14T14:40:00Z"))).toBe("2026-11-14 14:20 ± 20")
})

test("past midnight, a time is of the evening before", () => {
  const night = new Date("2026-11-14T00:20:00Z")
  expect(read("23:50", night)).toBe("2026-11-13 23:50")
  expect(read("half past eleven", night)).toBe("2026-11-13 23:30")
  expect(read("about 40 minutes ago", night)).toBe("2026-11-13 23:40 ± 10")
  expect(read("9:15", night)).toBe("That could be 09:15 or 21:15; write it so.")
})

test("when the clock goes back, a time that came twice is the later one, and hours are counted as they passed", () => {
  // Lisbon, 25 October 2026: 02:00 summer time is 01:00 again
  const morning = new Date("2026-10-25T07:00:00Z")
  expect(readWhen("01:30", { now: morning, zone })).toMatchObject({ at: new Date("2026-10-25T01:30:00Z") })
  expect(readWhen("01:30", { now: new Date("2026-10-25T00:45:00Z"), zone })).toMatchObject({
    at: new Date("2026-10-25T00:30:00Z"),
  })
  expect(read("8 hours ago", morning)).toBe("2026-10-25 00:00")
  expect(read("2 days ago", morning)).toBe("2026-10-23 07:00 ± 360")
})

test("when the clock goes forward, a time that was skipped moves on by the gap", () => {
  // Lisbon, 29 March 2026: 01:00 is 02:00
  expect(read("01:30", new Date("2026-03-29T07:00:00Z"))).toBe("2026-03-29 02:30")
})

test("the same words are another moment in another zone", () => {
  expect(read("14:30", now, "Asia/Tokyo")).toBe("2026-11-14 14:30")
  expect(readWhen("14:30", { now, zone: "Asia/Tokyo" })).toMatchObject({ at: new Date("2026-11-14T05:30:00Z") })
})

const pieces = [
  ...["about", "around", "~", "between", "from", "to", "and", "-", "–", "at", "on", "half past", "quarter to", "ago"],
  ...[
    "yesterday",
    "today",
    "last night",
    "this morning",
    "overnight",
    "tonight",
    "sat",
    "Sunday",
    "14 nov",
    "midnight",
  ],
  ...["2", "14:30", "2.30 pm", "11", "40 min", "an hour", "a few", "1h20", "am", "pm", "ish", "2026-11-14", "00:00"],
]
const moments = fc.date({ min: new Date("2020-01-01"), max: new Date("2035-01-01"), noInvalidDate: true })
const somewhere = fc.constantFrom("Europe/Lisbon", "America/New_York", "Australia/Lord_Howe", "Asia/Kolkata", "UTC")
const texts = fc.oneof(
  fc.string({ unit: "binary" }),
  fc.array(fc.constantFrom(...pieces), { maxLength: 6 }).map((words) => words.join(" ")),
)

test("whatever is typed, it is a sentence or a moment that is not in the future", () => {
  fc.assert(
    fc.property(texts, moments, somewhere, (text, at, inZone) => {
      const when = readWhen(text, { now: at, zone: inZone })
      if ("error" in when) return when.error.endsWith(".") || when.error.endsWith("?")
      const { aboutMin } = when
      return when.at <= at && (aboutMin === null || (aboutMin >= 0 && Number.isFinite(aboutMin)))
    }),
    { numRuns: 20_000 },
  )
})

test("what a field shows reads as itself", () => {
  fc.assert(
    fc.property(moments, somewhere, (at, inZone) => {
      const minute = new Date(Math.floor(+at / 60_000) * 60_000)
      const later = new Date(+minute + 3_600_000)
      const when = readWhen(wallTime(minute, inZone), { now: later, zone: inZone })
      return "at" in when && wallTime(when.at, inZone) === wallTime(minute, inZone)
    }),
  )
})
