import { existsSync } from "node:fs"
import { eq } from "drizzle-orm"
import sharp from "sharp"
import { listPhotos } from "../server/bakes/queries.ts"
import type { Db } from "../server/db.ts"
import { addStagePicture, makePublicLink, takeBackPublicLink } from "../server/formulas/queries.ts"
import { maxUploadBytes, processPhoto } from "../server/photos/processing.ts"
import { photoStore } from "../server/photos/storage.ts"
import { photos } from "../server/schema.ts"
import type { Cast } from "./cast.ts"
import { giveBakeDay } from "./class-day.ts"
import { expect, test } from "./test.ts"
import { type Visitor, wordsOf } from "./visitor.ts"

const jpeg = (width = 64, height = 48) =>
  sharp({ create: { width, height, channels: 3, background: "#b9aa8a" } })
    .withExifMerge({ IFD3: { GPSLatitudeRef: "N", GPSLatitude: "38/1 43/1 0/1" } })
    .jpeg()
    .toBuffer()
const fields = { subject: "crumb", stageKey: "cool", forClass: "on", takenAt: "" }
const as = (bytes: Buffer, name = "IMG_1.jpg", type = "image/jpeg") => ({ field: "photo", name, type, bytes })

async function baked(db: Db, cast: Cast) {
  const { bakeDayId, formulaId } = await giveBakeDay(db, cast)
  const { location } = await cast.ben.submit(`/bake-days/${bakeDayId}/bakes`)
  return { url: location!, id: Number(location!.split("/").at(-1)), formulaId }
}

/** Ben adds a photo to his bake. */
async function sent(db: Db, cast: Cast, changes: Partial<typeof fields> = {}, who: Visitor = cast.ben) {
  const { url, id } = await baked(db, cast)
  const { status } = await who.upload(`${url}/photos`, { ...fields, ...changes }, as(await jpeg()))
  expect(status).toBe(303)
  const [photo] = await listPhotos(db, id)
  return { url, id, photo: photo! }
}

test("a photo is kept without its place, in two sizes, with its subject and stage", async ({ app, db, cast }) => {
  const { url, photo } = await sent(db, cast)
  expect(photo).toMatchObject({ subject: "crumb", stageKey: "cool", forClass: true, width: 64, height: 48 })

  const { status, headers } = await cast.ben.open(`/photos/${photo.id}/large`)
  expect(status).toBe(200)
  expect(headers).toMatchObject({ "content-type": "image/jpeg", "x-content-type-options": "nosniff" })
  const file = await sharp(app.photoStore.path(photo.id, "large")).metadata()
  expect(file).toMatchObject({ format: "jpeg", width: 64 })
  expect(file.exif).toBeUndefined()
  expect((await sharp(await jpeg()).metadata()).exif).toBeDefined()
  expect((await cast.ben.open(`/photos/${photo.id}/small`)).status).toBe(200)
  expect((await cast.ben.open(`/photos/${photo.id}/huge`)).status).toBe(404)
  expect((await cast.ben.open(url)).page.querySelector(`#photo-${photo.id} img`)).not.toBeNull()
})

test.for([
  ["an empty file", async () => Buffer.alloc(0), "IMG_1.jpg: this file is empty; choose the picture again."],
  [
    "a renamed file",
    async () => Buffer.from("%PDF-1.7 not a picture"),
    "IMG_1.jpg: this is a PDF and not a picture; send a JPEG, PNG, WebP or HEIC picture.",
  ],
  [
    "half a picture",
    async () => (await jpeg(640, 480)).subarray(0, 1200),
    "IMG_1.jpg: this picture is damaged or was cut off on its way; send it again.",
  ],
  [
    "more than 15 MB",
    async () => Buffer.concat([await jpeg(), Buffer.alloc(maxUploadBytes)]),
    "IMG_1.jpg: this picture is larger than 15 MB; send a smaller copy.",
  ],
] as const)("%s is refused beside its field and the rest stays as typed", async ([, bytes, message], { db, cast }) => {
  const { url, id } = await baked(db, cast)
  const typed = { subject: "crust", stageKey: "bake" }
  const answer = await cast.ben.upload(`${url}/photos`, typed, as(await bytes()))

  expect(answer.status).toBe(422)
  expect(wordsOf(answer.page.querySelector("#photo-error"))).toBe(message)
  expect(answer.page.querySelector("#subject option[selected]")?.getAttribute("value")).toBe("crust")
  expect(answer.page.querySelector("#stageKey option[selected]")?.getAttribute("value")).toBe("bake")
  expect(answer.page.querySelector(".adding [name=forClass]")?.getAttribute("checked")).toBeUndefined()
  expect(await listPhotos(db, id)).toEqual([])
})

test.for([
  [{ subject: "cat" }, "subject", "Choose what the photo shows."],
  [{ stageKey: "banneton" }, "stageKey", "This formula has no such stage."],
  [{ takenAt: "2126-01-01T10:00" }, "photo-takenAt", "That is in the future."],
] as const)("a photo with %o is refused", async ([wrong, field, message], { db, cast }) => {
  const { url, id } = await baked(db, cast)
  const answer = await cast.ben.upload(`${url}/photos`, { ...fields, ...wrong }, as(await jpeg()))
  expect(answer.status).toBe(422)
  expect(wordsOf(answer.page.querySelector(`#${field}-error`))).toBe(message)
  expect(await listPhotos(db, id)).toEqual([])
})

