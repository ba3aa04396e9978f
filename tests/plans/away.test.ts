import { expect, test } from "vitest"
import { awayBetween } from "../../server/plans/away.ts"

const hours = (from: Date, to: Date) => (+to - +from) / 3_600_000
const asked = (zone: string, from: string, to: string) => ({
  ...{ zone, from: new Date(from), to: new Date(to), wishes: {} },
})

test("a night is an hour shorter or longer when clocks are changed in it, half an hour on Lord Howe", () => {
  const sleep = { from: "23:00", to: "07:00" }
  const nightOf = (zone: string, at: string) => {
    const from = new Date(at)
    const to = new Date(+from + 60_000)
    const [night] = awayBetween({ zone, from, to, kitchen: { sleep }, wishes: {} })
    return hours(night!.from, night!.to)
  }
  expect(nightOf("Europe/Lisbon", "2027-03-28T00:30:00Z")).toBe(7)
  expect(nightOf("Europe/Lisbon", "2026-10-25T00:30:00Z")).toBe(9)
  expect(nightOf("America/New_York", "2026-11-01T05:30:00Z")).toBe(9)
  expect(nightOf("Australia/Lord_Howe", "2026-10-03T15:00:00Z")).toBe(7.5)
  expect(nightOf("Australia/Lord_Howe", "2026-04-04T14:30:00Z")).toBe(8.5)
})

test("hours of the week fall on their days, by the person's own clock and past midnight", () => {
  const kitchen = { busy: [{ days: [5, 6], from: "22:00", to: "02:00" }] }
  const away = awayBetween({ ...asked("America/New_York", "2026-11-12T00:00:00Z", "2026-11-17T00:00:00Z"), kitchen })
  expect(away.map(({ from, to, why }) => [from.toISOString(), to.toISOString(), why])).toEqual([
    ["2026-11-14T03:00:00.000Z", "2026-11-14T07:00:00.000Z", "busy"],
    ["2026-11-15T03:00:00.000Z", "2026-11-15T07:00:00.000Z", "busy"],
  ])
})

test("a day off leaves the week's hours out, and only those", () => {
  const kitchen = { sleep: { from: "23:00", to: "06:00" }, busy: [{ days: [6], from: "08:00", to: "12:00" }] }
  const wishes = { usualBusy: false as const, busy: [{ from: "2026-11-14T15:00", to: "2026-11-14T16:00" }] }
  const away = awayBetween({ ...asked("UTC", "2026-11-14T07:00:00Z", "2026-11-14T20:00:00Z"), kitchen, wishes })
  expect(away).toEqual([{ from: new Date("2026-11-14T15:00:00Z"), to: new Date("2026-11-14T16:00:00Z"), why: "busy" }])
})

test("hours that clocks skip are no time, and those they show twice count twice", () => {
  const busy = (day: string, from: string, to: string) => ({ busy: [{ from: `${day}T${from}`, to: `${day}T${to}` }] })
  const skipped = busy("2027-03-28", "01:15", "01:45")
  expect(
    awayBetween({
      ...asked("Europe/Lisbon", "2027-03-27T12:00:00Z", "2027-03-29T00:00:00Z"),
      kitchen: {},
      wishes: skipped,
    }),
  ).toEqual([{ from: new Date("2027-03-28T01:15:00Z"), to: new Date("2027-03-28T01:45:00Z"), why: "busy" }])
  const twice = busy("2026-10-25", "01:00", "01:30")
  const [away] = awayBetween({
    ...asked("Europe/Lisbon", "2026-10-24T12:00:00Z", "2026-10-26T00:00:00Z"),
    ...{ kitchen: {}, wishes: twice },
  })
  expect(hours(away!.from, away!.to)).toBe(1.5)
})
