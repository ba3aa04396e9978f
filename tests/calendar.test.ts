import { and, eq } from "drizzle-orm"
import { keepPlan } from "../server/bake-days/queries.ts"
import { leave } from "../server/classes/queries.ts"
import type { Db } from "../server/db.ts"
import { memberships, plans, users } from "../server/schema.ts"
import { dayBefore, dayOf, instantAt } from "../server/web/zones.ts"
import { fileOf, ownDay, planOf, readCalendar, stageOf } from "./calendars.ts"
import { giveBakeDay } from "./class-day.ts"
import { expect, test } from "./test.ts"
import { type Page, type Visitor, wordsOf } from "./visitor.ts"

const today = () => dayOf(new Date(), "Europe/Lisbon")
const at = (time: string, day = today()) => instantAt(`${day}T${time}`, "Europe/Lisbon")!
const keep = (db: Db, bakeDayId: number, { id }: Visitor, onTableAt: Date) =>
  keepPlan(db, bakeDayId, id, { onTableAt, variant: "" })
const read = async (page: Promise<Page>) => readCalendar((await page).text)

/** Makes the private address on the page, as a person does, and reads it off there. */
async function makeAddress(who: Visitor) {
  await who.submit("/calendar/address")
  return addressOf(who)
}

async function addressOf(who: Visitor) {
  const { page } = await who.open("/calendar")
  return page
    .querySelector("#address")!
    .getAttribute("value")!
    .replace(/^https?:\/\/[^/]+/, "")
}

test("a day can be taken as a file, with its moments when the page shows them", async ({ db, cast }) => {
  const { bakeDayId } = await giveBakeDay(db, cast)
  await keep(db, bakeDayId, cast.ben, at("20:00"))

  const file = await cast.ben.open(`/bake-days/${bakeDayId}/day.ics`)
  expect(file.headers["content-type"]).toBe("text/calendar; charset=utf-8")
  expect(file.headers["content-disposition"]).toBe('attachment; filename="tin-loaf-week-day.ics"')

  const { events, method } = readCalendar(file.text)
  expect(method).toBe("PUBLISH")
  const [mix] = events
  expect(mix!.summary).toBe("Mix: Tin loaf")
  expect(mix!.description).toContain(`/bake-days/${bakeDayId}/plan`)
  expect(mix!.status).toBe("CONFIRMED")
  expect(events.at(-1)).toMatchObject({
    summary: "On the table: Tin loaf",
    from: at("20:00"),
    transparency: "TRANSPARENT",
  })
})

test("who has kept no day gets the instructor's suggestion, marked as not settled, and nothing is written", async ({
  db,
  cast,
}) => {
  const { bakeDayId } = await giveBakeDay(db, cast)
  const { events } = await read(cast.ben.open(`/bake-days/${bakeDayId}/day.ics`))
  expect(events.every(({ status, sequence }) => status === "TENTATIVE" && sequence === 0)).toBe(true)
  expect(events[0]!.description).toContain("instructor's suggestion")
  expect(await db.$count(plans)).toBe(0)
})

test("a plan that moves keeps the name of each event and counts up", async ({ db, cast }) => {
  const { bakeDayId } = await giveBakeDay(db, cast)
  const take = async () => (await read(cast.ben.open(`/bake-days/${bakeDayId}/day.ics`))).events
  const suggested = await take()
  await keep(db, bakeDayId, cast.ben, at("19:00"))
  const first = await take()
  const again = await take()
  await keep(db, bakeDayId, cast.ben, at("21:30"))
  const [moved, atOnce] = await Promise.all([take(), take()])

  const names = (events: typeof first) => events.map(({ uid }) => uid)
  expect([first, again, moved].map(names)).toEqual([1, 2, 3].map(() => names(suggested)))
  const counts = (events: typeof first) => new Set(events.map(({ sequence }) => sequence))
  expect([suggested, first, again, moved, atOnce].map((one) => [...counts(one)])).toEqual([[0], [1], [1], [2], [2]])
  expect(+moved.at(-1)!.from - +first.at(-1)!.from).toBe(150 * 60_000)
  expect(+moved[0]!.lastModified!).toBeGreaterThanOrEqual(+first[0]!.lastModified!)
})

