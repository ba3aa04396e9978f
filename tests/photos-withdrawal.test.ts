import { randomUUID } from "node:crypto"
import { mkdir, readdir, utimes, writeFile } from "node:fs/promises"
import { dirname, join } from "node:path"
import type { Db } from "../server/db.ts"
import { photoStore } from "../server/photos/storage.ts"
import { sweep } from "../server/photos/sweep.ts"
import { photos, photoWishes } from "../server/schema.ts"
import { minutesAgo, started } from "./bench.ts"
import type { Cast } from "./cast.ts"
import { crumbs } from "./photos/drawn.ts"
import { expect, test } from "./test.ts"

const names = async (dataDir: string) =>
  (await readdir(join(dataDir, "photos"), { recursive: true })).filter(
    (name) => name.includes("-large") || name.includes("-small"),
  )

async function sent(db: Db, cast: Cast) {
  const { url } = await started(db, cast)
  const bytes = await crumbs(60, 40).jpeg().toBuffer()
  const fields = { entryId: randomUUID(), subject: "dough", stageKey: "bulk", forClass: "on" }
  await cast.ben.upload(`${url}/photos`, fields, { field: "photo", name: "IMG_1.jpg", type: "image/jpeg", bytes })
  return { url, photo: (await db.query.photos.findFirst())! }
}

/** Ana asks to show it as a picture of the bulk, and Ben says yes. */
async function shown(db: Db, cast: Cast) {
  const { url, photo } = await sent(db, cast)
  await cast.ana.submit(`${url}/photos/${photo.id}/wishes`, { entryId: randomUUID(), stageKey: "bulk", look: "ready" })
  const wish = (await db.query.photoWishes.findFirst())!
  await cast.ben.submit(`${url}/wishes/${wish.id}/answer`, { entryId: randomUUID(), answer: "yes", look: "ready" })
  const copy = (await db.query.photos.findMany()).find(({ copiedFrom }) => copiedFrom === photo.id)!
  return {
    url,
    photo,
    copy,
    addresses: [photo, copy].flatMap(({ id }) => [`/photos/${id}/large`, `/photos/${id}/small`]),
  }
}

test.for(["photo", "bake"] as const)(
  "a withdrawn %s leaves no picture anywhere, nor what was copied from it",
  async (what, { db, cast, dataDir }) => {
    const { url, photo, addresses } = await shown(db, cast)
    for (const address of addresses) expect((await cast.ben.open(address)).status).toBe(200)
    expect(await names(dataDir)).toHaveLength(4)

    const { status } = await cast.ben.submit(what === "photo" ? `/photos/${photo.id}/removal` : `${url}/deletion`)

    expect(status).toBe(303)
    expect(await names(dataDir)).toEqual([])
    expect([await db.$count(photos), await db.$count(photoWishes)]).toEqual([0, 0])
    for (const who of [cast.ben, cast.ana, cast.bea, cast.olga])
      for (const address of addresses) expect((await who.open(address)).status, address).toBe(404)
  },
)

test("a browser asks before it shows a picture it kept, and hears when that is withdrawn", async ({ db, cast }) => {
  const { photo } = await sent(db, cast)
  const address = `/photos/${photo.id}/small`
  const { headers } = await cast.bea.open(address)
  expect(headers["cache-control"]).toBe("private, no-cache")
  const again = () => cast.bea.send("GET", address, undefined, { "if-none-match": String(headers.etag) })

  const unchanged = await again()
  expect([unchanged.status, unchanged.text]).toEqual([304, ""])
  expect((await cast.bea.send("GET", address, undefined, { "if-none-match": '"another"' })).status).toBe(200)

  await cast.ben.submit(`/photos/${photo.id}/visibility`)
  expect((await again()).status).toBe(404)
  await cast.ben.submit(`/photos/${photo.id}/removal`)
  expect((await again()).status).toBe(404)
})

test("whoever follows a bake hears that a photo of it was withdrawn", async ({ db, cast }) => {
  const { photo } = await sent(db, cast)
  const version = async () => (await db.query.bakes.findFirst())!.version
  const before = await version()
  await cast.ben.submit(`/photos/${photo.id}/removal`)
  expect(await version()).toBe(before + 1)
})

test("files that a crash left without a row are swept up, all others stay", async ({ db, cast, dataDir }) => {
  const { photo } = await sent(db, cast)
  const store = photoStore(dataDir)
  const put = async (path: string, writtenAt: Date) => {
    await mkdir(dirname(path), { recursive: true })
    await writeFile(path, "picture")
    await utimes(path, writtenAt, writtenAt)
    return path
  }
  const [old, fresh] = [randomUUID(), randomUUID()]
  const longAgo = minutesAgo(60 * 25)
  for (const size of ["large", "small"] as const) {
    await put(store.path(old, size), longAgo)
    await put(store.path(fresh, size), minutesAgo(10))
    await utimes(store.path(photo.id, size), longAgo, longAgo)
  }
  await put(`${store.path(photo.id, "large")}.${randomUUID()}.tmp`, longAgo)
  await put(join(dirname(store.path(old, "large")), "somebody-s notes.txt"), longAgo)

  await sweep(db, store, minutesAgo(60 * 24))

  const left = (await readdir(join(dataDir, "photos"), { recursive: true, withFileTypes: true })).filter((one) =>
    one.isFile(),
  )
  expect(left.map(({ name }) => name).sort()).toEqual(
    [...[photo.id, fresh].flatMap((id) => [`${id}-large.jpg`, `${id}-small.jpg`]), "somebody-s notes.txt"].sort(),
  )
})

test("where there are no photos yet, nothing is swept", async ({ db, dataDir }) => {
  await expect(sweep(db, photoStore(dataDir), new Date())).resolves.toBeUndefined()
})

test("the sweep runs when the service starts to listen", async ({ app, dataDir }) => {
  const orphan = app.photoStore.path(randomUUID(), "large")
  await mkdir(dirname(orphan), { recursive: true })
  await writeFile(orphan, "picture")
  await utimes(orphan, minutesAgo(60 * 25), minutesAgo(60 * 25))
  await app.listen({ host: "127.0.0.1", port: 0 })
  await expect.poll(() => names(dataDir), { timeout: 20_000 }).toEqual([])
})
