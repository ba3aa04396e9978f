import { randomUUID } from "node:crypto"
import { readdir } from "node:fs/promises"
import { join } from "node:path"
import { listPhotos } from "../server/bakes/queries.ts"
import { started } from "./bench.ts"
import { crumbs } from "./photos/drawn.ts"
import { sample } from "./photos/heic-file.ts"
import { expect, test } from "./test.ts"
import { type UploadedFile, wordsOf } from "./visitor.ts"

const file = (name: string, bytes: Buffer, field = "photo"): UploadedFile => ({
  field,
  name,
  type: "image/jpeg",
  bytes,
})
const jpeg = (width: number) => crumbs(width, 60).jpeg().toBuffer()
const form = (entryId: string = randomUUID()) => ({ entryId, subject: "dough", stageKey: "bulk", forClass: "on" })

const filesIn = async (dataDir: string) => {
  const names = await readdir(join(dataDir, "photos"), { recursive: true }).catch(() => [])
  return names.filter((name) => name.endsWith(".jpg"))
}
const widths = async (...[db, id]: Parameters<typeof listPhotos>) =>
  (await listPhotos(db, id)).map(({ width }) => width).sort()

test("several pictures of one form are kept, each as a photo of its own", async ({ db, cast, dataDir }) => {
  const { url, id } = await started(db, cast)
  const taken = file("IMG_1.jpg", await jpeg(100), "camera")
  const chosen = [file("IMG_2.jpg", await jpeg(200)), file("IMG_3.HEIC", sample("plain.heic"))]

  const { status } = await cast.ben.upload(`${url}/photos`, form(), taken, ...chosen)

  expect(status).toBe(303)
  expect(await widths(db, id)).toEqual([100, 200, 240])
  expect(await filesIn(dataDir)).toHaveLength(6)
  expect((await cast.ben.open(url)).page.querySelectorAll("#photos figure")).toHaveLength(3)
})

test("what cannot be used is refused by name, and the good ones are kept", async ({ db, cast }) => {
  const { url, id } = await started(db, cast)
  const answer = await cast.ben.upload(
    `${url}/photos`,
    form(),
    ...[file("IMG_1.jpg", await jpeg(100)), file("breakfast.gif", sample("moving.gif"))],
    ...[file("IMG_2.jpg", await jpeg(200)), file("crème.jpg", Buffer.from("flour"))],
  )
  expect(answer.status).toBe(422)
  expect(wordsOf(answer.page.querySelector("#photo-error"))).toBe(
    "2 kept; breakfast.gif: this is a GIF, which cannot be used here; send a JPEG, PNG, WebP or HEIC picture. " +
      "crème.jpg: this is not a picture that can be read here; send a JPEG, PNG, WebP or HEIC picture.",
  )
  expect(answer.page.querySelector("#photo")!.getAttribute("aria-describedby")).toContain("photo-error")
  expect(await widths(db, id)).toEqual([100, 200])
})

test("a field of the browser that was left empty is no file", async ({ db, cast }) => {
  const { url, id } = await started(db, cast)
  const empty = { ...file("", Buffer.alloc(0), "camera"), type: "application/octet-stream" }
  const { status } = await cast.ben.upload(`${url}/photos`, form(), empty, file("IMG_1.jpg", await jpeg(100)))
  expect(status).toBe(303)
  expect(await widths(db, id)).toEqual([100])
})

test("a form that is sent twice keeps each picture once and leaves no files over", async ({ db, cast, dataDir }) => {
  const { url, id } = await started(db, cast)
  const fields = form()
  const files = [
    file("IMG_1.jpg", await jpeg(100)),
    file("IMG_2.jpg", await jpeg(200)),
    file("note.txt", Buffer.from("flour")),
  ]

  const answers = await Promise.all([1, 2].map(() => cast.ben.upload(`${url}/photos`, fields, ...files)))
  const later = await cast.ben.upload(`${url}/photos`, fields, ...files)

  for (const { status, page } of [...answers, later]) {
    expect(status).toBe(422)
    expect(wordsOf(page.querySelector("#photo-error"))).toMatch(/^2 kept; note.txt:/)
  }
  expect(await widths(db, id)).toEqual([100, 200])
  expect(await filesIn(dataDir)).toHaveLength(4)
})