test("each person has a day of their own in it", async ({ db, cast }) => {
  const { bakeDayId } = await giveBakeDay(db, cast)
  await keep(db, bakeDayId, cast.ben, at("19:00"))
  await keep(db, bakeDayId, cast.bea, at("21:00"))
  const bens = await read(cast.ben.open(`/bake-days/${bakeDayId}/day.ics`))
  const beas = await read(cast.bea.open(`/bake-days/${bakeDayId}/day.ics`))
  expect([bens, beas].map(({ events }) => events.at(-1)!.from)).toEqual([at("19:00"), at("21:00")])
  expect(bens.events.map(({ uid }) => uid)).not.toContain(beas.events[0]!.uid)
})

test("an address is made, followed without signing in, made anew and ended", async ({ db, cast }) => {
  const { bakeDayId } = await giveBakeDay(db, cast)
  await keep(db, bakeDayId, cast.ben, at("19:00"))
  const first = await makeAddress(cast.ben)
  const feed = await cast.stranger.open(first)
  expect(feed.headers["content-type"]).toBe("text/calendar; charset=utf-8")
  expect(readCalendar(feed.text)).toMatchObject({ name: "Bake days" })
  expect(feed.text).toContain("\r\nREFRESH-INTERVAL;VALUE=DURATION:PT1H\r\n")

  const second = await makeAddress(cast.ben)
  expect(second).not.toBe(first)
  expect((await cast.stranger.open(first)).status).toBe(404)
  expect((await cast.stranger.open(second)).status).toBe(200)

  const ended = await cast.ben.submit("/calendar/address/revocation")
  expect((await cast.stranger.open(second)).status).toBe(404)
  expect(wordsOf((await cast.ben.open(ended.location!)).page.querySelector("main"))).toContain("The address has ended.")
  expect((await cast.stranger.open("/feeds/anything.ics")).status).toBe(404)
})

test("an address follows what is under way and to come, and a past day that was somebody's own", async ({
  db,
  cast,
}) => {
  const give = (title: string, opens: number, closes: number) =>
    giveBakeDay(db, cast, { title, opensOn: dayBefore(today(), opens), closesOn: dayBefore(today(), closes) })
  await give("Under way", 2, -1)
  await give("To come", -20, -21)
  const kept = await give("Last week", 8, 6)
  await give("Last week, nobody's", 8, 6)
  const long = await give("Long ago", 40, 30)
  await giveBakeDay(db, { ...cast, classId: cast.otherClassId }, { title: "Of another class" })
  for (const { bakeDayId } of [kept, long]) await keep(db, bakeDayId, cast.ben, at("19:00", dayBefore(today(), 7)))

  const { events } = await read(cast.stranger.open(await makeAddress(cast.ben)))
  const titles = new Set(events.map(({ description }) => /^(.*) · Thursday bakers$/m.exec(description)?.[1]))
  expect([...titles].toSorted()).toEqual(["Last week", "To come", "Under way"])
})

test("who left the class has none of its days any more, and an account that is gone has no address", async ({
  db,
  cast,
}) => {
  await giveBakeDay(db, cast)
  const address = await makeAddress(cast.ben)
  expect((await read(cast.stranger.open(address))).events).not.toEqual([])
  await leave(db, cast.classId, cast.ben.id)
  expect((await read(cast.stranger.open(address))).events).toEqual([])
  await db.delete(users).where(eq(users.id, cast.ben.id))
  expect((await cast.stranger.open(address)).status).toBe(404)
})

