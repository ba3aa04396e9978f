import fc from "fast-check"
import ICAL from "ical.js"
import { expect, test } from "vitest"
import { uuidOf } from "../../server/calendar/uid.ts"
import { instantAt } from "../../server/web/zones.ts"
import { fileOf, ownDay, planOf, readCalendar, stageOf } from "../calendars.ts"

const minuteMs = 60_000
const utf8 = (bytes: Uint8Array) => new TextDecoder("utf-8", { fatal: true }).decode(bytes)

// RFC 5545, section 3.3.5 (primary, https://www.rfc-editor.org/rfc/rfc5545): DTSTART;TZID=America/New_York:20070311T023000
// does not exist and is read with the offset before the gap
test("RFC 5545, section 3.3.5: 02:30 on 11 March 2007 in New York is 07:30 UTC, and stands so in a file", () => {
  const onTableAt = instantAt("2007-03-11T02:30", "America/New_York")!
  expect(onTableAt.toISOString()).toBe("2007-03-11T07:30:00.000Z")

  const { file } = fileOf(ownDay(planOf([stageOf({})], onTableAt)))
  expect(file).toContain("\r\nDTSTART:20070311T073000Z\r\n")
  expect(readCalendar(file).events.at(-1)!.from).toEqual(onTableAt)
})

// RFC 5545, section 3.1 (primary): "Lines of text SHOULD NOT be longer than 75 octets, excluding the line break"
test("RFC 5545, section 3.1: no line has more than 75 octets, and none breaks a letter in two", () => {
  for (const word of [
    "Sauerteigbrot mit gewürzter Kruste, ",
    "Pão de mistura à moda da avó; ",
    "山のパン、窯の音",
    "хліб ",
  ]) {
    const { file } = fileOf(ownDay(planOf([stageOf({ name: word.repeat(9), cue: word.repeat(30) })], noon)))
    const bytes = Buffer.from(file, "utf8")
    const lines = file.split("\r\n").map((line) => Buffer.from(line, "utf8"))
    expect(Math.max(...lines.map(({ length }) => length))).toBeLessThanOrEqual(75)
    expect(lines.some(({ length }) => length >= 72)).toBe(true)
    // what was sent is these octets, and each line of it is whole letters
    expect(lines.map(utf8).join("\r\n")).toBe(utf8(bytes))
    expect(file.replaceAll("\r\n", "")).not.toMatch(/[\r\n]/)
    expect(file.endsWith("END:VCALENDAR\r\n")).toBe(true)
  }
})

// RFC 5545, section 3.1 (primary): unfolding removes a CRLF and the one white-space character after it
test("RFC 5545, section 3.1: taking out each break with exactly one white space gives the words back", () => {
  const cue = "  two  spaces   and three, until it is done".repeat(12)
  const { file } = fileOf(ownDay(planOf([stageOf({ cue })], noon)))
  const unfolded = file.replace(/\r\n[ \t]/g, "")
  expect(unfolded).toContain(`Until: ${cue.replaceAll(",", "\\,")}`)
  expect(readCalendar(file).events[0]!.description).toContain(cue)
})

// RFC 5545, section 3.3.11 (primary): backslash, semicolon, comma and new line are escaped, the colon is not
test("RFC 5545, section 3.3.11: text is escaped, once, and read back as it was typed", () => {
  const name = 'Shape: "tight"; roll, flip \\ rest'
  const { file } = fileOf(ownDay(planOf([stageOf({ name, tip: "one\r\ntwo\u0007\nEND:VEVENT" })], noon)))
  expect(file).toContain('SUMMARY:Shape: "tight"\\; roll\\, flip \\\\ rest: Tin loaf\r\n')
  const [event, ...rest] = readCalendar(file).events
  expect(event!.summary).toBe(`${name}: Tin loaf`)
  expect(event!.description).toContain("Tip: one\ntwo\nEND:VEVENT\n")
  expect(rest).toHaveLength(1)
})

// RFC 5545, section 3.4 (primary): an iCalendar object holds at least one component
test("RFC 5545, section 3.4: a calendar without bake days still holds something, and no event", () => {
  const nothing = ownDay(planOf([], noon))
  const { file } = fileOf({ ...nothing, answer: { fits: false, plan: undefined, broken: [], suggestions: [] } })
  const calendar = new ICAL.Component(ICAL.parse(file) as unknown as unknown[])
  expect(calendar.getAllSubcomponents().map(({ name }) => name)).toEqual(["vtimezone"])
})