test("another picture under the number of a form that came before is not taken for the first", async ({ db, cast }) => {
  const { url, id } = await started(db, cast)
  const fields = form()
  await cast.ben.upload(`${url}/photos`, fields, file("IMG_1.jpg", await jpeg(100)))
  const answer = await cast.ben.upload(`${url}/photos`, fields, file("IMG_2.jpg", await jpeg(200)))

  expect(answer.status).toBe(422)
  expect(wordsOf(answer.page.querySelector("#photo-error"))).toBe(
    "IMG_2.jpg: another picture came with this form before; choose this one again.",
  )
  expect(answer.page.querySelector(".adding [name=entryId]")!.getAttribute("value")).not.toBe(fields.entryId)
  expect(await widths(db, id)).toEqual([100])
})

test("nothing is kept while another field is wrong", async ({ db, cast, dataDir }) => {
  const { url, id } = await started(db, cast)
  const wrong = { ...form(), takenAt: "in two hours" }
  const answer = await cast.ben.upload(`${url}/photos`, wrong, file("IMG_1.jpg", await jpeg(100)))
  expect(answer.status).toBe(422)
  expect(await widths(db, id)).toEqual([])
  expect(await filesIn(dataDir)).toEqual([])
})

test("more than twelve at a time are told which to send again, far more are too large", async ({ db, cast }) => {
  const { url, id } = await started(db, cast)
  const many = await Promise.all(
    Array.from({ length: 14 }, async (_, i) => file(`IMG_${i + 1}.jpg`, await jpeg(100 + i))),
  )
  const answer = await cast.ben.upload(`${url}/photos`, form(), ...many)
  expect(answer.status).toBe(422)
  expect(wordsOf(answer.page.querySelector("#photo-error"))).toBe(
    "12 kept; IMG_13.jpg: at most 12 pictures come in at once; send it with the next. " +
      "IMG_14.jpg: at most 12 pictures come in at once; send it with the next.",
  )
  expect(await widths(db, id)).toHaveLength(12)

  const far = Array.from({ length: 60 }, (_, i) => file(`${i}.jpg`, Buffer.from("flour")))
  expect((await cast.ben.upload(`${url}/photos`, form(), ...far)).status).toBe(413)
})

test("what no person meant, in any field beside the pictures, breaks nothing", async ({ db, cast }) => {
  const { url } = await started(db, cast)
  const picture = file("IMG_1.jpg", await jpeg(100))
  const fields = { ...form(), cameraTime: "on", takenAt: "" }
  for (const oddity of ["a\0b", "x".repeat(20_000), "constructor", "+275760-09-13T00:00"]) {
    for (const name of Object.keys(fields)) {
      const { status } = await cast.ben.upload(`${url}/photos`, { ...fields, [name]: oddity }, picture)
      expect(status, `${name} ${oddity.slice(0, 20)}`).toBeLessThan(500)
    }
    expect(
      (await cast.ben.upload(`${url}/photos`, fields, { ...picture, name: oddity, field: oddity })).status,
    ).toBeLessThan(500)
  }
  const broken = await cast.ben.send("POST", `${url}/photos`, "--x\r\nnonsense", {
    "content-type": "multipart/form-data; boundary=x",
  })
  expect(broken.status).toBeLessThan(500)
  const unnamed = await cast.ben.send("POST", `${url}/photos`, "", { "content-type": "multipart/form-data" })
  expect(unnamed.status).toBeLessThan(500)
  expect((await cast.ben.open(`${url}?camera-unused=constructor`)).status).toBe(200)
  expect((await cast.ben.open(`${url}?camera-unused=1&camera-unused=2`)).status).toBe(200)
})
