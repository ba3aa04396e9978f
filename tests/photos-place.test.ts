import { randomUUID } from "node:crypto"
import sharp from "sharp"
import { listPhotos } from "../server/bakes/queries.ts"
import type { Db } from "../server/db.ts"
import { marks, photos } from "../server/schema.ts"
import { wallTime } from "../server/web/zones.ts"
import { minutesAgo, started, zone } from "./bench.ts"
import type { Cast } from "./cast.ts"
import { giveBakeDay, tinLoaf } from "./class-day.ts"
import { expect, test } from "./test.ts"
import { type Page, wordsOf } from "./visitor.ts"

/** A picture whose camera says when: by its own clock, which may know how far it is from UTC. */
const taken = (at: string, offset?: string) =>
  sharp({ create: { width: 30, height: 20, channels: 3, background: "#d9c39a" } })
    .withExif({ IFD2: { DateTimeOriginal: at, ...(offset && { OffsetTimeOriginal: offset }) } })
    .jpeg()
    .toBuffer()
const cameraClock = (at: Date, inZone: string) => `${wallTime(at, inZone).replace("T", " ").replaceAll("-", ":")}:07`

/** Ben adds a photo, which is then the only one. */
async function send(db: Db, cast: Cast, url: string, fields: Record<string, string>, bytes?: Buffer) {
  const picture = {
    field: "photo",
    name: "IMG_1.jpg",
    type: "image/jpeg",
    bytes: bytes ?? (await taken("2020:01:01 00:00:00")),
  }
  await db.delete(photos)
  return cast.ben.upload(`${url}/photos`, { forClass: "on", entryId: randomUUID(), ...fields }, picture)
}
const only = async (db: Db, id: number) => (await listPhotos(db, id))[0]!
const presetIn = ({ page }: Page, field: string) => page.querySelector(`.adding [name=${field}][checked]`) !== null

test("a photo belongs to the stage that runs, and shows what is to be seen in it", async ({ db, cast }) => {
  const { url, id } = await started(db, cast)
  const expected = { mix: "dough", bulk: "dough", shape: "shaped", proof: "shaped", bake: "crust", cool: "crumb" }
  for (const [stageKey, subject] of Object.entries(expected)) {
    await cast.ben.submit(`${url}/marks`, { entryId: randomUUID(), stageKey, action: "start" })
    expect(wordsOf((await cast.ben.open(url)).page.querySelector(".adding details summary"))).toContain(
      tinLoaf.stages.find(({ key }) => key === stageKey)!.name,
    )
    expect((await send(db, cast, url, {})).status).toBe(303)
    expect(await only(db, id)).toMatchObject({ stageKey, subject, takenBy: "sending" })
  }
  await cast.ben.submit(`${url}/marks`, { entryId: randomUUID(), stageKey: "cool", action: "end" })
  await send(db, cast, url, {})
  expect(await only(db, id)).toMatchObject({ stageKey: null, subject: "crumb" })
})

test("in the stages of a levain a photo shows the starter", async ({ db, cast }) => {
  const ripen = { ...tinLoaf.stages[0]!, key: "ripen", kind: "rest" as const, name: "Levain ripens" }
  const { bakeDayId } = await giveBakeDay(db, cast, { content: { ...tinLoaf, stages: [ripen, ...tinLoaf.stages] } })
  const { location } = await cast.ben.submit(`/bake-days/${bakeDayId}/bakes`)
  await cast.ben.submit(`${location}/marks`, { entryId: randomUUID(), stageKey: "ripen", action: "start" })
  await send(db, cast, location!, {})
  expect(await db.query.photos.findFirst()).toMatchObject({ stageKey: "ripen", subject: "starter" })
})

test("what its sender says of it counts before all that", async ({ db, cast }) => {
  const { url, id } = await started(db, cast)
  await db.insert(marks).values({ bakeId: id, stageKey: "bulk", startedAt: minutesAgo(90), endedAt: minutesAgo(30) })
  await send(db, cast, url, { takenAt: "60 min ago", subject: "other" })
  expect(await only(db, id)).toMatchObject({ stageKey: "bulk", subject: "other", takenBy: "person" })
  await send(db, cast, url, { stageKey: "", subject: "crust" })
  expect(await only(db, id)).toMatchObject({ stageKey: null, subject: "crust" })
})