test("a calendar that has it already is told so, until the day moves", async ({ db, cast }) => {
  const { bakeDayId } = await giveBakeDay(db, cast)
  await keep(db, bakeDayId, cast.ben, at("19:00"))
  const address = await makeAddress(cast.ben)
  const { headers } = await cast.stranger.open(address)
  const ask = () => cast.stranger.send("GET", address, undefined, { "if-none-match": String(headers.etag) })
  expect(headers["cache-control"]).toBe("private, no-cache")
  expect(await ask()).toMatchObject({ status: 304, text: "" })
  await keep(db, bakeDayId, cast.ben, at("19:30"))
  expect((await ask()).status).toBe(200)
})

test("nothing of allergies or of other people is in it", async ({ db, cast }) => {
  const { bakeDayId } = await giveBakeDay(db, cast)
  await db
    .update(memberships)
    .set({ allergies: { keys: ["sesame"], words: "lupin" } })
    .where(and(eq(memberships.classId, cast.classId), eq(memberships.userId, cast.ben.id)))
  await keep(db, bakeDayId, cast.ben, at("19:00"))
  const { text } = await cast.stranger.open(await makeAddress(cast.ben))
  expect(text.replaceAll("\r\n ", "")).not.toMatch(/sesame|lupin|\b(Ana|Asta|Ben|Bea|ana|asta|ben|bea)\b/)
})

test("the address says how early it calls", async ({ db, cast }) => {
  const { bakeDayId } = await giveBakeDay(db, cast)
  await keep(db, bakeDayId, cast.ben, at("22:00"))
  await makeAddress(cast.ben)
  const called = async (before: string) => {
    const { page } = await cast.ben.open(`/calendar?before=${before}`)
    const address = page.querySelector("#address")!.getAttribute("value")!
    const { events } = await read(cast.stranger.open(new URL(address).pathname + new URL(address).search))
    return events.map(({ alarms }) => alarms.at(-1)?.minBefore)
  }
  const [usual, half] = [await called(""), await called("30")]
  expect(new Set(usual.slice(0, -1))).toEqual(new Set([10]))
  expect(new Set(half.slice(0, -1))).toEqual(new Set([30]))
  expect(half.at(-1)).toBeUndefined()
  expect(new Set(await called("never"))).toEqual(new Set([undefined]))
  expect(await called("soon")).toEqual(usual)
})

test("the pages of a day and of an account lead to it", async ({ db, cast }) => {
  const { bakeDayId } = await giveBakeDay(db, cast)
  const links = async (url: string) =>
    (await cast.ben.open(url)).page.querySelectorAll("main a").map((a) => a.getAttribute("href"))
  expect(await links(`/bake-days/${bakeDayId}`)).toContain(`/bake-days/${bakeDayId}/day.ics`)
  expect(await links("/account")).toContain("/calendar")
  expect(await links("/calendar")).toContain(`/bake-days/${bakeDayId}/day.ics`)
})

// What of a day becomes an event, without a database

const moments = (day: ReturnType<typeof ownDay>, asked: Parameters<typeof fileOf>[1] = {}) =>
  readCalendar(fileOf(day, asked).file).events
const evening = new Date("2026-11-14T18:00:00Z")
const bread = [
  stageOf({ key: "levain", kind: "rest", name: "Levain", lowMin: 480, highMin: 600, handsOnMin: 0 }),
  stageOf({ key: "mix", lowMin: 20, highMin: 20, handsOnMin: 20 }),
  stageOf({ key: "bulk", kind: "bulk", name: "Bulk", lowMin: 240, highMin: 300, cue: "domed, half as big again" }),
  stageOf({ key: "proof", kind: "proof", name: "Proof", lowMin: 120, highMin: 120, handsOnMin: 0 }),
  stageOf({ key: "bake", kind: "bake", name: "Bake", lowMin: 45, highMin: 45, handsOnMin: 0 }),
  stageOf({ key: "cool", kind: "cool", name: "Cool", lowMin: 60, highMin: 60, handsOnMin: 0 }),
]

