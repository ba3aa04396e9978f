import { randomUUID } from "node:crypto"
import { readdir } from "node:fs/promises"
import { join } from "node:path"
import { eq } from "drizzle-orm"
import sharp from "sharp"
import { listMarks, listPhotos, listReadings } from "../server/bakes/queries.ts"
import type { Db } from "../server/db.ts"
import { bakes, entries } from "../server/schema.ts"
import { pressedAt } from "../server/web/sender.ts"
import { minutesAgo, started } from "./bench.ts"
import { expect, test } from "./test.ts"
import type { Visitor } from "./visitor.ts"

/** Sends a form as a phone does that kept it since `pressed`; its clock shows `sent` now. */
function sendKept(
  who: Visitor,
  url: string,
  fields: Record<string, string>,
  { maker = who, pressed = new Date(), sent = new Date() } = {},
) {
  return who.send("POST", url, new URLSearchParams(fields).toString(), {
    "content-type": "application/x-www-form-urlencoded",
    "oven-viewer": String(maker.id),
    "oven-pressed-at": pressed.toISOString(),
    "oven-sent-at": sent.toISOString(),
  })
}
const dough = (value: string) => ({ entryId: randomUUID(), kind: "dough", value })
const readAt = async (db: Db, id: number) => +(await listReadings(db, id)).at(-1)!.takenAt
const aSecond = 1000

test("whatever is sent twice at once, and once more later, is kept once", async ({ db, cast }) => {
  const { id, url } = await started(db, cast)
  const start = { entryId: randomUUID(), stageKey: "mix", action: "start" }
  const reading = dough("24.5")
  for (const [path, fields] of [
    ["marks", start],
    ["readings", reading],
  ] as const) {
    const send = () => sendKept(cast.ben, `${url}/${path}`, fields)
    const answers = [...(await Promise.all([send(), send()])), await send()]
    expect(answers.map(({ status }) => status)).toEqual([303, 303, 303])
  }
  expect(await listMarks(db, id)).toHaveLength(1)
  expect(await listReadings(db, id)).toHaveLength(1)
  expect(await db.$count(entries)).toBe(2)
})

test("a form that arrives again does not undo what came after it", async ({ db, cast }) => {
  const { id, url } = await started(db, cast)
  await sendKept(cast.ben, `${url}/marks`, { entryId: randomUUID(), stageKey: "mix", action: "start" })
  const end = { entryId: randomUUID(), stageKey: "mix", action: "end" }
  await sendKept(cast.ben, `${url}/marks`, end)
  await cast.ben.submit(`${url}/marks/mix`, { startedAt: "", endedAt: "" })
  await sendKept(cast.ben, `${url}/marks`, { entryId: randomUUID(), stageKey: "mix", action: "start" })
  await sendKept(cast.ben, `${url}/marks`, end)
  expect((await listMarks(db, id)).map(({ endedAt }) => endedAt)).toEqual([null])
})

test("a picture that arrives twice is one picture, with no file too many", async ({ db, cast, dataDir }) => {
  const { id, url } = await started(db, cast)
  const bytes = await sharp({ create: { width: 60, height: 40, channels: 3, background: "tan" } })
    .jpeg()
    .toBuffer()
  const fields = { entryId: randomUUID(), subject: "crumb", stageKey: "", takenAt: "" }
  const send = () =>
    cast.ben.upload(`${url}/photos`, fields, { field: "photo", name: "a.jpg", type: "image/jpeg", bytes })
  await send()
  const files = async () => {
    const there = await readdir(join(dataDir, "photos"), { recursive: true, withFileTypes: true })
    return there.filter((entry) => entry.isFile()).length
  }
  const before = await files()
  expect((await send()).status).toBe(303)
  expect(await listPhotos(db, id)).toHaveLength(1)
  expect(await files()).toBe(before)
})