test("the camera is asked only where that is allowed, and the answer remembered", async ({ db, cast }) => {
  const { url, id } = await started(db, cast)
  await db.insert(marks).values({ bakeId: id, stageKey: "bulk", startedAt: minutesAgo(90), endedAt: minutesAgo(30) })
  const picture = await taken(cameraClock(minutesAgo(60), "Asia/Tokyo"), "+09:00")

  await send(db, cast, url, {}, picture)
  expect(await only(db, id)).toMatchObject({ takenBy: "sending", stageKey: null })
  expect(presetIn(await cast.ben.open(url), "cameraTime")).toBe(false)

  const { location } = await send(db, cast, url, { cameraTime: "on" }, picture)
  expect(location).toBe(`${url}#photos`)
  const photo = await only(db, id)
  expect(photo).toMatchObject({ takenBy: "camera", stageKey: "bulk", subject: "dough" })
  expect(Math.abs(+photo.takenAt - +minutesAgo(60))).toBeLessThan(70_000)
  const page = await cast.ben.open(url)
  expect(wordsOf(page.page.querySelector(`#photo-${photo.id} figcaption p`))).toMatch(
    /^Dough, Bulk taken .+, by its camera seen by the class$/i,
  )
  expect(presetIn(page, "cameraTime")).toBe(true)
  expect(presetIn(await cast.bea.open(url), "cameraTime")).toBe(false)
})

test("a camera that does not know its zone is read by its owner's clock", async ({ db, cast }) => {
  const { url, id } = await started(db, cast)
  await send(db, cast, url, { cameraTime: "on" }, await taken(cameraClock(minutesAgo(60), zone)))
  const photo = await only(db, id)
  expect(photo.takenBy).toBe("camera")
  expect(Math.abs(+photo.takenAt - +minutesAgo(60))).toBeLessThan(70_000)
})

test.for([
  ["of years ago", "2001:01:01 00:00:00", "+00:00"],
  ["of tomorrow", cameraClock(minutesAgo(-24 * 60), zone), undefined],
  ["of no calendar", "2026:13:45 99:00:00", "+01:00"],
  ["of no calendar and no zone", "2026:13:45 99:00:00", undefined],
] as const)("a camera's time %s is not believed, with a word", async ([, at, offset], { db, cast }) => {
  const { url, id } = await started(db, cast)
  const { status, location } = await send(db, cast, url, { cameraTime: "on" }, await taken(at, offset))
  expect(status).toBe(303)
  const photo = await only(db, id)
  expect(photo.takenBy).toBe("sending")
  expect(Math.abs(+photo.takenAt - Date.now())).toBeLessThan(120_000)
  expect(wordsOf((await cast.ben.open(location!)).page.querySelector("#photos .note"))).toBe(
    "One picture does not say when the camera took it, or says what cannot be; the time it was added stands for it.",
  )
  expect((await cast.ben.open(url)).page.querySelector("#photos .note")).toBeNull()
})

test("a time that somebody typed counts before the camera's", async ({ db, cast }) => {
  const { url, id } = await started(db, cast)
  const picture = await taken(cameraClock(minutesAgo(60), zone))
  await send(db, cast, url, { cameraTime: "on", takenAt: "20 min ago" }, picture)
  const photo = await only(db, id)
  expect(photo.takenBy).toBe("person")
  expect(Math.abs(+photo.takenAt - +minutesAgo(20))).toBeLessThan(70_000)
})

test("a photo that waited on a phone is of the moment its button was pressed", async ({ db, cast }) => {
  const { url, id } = await started(db, cast)
  await db.insert(marks).values({ bakeId: id, stageKey: "bulk", startedAt: minutesAgo(90), endedAt: minutesAgo(30) })
  const form = new FormData()
  form.append("entryId", randomUUID())
  form.append("photo", new Blob([new Uint8Array(await taken("2020:01:01 00:00:00"))]), "IMG_1.jpg")
  const request = new Request("http://localhost", { method: "POST", body: form })
  const { status } = await cast.ben.send("POST", `${url}/photos`, Buffer.from(await request.arrayBuffer()), {
    "content-type": request.headers.get("content-type")!,
    "oven-viewer": String(cast.ben.id),
    "oven-pressed-at": minutesAgo(60).toISOString(),
    "oven-sent-at": new Date().toISOString(),
  })
  expect(status).toBe(303)
  expect(await only(db, id)).toMatchObject({ stageKey: "bulk", subject: "dough", takenBy: "sending" })
})

test("what a photo shows and its stage can be put right afterwards", async ({ db, cast }) => {
  const { url, id } = await started(db, cast)
  await send(db, cast, url, {})
  const photo = await only(db, id)
  const change = (fields: Record<string, string>) =>
    cast.ben.submit(`${url}/photos/${photo.id}`, { entryId: randomUUID(), ...fields })

  expect((await change({ subject: "shaped", stageKey: "proof" })).status).toBe(303)
  expect(await only(db, id)).toMatchObject({ subject: "shaped", stageKey: "proof" })

  const refused = await change({ subject: "cat", stageKey: "" })
  expect(refused.status).toBe(422)
  expect(wordsOf(refused.page.querySelector(`#photo-${photo.id}-subject-error`))).toBe("Choose what the photo shows.")

  const other = await cast.bea.submit(`${url.replace(/\d+$/, "")}999/photos/${photo.id}`, {})
  expect(other.status).toBe(404)
  expect(await db.$count(photos)).toBe(1)
})