test("a form sent before a picture was chosen says so", async ({ db, cast }) => {
  const { url } = await baked(db, cast)
  const none = as(Buffer.alloc(0), "", "application/octet-stream")
  const answer = await cast.ben.upload(`${url}/photos`, fields, none)
  expect(answer.status).toBe(422)
  expect(wordsOf(answer.page.querySelector("#photo-error"))).toBe("Choose a picture first.")
})

test("classmates see what is for the class, staff see all, others nothing", async ({ db, cast }) => {
  const { url, photo } = await sent(db, cast)
  const large = `/photos/${photo.id}/large`
  const statuses = async () => {
    const people = [cast.ben, cast.asta, cast.ana, cast.olga, cast.bea, cast.cleo, cast.dan, cast.stranger]
    return Promise.all(people.map(async (who) => (await who.open(large)).status))
  }
  expect(await statuses()).toEqual([200, 200, 200, 200, 200, 404, 404, 404])

  await cast.ben.submit(`/photos/${photo.id}/visibility`)
  expect(await statuses()).toEqual([200, 200, 200, 200, 404, 404, 404, 404])
  expect((await cast.bea.open(url)).text).not.toContain(photo.id)
  expect((await cast.asta.open(url)).text).toContain(photo.id)

  await cast.ben.submit(`/photos/${photo.id}/visibility`, { forClass: "on" })
  await cast.ben.submit(`${url}/kitchen`, { kitchen: "" })
  expect(await statuses()).toEqual([200, 200, 200, 200, 404, 404, 404, 404])
})

test("only who sent it and the baker say who sees a photo; staff may remove it", async ({ app, db, cast }) => {
  const { photo } = await sent(db, cast)
  for (const who of [cast.bea, cast.asta, cast.ana])
    expect((await who.submit(`/photos/${photo.id}/visibility`)).status).toBe(403)
  expect((await cast.bea.submit(`/photos/${photo.id}/removal`)).status).toBe(403)
  expect((await cast.cleo.submit(`/photos/${photo.id}/removal`)).status).toBe(404)

  expect((await cast.asta.submit(`/photos/${photo.id}/removal`)).status).toBe(303)

  expect(await db.$count(photos)).toBe(0)
  expect(existsSync(app.photoStore.path(photo.id, "large"))).toBe(false)
})

test("a photo that an assistant adds is the baker's too", async ({ db, cast }) => {
  const { photo } = await sent(db, cast, { forClass: "" }, cast.asta)
  expect(photo).toMatchObject({ userId: cast.asta.id, forClass: false })
  expect((await cast.ben.open(`/photos/${photo.id}/small`)).status).toBe(200)
  expect((await cast.ben.submit(`/photos/${photo.id}/visibility`, { forClass: "on" })).status).toBe(303)
  expect((await cast.bea.open(`/photos/${photo.id}/small`)).status).toBe(200)
})

test.for(["nonsense", "00000000-0000-4000-8000-000000000000", "..%2f..%2fetc%2fpasswd"])(
  "%s is no photo",
  async (id, { cast }) => {
    for (const who of [cast.ben, cast.stranger]) expect((await who.open(`/photos/${id}/large`)).status).toBe(404)
    expect((await cast.ben.submit(`/photos/${id}/removal`)).status).toBe(404)
  },
)

test("deleting a bake removes its pictures from the disk", async ({ app, db, cast }) => {
  const { url, photo } = await sent(db, cast)
  const files = [app.photoStore.path(photo.id, "large"), app.photoStore.path(photo.id, "small")]
  expect(files.map((file) => existsSync(file))).toEqual([true, true])
  await cast.ben.submit(`${url}/deletion`)
  expect(files.map((file) => existsSync(file))).toEqual([false, false])
})

test("a stage's picture is seen by the class, and by anyone while the formula's link is public", async ({
  db,
  cast,
  dataDir,
}) => {
  const { formulaId } = await baked(db, cast)
  const picture = await processPhoto(await jpeg())
  await addStagePicture(db, photoStore(dataDir), picture, { formulaId, userId: cast.ana.id, stageKey: "bulk" })
  const photo = (await db.query.photos.findFirst({ where: eq(photos.formulaId, formulaId) }))!
  const statuses = async () =>
    Promise.all(
      [cast.ana, cast.ben, cast.cleo, cast.stranger].map(
        async (who) => (await who.open(`/photos/${photo.id}/small`)).status,
      ),
    )
  expect(await statuses()).toEqual([200, 200, 404, 404])
  await makePublicLink(db, formulaId)
  expect(await statuses()).toEqual([200, 200, 200, 200])
  await takeBackPublicLink(db, formulaId)
  expect(await statuses()).toEqual([200, 200, 404, 404])
  expect((await cast.ana.submit(`/photos/${photo.id}/removal`)).status).toBe(404)
})