test("another value under a number that was kept is refused, and changes nothing", async ({ db, cast }) => {
  const { id, url } = await started(db, cast)
  const first = dough("24.5")
  await sendKept(cast.ben, `${url}/readings`, first)
  expect((await sendKept(cast.ben, `${url}/readings`, { ...first, value: "26" })).status).toBe(422)
  const { location } = await cast.bea.submit(`/bake-days/${await bakeDayOf(db, id)}/bakes`)
  expect((await sendKept(cast.bea, `${location}/readings`, first)).status).toBe(422)
  expect((await db.query.readings.findMany()).map(({ bakeId, value }) => [bakeId, value])).toEqual([[id, 24.5]])
})

const bakeDayOf = async (db: Db, id: number) => (await db.query.bakes.findFirst({ where: eq(bakes.id, id) }))!.bakeDayId

test("what somebody else made on this phone is not taken from whoever is signed in now", async ({ db, cast }) => {
  const { id, url } = await started(db, cast)
  for (const now of [cast.asta, cast.ana, cast.bea]) {
    const { status, text } = await sendKept(now, `${url}/readings`, dough("24"), { maker: cast.ben })
    expect(status).toBe(409)
    expect(text).toContain("Somebody else made this on your phone")
  }
  expect(await listReadings(db, id)).toEqual([])
  expect(await db.$count(entries)).toBe(0)
})

test("an assistant's own entry in a student's bake is taken", async ({ db, cast }) => {
  const { id, url } = await started(db, cast)
  expect((await sendKept(cast.asta, `${url}/readings`, dough("24"))).status).toBe(303)
  expect(await listReadings(db, id)).toHaveLength(1)
})

test("a phone that is signed out is told so, where a browser is led to sign in", async ({ db, cast }) => {
  const { id, url } = await started(db, cast)
  expect(await sendKept(cast.stranger, `${url}/readings`, dough("24"), { maker: cast.ben })).toMatchObject({
    status: 401,
    location: undefined,
  })
  expect(await cast.stranger.submit(`${url}/readings`, dough("24"))).toMatchObject({
    status: 303,
    location: "/sign-in",
  })
  expect(await listReadings(db, id)).toEqual([])
})

test("an entry that waited counts from when its button was pressed", async ({ db, cast }) => {
  const { id, url } = await started(db, cast)
  const pressed = minutesAgo(95)
  await sendKept(cast.ben, `${url}/readings`, dough("24"), { pressed })
  expect(await readAt(db, id)).toBe(+pressed)
  await sendKept(cast.ben, `${url}/marks`, { entryId: randomUUID(), stageKey: "mix", action: "start" }, { pressed })
  expect((await listMarks(db, id))[0]?.startedAt).toEqual(pressed)
})

test.for([
  ["three hours slow", -180],
  ["five hours fast", 300],
  ["a year fast", 525_600],
] as const)("a phone whose clock is %s is put right by what it shows while it sends", async ([, off], { db, cast }) => {
  const { id, url } = await started(db, cast)
  await sendKept(cast.ben, `${url}/readings`, dough("24"), { pressed: minutesAgo(40 - off), sent: minutesAgo(-off) })
  expect(Math.abs((await readAt(db, id)) - +minutesAgo(40))).toBeLessThan(10 * aSecond)
})

test.for([
  ["pressed after it was sent", minutesAgo(-60), new Date()],
  ["pressed in the future, by a clock that is right", minutesAgo(-1), minutesAgo(-1)],
  ["pressed longer ago than anybody waits", minutesAgo(60 * 24 * 40), new Date()],
  ["pressed at no time", "soon", new Date().toISOString()],
] as const)("an entry %s is of now", async ([, pressed, sent]) => {
  const now = new Date()
  const text = (at: Date | string) => (typeof at === "string" ? at : at.toISOString())
  const request = { headers: { "oven-pressed-at": text(pressed), "oven-sent-at": text(sent) } }
  expect(pressedAt(request as never, now)).toEqual(now)
})
