import { expect, test } from "vitest"
import { suggestedOnTableAt, windowNow } from "../server/bake-days/window.ts"
import { tinLoaf } from "./class-day.ts"

// the tin loaf takes 9 h 20 min: counted back from 18:00 it begins at 08:40
const bakeDay = { opensOn: "2027-01-15", closesOn: "2027-01-17", onTableTime: "18:00", zone: "UTC", content: tinLoaf }

test.each([
  ["before the window", "2027-01-10T12:00Z", "2027-01-15T18:00Z"],
  ["early enough on a day of the window", "2027-01-16T08:00Z", "2027-01-16T18:00Z"],
  ["too late to begin that day", "2027-01-16T09:00Z", "2027-01-17T18:00Z"],
  ["too late on the last day", "2027-01-17T15:00Z", "2027-01-17T18:00Z"],
  ["after the window", "2027-02-01T15:00Z", "2027-01-17T18:00Z"],
])("%s the suggestion is a day one can still begin, if there is one", (_when, now, suggested) => {
  expect(suggestedOnTableAt(bakeDay, new Date(now))).toEqual(new Date(suggested))
})

test("a window opens and closes with the days of the class's own zone", () => {
  const window = { opensOn: "2027-01-15", closesOn: "2027-01-15", zone: "Pacific/Auckland" }
  expect(windowNow(window, new Date("2027-01-14T10:59Z"))).toBe("ahead")
  expect(windowNow(window, new Date("2027-01-14T11:00Z"))).toBe("open")
  expect(windowNow(window, new Date("2027-01-15T11:00Z"))).toBe("past")
})
