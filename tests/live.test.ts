import { rm } from "node:fs/promises"
import { setTimeout as wait } from "node:timers/promises"
import { eq } from "drizzle-orm"
import type { FastifyInstance, FastifyRequest } from "fastify"
import { parse } from "node-html-parser"
import { afterAll, beforeAll, expect, test } from "vitest"
import { buildApp } from "../server/app.ts"
import type { Connection } from "../server/db.ts"
import { liveDay } from "../server/live/day.ts"
import type { Fragment } from "../server/live/fragments.ts"
import { memberships, sessions } from "../server/schema.ts"
import { type Following, openHub } from "../server/web/notices.ts"
import { shareWork } from "../server/web/shared-work.ts"
import { read, started } from "./bench.ts"
import { type Cast, gatherCast } from "./cast.ts"
import { temporaryFolder } from "./data-dir.ts"
import { openTestDatabase } from "./database.ts"
import { openEvents } from "./events.ts"
import { quiet } from "./test.ts"
import { type Visitor, wordsOf } from "./visitor.ts"

// on a database of its own, where transactions end: nobody hears of what is rolled back
let connection: Connection
let app: FastifyInstance
let dataDir: string
let service: string
let cast: Cast
let bake: { bakeDayId: number; url: string; id: number }
const hub = openHub({ beatMs: 200, restMs: 0 })

beforeAll(async () => {
  connection = await openTestDatabase()
  dataDir = await temporaryFolder()
  await hub.listenTo(connection.listen)
  app = buildApp({ db: connection.db, settings: { ...quiet, DATA_DIR: dataDir }, hub })
  service = await app.listen({ host: "127.0.0.1", port: 0 })
  cast = await gatherCast(app)
  bake = await started(connection.db, cast)
})
afterAll(async () => {
  await app.close()
  await connection.close()
  await rm(dataDir, { recursive: true })
})

/** The stream that somebody's page of this address opens, as it was drawn. */
const streamOf = async (who: Visitor, page: string) =>
  openEvents(service + (await addressOf(who, page)), { cookie: who.cookie })
const addressOf = async (who: Visitor, page: string) =>
  (await who.open(page)).page.querySelector("#live")!.getAttribute("hx-sse:connect")!
type Stream = Awaited<ReturnType<typeof openEvents>>

/** What an element says once a stream has brought it with these words in it. */
async function comes(stream: Stream, selector: string, words: string) {
  for (;;) {
    const news = await stream.next()
    if (!news) throw new Error(`the stream ended before ${selector} said ${words}`)
    const said = wordsOf(parse(news.data).querySelector(selector))
    if (said.includes(words)) return said
  }
}
/** The next event of this name; what comes before it is passed over. */
async function named(stream: Stream, name: string) {
  for (;;) {
    const event = await stream.next()
    if (!event || event.event === name) return event
  }
}
/** What never was kept would be waited for in vain. */
async function reads(...said: Parameters<typeof read>) {
  expect((await read(...said)).status).toBe(303)
}
async function ends(stream: Stream) {
  while (await stream.next());
  return true
}
async function nobodyFollows() {
  while (hub.count() > 0) await wait(10)
  return true
}

test("a reading shows on every open page of its bake, and on the bake day's", async () => {
  const { ben, bea, ana } = cast
  const benches = [await streamOf(ben, bake.url), await streamOf(bea, bake.url), await streamOf(ana, bake.url)]
  const day = await streamOf(ana, `/bake-days/${bake.bakeDayId}`)

  await reads(ben, bake.url, { kind: "dough", value: "24.5" })

  for (const bench of benches) expect(await comes(bench, "#last-dough", "24.5 °C")).toBeTruthy()
  expect(await comes(day, `#bench-${bake.id} .reading`, "24.5 °C")).toContain("Dough 24.5 °C")
  for (const stream of [...benches, day]) stream.close()
  expect(await nobodyFollows()).toBe(true)
})

test("a question reaches the staff at once, and its answer the baker", async () => {
  const { ben, ana, cleo } = cast
  const [list, others, bench] = [
    await streamOf(ana, "/questions"),
    await streamOf(cleo, "/questions"),
    await streamOf(ben, bake.url),
  ]
  await ben.submit(`${bake.url}/comments`, { about: "bake", says: "asks", words: "Is it ready?" })
  expect(await comes(list, "#waiting-questions", "Is it ready?")).toContain("Ben")
  expect(await comes(others, "#waiting-questions", "Nobody")).toBe("Nobody is waiting for an answer.")
  await ana.submit(`${bake.url}/comments`, { about: "bake", says: "says", words: "Not yet." })
  expect(await comes(bench, "#answered", "Not yet.")).toContain("Ana")
  for (const stream of [list, others, bench]) stream.close()
})