// RFC 9562, section 5.5 (from memory); the value is the example in the documentation of Python's uuid module (primary)
test("a name gives the UUID of version 5 that others give it", () => {
  const names = "6ba7b810-9dad-11d1-80b4-00c04fd430c8"
  expect(uuidOf("python.org", names)).toBe("886313e1-3b8a-5372-9b90-0c9aee199e5d")
})

// IANA tz database (primary), the instants of clock changes: forward, back, by half an hour, at midnight
test.each([
  ["America/New_York", "2027-03-14T07:00:00Z"],
  ["America/New_York", "2027-11-07T06:00:00Z"],
  ["Europe/Berlin", "2026-10-25T01:00:00Z"],
  ["Australia/Lord_Howe", "2026-10-03T15:30:00Z"],
  ["Australia/Lord_Howe", "2027-04-03T15:00:00Z"],
  ["America/Santiago", "2026-09-06T04:00:00Z"],
  ["Pacific/Chatham", "2026-04-04T14:00:00Z"],
])("in %s over %s, hours in the calendar are hours on a timer", (_zone, change) => {
  const onTableAt = new Date(Date.parse(change) + 150 * minuteMs)
  const stages = [
    stageOf({ key: "mix", lowMin: 20, highMin: 20 }),
    stageOf({ key: "bulk", kind: "bulk", lowMin: 300, highMin: 300 }),
    stageOf({ key: "bake", kind: "bake", lowMin: 45, highMin: 45, handsOnMin: 0 }),
  ]
  const [mix, bulk, bake, table] = readCalendar(fileOf(ownDay(planOf(stages, onTableAt))).file).events
  const minutesTo = (from: Date, to: Date) => (+to - +from) / minuteMs
  expect(minutesTo(mix!.from, bulk!.from)).toBe(20)
  expect(minutesTo(bulk!.from, bake!.from)).toBe(300)
  expect(minutesTo(bake!.from, bake!.to!)).toBe(45)
  expect(table!.from).toEqual(onTableAt)
})

const noon = new Date("2026-11-14T12:00:00Z")

const typed = fc.string({ unit: "grapheme", maxLength: 120 }).map((text) => text.replace(/\p{Cc}/gu, " "))
const anyStage = fc.record({
  key: fc.uuid(),
  kind: fc.constantFrom("mix", "rest", "bulk", "fold", "shape", "proof", "retard", "bake", "cool"),
  name: typed.map((text) => text.trim() || "Stage"),
  lowMin: fc.nat(900),
  highMin: fc.constant(0),
  drivenByTemperature: fc.boolean(),
  handsOnMin: fc.nat(40),
  ...{ cue: typed, tip: typed },
})
const anyDay = fc.record({
  stages: fc.array(anyStage, { minLength: 1, maxLength: 9 }),
  onTableAt: fc.date({ min: new Date("2020-01-01"), max: new Date("2040-01-01"), noInvalidDate: true }),
  ...{ title: typed, formulaTitle: typed },
})

test("what another program reads in a file is what went in, whatever the day and its words", () => {
  fc.assert(
    fc.property(anyDay, ({ stages, onTableAt, ...words }) => {
      const lasting = stages.map((stage) => ({ ...stage, highMin: stage.lowMin + 30 }))
      const day = ownDay(planOf(lasting, onTableAt), words)
      const { events, file } = fileOf(day, { version: { sequence: 3, movedAt: noon } })
      const read = readCalendar(file).events

      expect(read.map(({ from, to, uid, summary, description }) => ({ from, to, uid, summary, description }))).toEqual(
        events.map(({ from, to, uid, summary, description }) => ({ from, to, uid, summary, description })),
      )
      expect(read.every(({ sequence, status }) => sequence === 3 && status === "CONFIRMED")).toBe(true)
      expect(read.map(({ alarms }) => alarms.map(({ minBefore }) => minBefore))).toEqual(
        events.map(({ alarms }) => alarms.map(({ minBefore }) => minBefore)),
      )
      expect(new Set(read.map(({ uid }) => uid)).size).toBe(read.length)
      for (const line of file.split("\r\n")) if (Buffer.byteLength(line) > 75) expect.fail(line)
    }),
    { numRuns: 100 },
  )
})
