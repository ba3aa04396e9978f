import type { Wishes } from "../server/plans/wishes.ts"
import { plans } from "../server/schema.ts"
import { giveBakeDay } from "./class-day.ts"
import { expect, test } from "./test.ts"
import { type Visitor, wordsOf } from "./visitor.ts"

const settings = { temperatureUnit: "C", massUnit: "g", measures: "metric", clock: "24", zone: "Europe/Lisbon" }
const days = { opensOn: "2027-01-15", closesOn: "2027-01-17" }
const whole = { whole: "yes", day: "2027-01-16", time: "19:00", usualBusy: "on" }

const asked = (fields: Record<string, string>) => `?${new URLSearchParams({ ...whole, ...fields })}`
const begins = async (who: Visitor, url: string) => wordsOf((await who.open(url)).page.querySelector(".big b"))
const told = (who: Visitor, kitchen: Record<string, string>) => who.submit("/kitchen", { ...settings, ...kitchen })

test("the day follows the kitchen, and every day that rests on it moves when it changes", async ({ cast, db }) => {
  const { bakeDayId } = await giveBakeDay(db, cast, days)
  const url = `/bake-days/${bakeDayId}`
  await cast.ben.submit(`${url}/plan`, { day: "2027-01-16", time: "19:00" })
  expect(await begins(cast.ben, url), "as written, while the kitchen is unknown").toBe("09:40")

  await told(cast.ben, { room: "20", "room.measured": "on" })
  const cold = await begins(cast.ben, url)
  expect(cold < "08:40").toBe(true)
  expect(await begins(cast.ben, `${url}/plan`)).toBe(cold)
  await told(cast.ben, { room: "28" })
  expect((await begins(cast.ben, url)) > "10:00").toBe(true)
  expect(await begins(cast.bea, `${url}/plan${asked({})}`), "each has a kitchen of their own").toBe("09:40")
})

test("a what-if is only looked at until it is kept", async ({ cast, db }) => {
  const { bakeDayId } = await giveBakeDay(db, cast, days)
  const url = `/bake-days/${bakeDayId}/plan`
  await cast.ben.submit(url, { day: "2027-01-16", time: "19:00" })

  const { page } = await cast.ben.open(url + asked({ room: "26 C" }))
  expect(wordsOf(page.querySelector(".own-day-looking"))).toContain("Only looked at so far.")
  const warm = wordsOf(page.querySelector(".big b"))
  expect(warm > "10:00").toBe(true)
  expect(await begins(cast.ben, url)).toBe("09:40")

  const kept = await cast.ben.submit(url, { ...whole, room: "26 C" })
  expect([kept.status, kept.location]).toEqual([303, url])
  expect(await begins(cast.ben, url)).toBe(warm)
  await cast.ben.submit(url, { day: "2027-01-16", time: "20:00" })
  const [plan] = await db.select().from(plans)
  expect(plan?.wishes, "another hour leaves the wishes as they are").toEqual({
    roomC: 26,
    roomTyped: "26 C",
  } satisfies Wishes)
})

test("a day that does not fit says what breaks, and a suggestion that is taken makes it fit", async ({ cast, db }) => {
  const { bakeDayId } = await giveBakeDay(db, cast, days)
  const url = `/bake-days/${bakeDayId}/plan`
  await told(cast.ben, { room: "18", proofer: "27", "sleep.from": "23:00", "sleep.to": "09:00" })

  const { page } = await cast.ben.open(url + asked({ notBefore: "2027-01-16T09:00" }))
  expect(wordsOf(page.querySelector(".own-day-broken li"))).toMatch(/too late|earlier than you can|free/)
  const offered = page.querySelectorAll(".own-day-suggestions li")
  expect(offered.length).toBeGreaterThan(0)
  expect(wordsOf(offered[0]!)).toMatch(/Begin Sat 16 Jan .* oven .* on the table/)

  const take = offered[0]!.querySelector("button")!.getAttribute("value")!.replaceAll("&quot;", '"')
  const taken = await cast.ben.submit(url, { ...whole, notBefore: "2027-01-16T09:00", take })
  expect(taken.status).toBe(303)
  const after = (await cast.ben.open(url)).page
  expect(after.querySelector(".own-day-broken")).toBeNull()
  expect(after.querySelector(".own-day-looking")).toBeNull()
})

test("bad input stands beside its field, as typed, and keeps nothing", async ({ cast, db }) => {
  const { bakeDayId } = await giveBakeDay(db, cast, days)
  const url = `/bake-days/${bakeDayId}/plan`
  const wrong = {
    ...{ ...whole, day: "2027-01-20", room: "cosy", feeding: "1 : 3", cold: "bulk", coldFor: "a while", pieces: "0" },
    ...{ "busy.0.from": "2027-01-16T12:00", "busy.0.to": "2027-01-16T11:00", notBefore: "soon" },
  }
  for (const { status, page } of [
    await cast.ben.submit(url, wrong),
    await cast.ben.open(`${url}?${new URLSearchParams(wrong)}`),
  ]) {
    expect([200, 422]).toContain(status)
    const error = (id: string) => wordsOf(page.querySelector(`[id="${id}-error"]`))
    expect(error("day")).toBe("That day is outside the window.")
    expect(error("room")).toBe("Give the temperature as a number, such as 24.5 °C or 76 °F.")
    expect(error("feeding")).toBe("")
    expect(error("coldFor")).toBe("Give a time such as 90, 45 min, 4 h 30 or 4–5 h.")
    expect(error("busy.0.to")).toBe("That ends before it begins.")
    expect(error("notBefore")).toBe("Give a day and a time.")
    expect(page.querySelector("#room")?.getAttribute("value")).toBe("cosy")
  }
  expect((await cast.ben.submit(url, { ...whole, take: '{"loads":"many"}' })).status).toBe(422)
  expect(await db.$count(plans)).toBe(0)
})

test("who lives by another clock reads both, and the date where midnight passes", async ({ cast, db }) => {
  const { bakeDayId } = await giveBakeDay(db, cast, days)
  await told(cast.ben, { zone: "America/New_York", clock: "12" })
  const url = `/bake-days/${bakeDayId}/plan`
  const { page } = await cast.ben.open(url + asked({ time: "05:00" }))
  expect(wordsOf(page.querySelector(".own-day-when"))).toBe("7:40 pm – 8:00 pm 12:40 am – 1:00 am in Lisbon")
  expect(page.querySelectorAll(".own-day-date").map(wordsOf)).toEqual(["Fri 15 Jan", "Sat 16 Jan"])
  expect(wordsOf(page.querySelector("#day-plot-numbers"))).toContain("8:00 pm")
  expect((await cast.dan.open(url)).status, "a stranger finds nothing").toBe(404)
})