test("each reader gets the reading in their own units", async () => {
  const fahrenheit = { temperatureUnit: "F", massUnit: "g", measures: "us", zone: "Europe/Lisbon" }
  await cast.asta.submit("/account/preferences", fahrenheit)
  const bench = await streamOf(cast.asta, bake.url)
  await reads(cast.ben, bake.url, { kind: "room", value: "20" })
  expect(await comes(bench, "#last-room", "68 °F")).toContain("20 °C")
  bench.close()
})

test("what happened between drawing the page and opening its stream comes at once", async () => {
  const address = await addressOf(cast.bea, bake.url)
  const since = new URL(service + address).searchParams.get("since")
  await reads(cast.ben, bake.url, { kind: "ph", value: "4.31" })

  const late = await openEvents(service + address, { cookie: cast.bea.cookie })
  const first = await late.nextNews()
  expect(wordsOf(parse(first!.data).querySelector("#last-ph"))).toContain("pH 4.31")
  expect(Number(first!.id)).toBeGreaterThan(Number(since))
  late.close()

  const again = await openEvents(service + address, { cookie: cast.bea.cookie, "last-event-id": first!.id })
  await reads(cast.ben, bake.url, { kind: "ph", value: "4.22" })
  const next = await again.nextNews()
  expect(next!.data, "nothing is sent again that was there already").toContain("pH 4.22")
  again.close()
})

test("heartbeats come while nothing happens, for proxies and for the page", async () => {
  const bench = await streamOf(cast.bea, bake.url)
  await named(bench, "beat")
  expect(await named(bench, "beat")).toMatchObject({ comment: "still here" })
  bench.close()
})

test("events are not held back on their way", async () => {
  const address = await addressOf(cast.bea, bake.url)
  const { headers, close } = await openEvents(service + address, {
    cookie: cast.bea.cookie,
    "accept-encoding": "br, gzip",
  })
  expect(headers["content-type"]).toMatch(/^text\/event-stream/)
  expect(headers["content-encoding"]).toBeUndefined()
  expect(headers["x-accel-buffering"]).toBe("no")
  expect(headers["cache-control"]).toBe("no-store, no-transform")
  close()
})

test("who logs for somebody is told whose bench it is, and named in its log", async () => {
  const { asta, ben } = cast
  const { page } = await asta.open(bake.url)
  expect(wordsOf(page.querySelector(".for-somebody"))).toContain("Ben’s bench. What you log here counts for Ben")
  expect((await ben.open(bake.url)).page.querySelector(".for-somebody")).toBeNull()
  const bench = await streamOf(ben, bake.url)
  await reads(asta, bake.url, { kind: "note", value: "Sticky at the edge" })
  expect(await comes(bench, "#log", "Sticky at the edge")).toContain("logged by Asta")
  bench.close()
})

test("who is taken out of the class gets nothing more, and is told", async () => {
  const { classId, ana, bea, ben } = cast
  const streams = [await streamOf(bea, bake.url), await streamOf(bea, `/bake-days/${bake.bakeDayId}`)]
  await ana.submit(`/classes/${classId}/people/${bea.id}/removal`)
  await reads(ben, bake.url, { kind: "note", value: "only for the class" })
  for (const stream of streams) {
    const last = await named(stream, "over")
    expect(last).toMatchObject({ event: "over", data: "This is no longer shown to you." })
    expect(await ends(stream)).toBe(true)
  }
  await connection.db.insert(memberships).values({ classId, userId: bea.id, role: "student", shownName: "Bea" })
})

test("a bake that is no longer shared leaves the pages of classmates, and comes back", async () => {
  const { bea, ben } = cast
  const bench = await streamOf(bea, bake.url)
  const day = await streamOf(bea, `/bake-days/${bake.bakeDayId}`)
  await ben.submit(`${bake.url}/kitchen`, { kitchen: "cellar" })
  expect(await named(bench, "over")).toBeTruthy()
  expect((await day.nextNews())!.data).toContain(`hx-target="#bench-${bake.id}" hx-swap="delete"`)
  expect((await bea.open(`${bake.url}/live`)).status).toBe(404)

  await ben.submit(`${bake.url}/kitchen`, { kitchen: "cellar", shared: "on" })
  expect(await comes(day, `#bench-${bake.id} th`, "Ben")).toBe("Ben")
  day.close()
})