test("a long rise is a line of the event before it, not an event", () => {
  const events = moments(ownDay(planOf(bread, evening)))
  expect(events.map(({ summary }) => summary)).toEqual(
    ["Levain", "Mix", "Bulk", "Bake", "On the table"].map((name) => `${name}: Tin loaf`),
  )
  const bulk = events[2]!
  expect(+bulk.to! - +bulk.from).toBe(10 * 60_000)
  expect(bulk.description).toContain("Until: domed, half as big again\n")
  expect(bulk.description).toContain("It goes on until 14:15, in the room, 24 °C inside.\n")
  expect(bulk.description).toContain("Then, without you, until 16:15: Proof, in the room, 24 °C inside.")
  expect(bulk.description).toContain("Begin between Sat 14 Nov 09:15 and 10:15, Lisbon time.")
  expect(+events[3]!.to! - +events[3]!.from).toBe(45 * 60_000)
})

test("each fold of a bulk is an event, numbered", () => {
  const plan = planOf(bread, evening)
  const folds = [30, 60, 90].map((min) => new Date(+plan.stages[2]!.startsAt + min * 60_000))
  plan.stages[2]!.handsOn = folds.map((from) => ({ from, to: new Date(+from + 5 * 60_000) }))
  const events = moments(ownDay(plan)).slice(2, 5)
  expect(events.map(({ summary, from }) => [summary, from])).toEqual(
    folds.map((from, at) => [`Bulk, fold ${at + 1} of 3: Tin loaf`, from]),
  )
  expect(events.map(({ description }) => description.includes("It goes on until"))).toEqual([false, false, true])
})

test("an oven that is filled twice is two events, of however many stages its bake is made", () => {
  const uncovered = stageOf({ key: "uncovered", kind: "bake", name: "Bake uncovered", lowMin: 20, highMin: 20 })
  const plan = planOf(bread.toSpliced(5, 0, uncovered), evening)
  const { startsAt } = plan.stages[4]!
  const inMin = (min: number) => new Date(+startsAt + min * 60_000)
  const load = { waitedMin: 0, addedHours: 0 }
  plan.loads = [
    { startsAt, endsAt: inMin(65), ...load },
    { startsAt: inMin(70), endsAt: inMin(135), ...load },
  ]
  const bakes = moments(ownDay(plan)).filter(({ summary }) => summary.startsWith("Bake"))
  expect(bakes.map(({ summary, from, to }) => [summary, from, to])).toEqual([
    ["Bake, load 1 of 2: Tin loaf", startsAt, inMin(65)],
    ["Bake, load 2 of 2: Tin loaf", inMin(70), inMin(135)],
  ])
})

test("a day that begins early calls at eight the evening before, too", () => {
  const alarmsOf = (onTable: string) => moments(ownDay(planOf(bread, new Date(onTable))))[0]!.alarms
  expect(alarmsOf("2026-11-14T21:00:00Z")).toEqual([
    { action: "DISPLAY", minBefore: 445, words: "Tomorrow at 03:25: Levain" },
    { action: "DISPLAY", minBefore: 10, words: "In 10 min: Levain" },
  ])
  expect(alarmsOf("2026-11-15T04:00:00Z")).toEqual([{ action: "DISPLAY", minBefore: 10, words: "In 10 min: Levain" }])
})

test("a day that does not fit says so in each event, and a bench that is open is one tap away", () => {
  const plan = planOf(bread, evening)
  const day = { ...ownDay(plan), answer: { fits: false as const, plan, broken: [], suggestions: [] } }
  const events = moments(day, { bakeId: 31 })
  expect(events.every(({ description }) => description.includes("Not everything fits yet"))).toBe(true)
  expect(events[0]!.description).toContain("Your bench: https://oven.example/bakes/31")
})