test("a stream ends with its session", async () => {
  const { bea } = cast
  const bench = await streamOf(bea, bake.url)
  const id = bea.cookie.split("=")[1]!
  const kept = await connection.db.query.sessions.findFirst({ where: eq(sessions.id, id) })
  await connection.db.delete(sessions).where(eq(sessions.id, id))
  expect(await named(bench, "over")).toMatchObject({ data: "You have signed out here." })
  expect(await ends(bench)).toBe(true)
  await connection.db.insert(sessions).values(kept!)
})

test("a bake that is begun, gone on with or deleted shows on the bake day's page", async () => {
  const { ana, asta, ben, bea } = cast
  const day = await streamOf(ana, `/bake-days/${bake.bakeDayId}`)
  const { location } = await bea.submit(`/bake-days/${bake.bakeDayId}/bakes`)
  const row = `#bench-${/\d+$/.exec(location!)![0]}`
  expect(await comes(day, `${row} th`, "Bea")).toBe("Bea")
  await bea.submit(`${location}/completion`)
  expect(await comes(day, `${row} .place`, "Finished")).toBeTruthy()
  await bea.submit(`${location}/reopening`)
  expect(await comes(day, `${row} .place`, "Not begun")).toBeTruthy()

  const bench = await streamOf(asta, location!)
  await bea.submit(`${location}/deletion`)
  expect(await named(bench, "over")).toBeTruthy()
  for (;;) if ((await day.nextNews())!.data.includes(`hx-target="${row}" hx-swap="delete"`)) break
  day.close()
  expect((await ben.open(bake.url)).status).toBe(200)
})

test("who looks while a bake is begun keeps nobody from seeing it", async () => {
  const { ana, asta } = cast
  const { session, user } = await app.people.validateSession(ana.cookie.split("=")[1]!)
  const follower = { viewer: user!, sessionId: session!.id }
  const work = shareWork(60_000)
  let meanwhile: (() => Promise<unknown>) | undefined = async () => {
    await asta.submit(`/bake-days/${bake.bakeDayId}/bakes`)
    work.renew()
  }
  const share: typeof work.share = async (name, job) => {
    const value = await work.share(name, job)
    const happens = name === "benches" ? meanwhile : undefined
    if (happens) meanwhile = undefined
    await happens?.()
    return value
  }
  const following = { ...work, share, follower, everybody: () => [follower] } as unknown as Following
  const request = { server: app, viewer: user, params: { id: String(bake.bakeDayId) } } as unknown as FastifyRequest
  const page = liveDay(request)

  const [before, after] = [await page.look(following), await page.look(following)]
  const rows = (fragments: Fragment[]) => fragments.filter(({ within }) => within).length
  expect(rows(after)).toBe(rows(before) + 1)
  expect(after.map(({ html }) => html).join()).toContain("Asta")
})

test("whatever is cut off and missed, everybody looks again", async () => {
  const deaf = openHub({ restMs: 0 })
  let missed = () => {}
  await deaf.listenTo(async (_channel, listener) => {
    missed = listener.missed
    return async () => {}
  })
  const other = buildApp({ db: connection.db, settings: { ...quiet, DATA_DIR: dataDir }, hub: deaf })
  const address = await other.listen({ host: "127.0.0.1", port: 0 })
  const bench = await openEvents(address + (await addressOf(cast.ben, bake.url)), { cookie: cast.ben.cookie })
  await bench.next()
  await reads(cast.ben, bake.url, { kind: "note", value: "said while nobody heard" })
  missed()
  expect((await bench.nextNews())!.data).toContain("said while nobody heard")
  await other.close()
  expect(await ends(bench)).toBe(true)
})

test("every region of the bench is kept up to date", async () => {
  const { page } = await cast.ben.open(bake.url)
  const bench = await openEvents(`${service}${bake.url}/live`, { cookie: cast.ben.cookie })
  const sent = parse((await bench.nextNews())!.data).querySelectorAll("hx-partial > *")
  const regions = page.querySelectorAll("[data-region]").map(({ id }) => id)
  expect(regions).toEqual(expect.arrayContaining(sent.map(({ id }) => id)))
  const regionsSent = sent.flatMap((region) => [region, ...region.querySelectorAll("[data-region]")])
  expect(regionsSent.map(({ id }) => id).toSorted()).toEqual(regions.toSorted())
  bench.close()
})

test("nobody follows any more once all pages are closed", async () => {
  expect(await nobodyFollows()).toBe(true)
})
