import { randomUUID } from "node:crypto"
import { existsSync } from "node:fs"
import { eq } from "drizzle-orm"
import type { FastifyInstance } from "fastify"
import sharp from "sharp"
import { afterAll } from "vitest"
import { drawCrumb } from "../server/demo/crumb-drawing.ts"
import { giveUp, measurePhoto } from "../server/measuring/job.ts"
import type { KeptCrumb } from "../server/measuring/kept.ts"
import { openMeasuringThread } from "../server/measuring/thread.ts"
import { handCounts, measurements, photos } from "../server/schema.ts"
import { error, started, typedIn } from "./bench.ts"
import type { Cast } from "./cast.ts"
import { measuredCrumb as found } from "./measured-crumb.ts"
import { expect, test } from "./test.ts"
import { wordsOf } from "./visitor.ts"

const drawn = drawCrumb({ seed: 62, proof: "well", widthPx: 1280 })

const thread = openMeasuringThread()
afterAll(thread.close)

/** Ben sends a crumb from his bench. */
async function sent(
  app: FastifyInstance,
  cast: Cast,
  fields: Record<string, string> = {},
  bytes: Promise<Buffer> | Buffer = drawn,
) {
  const { url, id: bakeId } = await started(app.db, cast)
  const told = { entryId: randomUUID(), subject: "crumb", stageKey: "", forClass: "on", ...fields }
  const file = { field: "photo", name: "IMG_1.jpg", type: "image/jpeg", bytes: await bytes }
  await cast.ben.upload(`${url}/photos`, told, file)
  const photo = (await app.db.query.photos.findFirst({ where: eq(photos.bakeId, bakeId) }))!
  return { bench: url, photo, page: `/photos/${photo.id}/crumb` }
}

const rowOf = (app: FastifyInstance, photoId: string) =>
  app.db.query.measurements.findFirst({ where: eq(measurements.photoId, photoId) })

/** The job, on what a thread would have answered. */
async function measured(app: FastifyInstance, photoId: string, kept: KeptCrumb = found) {
  const even = kept.kind === "measured" ? await drawn : undefined
  await measurePhoto({ db: app.db, store: app.photoStore, thread: { measure: async () => ({ kept, even }) } }, photoId)
}

const corners = { x1: "25", y1: "30 %", x2: "75", y2: "30,5", x3: "70", y3: "70", x4: "25", y4: "72" }
const ruler = { fromX: "10", fromY: "90", toX: "60", toY: "90", known: "", length: "100 mm" }

test("a crumb is asked for as it arrives, waits, and its page then shows what was measured", async ({ app, cast }) => {
  const { photo, page } = await sent(app, cast)
  expect(await rowOf(app, photo.id)).toMatchObject({ state: "waiting" })
  expect(wordsOf((await cast.bea.open(page)).page.querySelector("#crumb-found .note"))).toContain(
    "waits to be measured",
  )

  await measured(app, photo.id)

  const { page: shown } = await cast.bea.open(page)
  expect(shown.querySelector("#crumb-found .note")).toBeNull()
  expect(shown.querySelector(".crumb-cells")).not.toBeNull()
  const numbers = wordsOf(shown.querySelector(".crumb-numbers"))
  expect(numbers).toContain("40.0 %")
  expect(numbers).toContain("36 per cm²")
  expect(numbers).toContain("more open above")
  expect(wordsOf(shown.querySelector(".crumb-largest"))).toContain("7.4 mm²")
  expect((await cast.bea.open(`${page}/even`)).headers["content-type"]).toBe("image/jpeg")
})

test("a picture is measured in a thread of its own: twice the same, and alike when the phone was held sideways", async ({
  app,
  cast,
}) => {
  const turned = await sharp(await drawn)
    .rotate(270)
    .withMetadata({ orientation: 6 })
    .jpeg({ quality: 95 })
    .toBuffer()
  const [upright, sideways] = [await sent(app, cast), await sent(app, cast, {}, turned)]
  const measuring = { db: app.db, store: app.photoStore, thread }
  const kept = async ({ photo }: typeof upright) => {
    await measurePhoto(measuring, photo.id)
    const result = (await rowOf(app, photo.id))!.result
    if (result?.kind !== "measured") throw new Error(JSON.stringify(result))
    return result
  }
  const one = await kept(upright)
  const [again, other] = [
    await thread.measure({ file: fileOf(app, upright), area: null, acrossMm: null }),
    await kept(sideways),
  ]

  expect(one).toMatchObject({ widthPx: 1280 })
  expect(again.kept).toEqual(one)
  expect(other.widthPx).toBe(1280)
  expect(Math.abs(other.cells.length / one.cells.length - 1)).toBeLessThan(0.005)
})
const fileOf = (app: FastifyInstance, { photo }: { photo: { id: string } }) => app.photoStore.path(photo.id, "large")

test("a black frame gives no numbers but the reason, and so does what breaks each time", async ({ app, cast }) => {
  const black = sharp({ create: { width: 1280, height: 960, channels: 3, background: "black" } })
  const { photo, page } = await sent(app, cast, {}, black.jpeg().toBuffer())
  await measurePhoto({ db: app.db, store: app.photoStore, thread }, photo.id)
  const { page: shown } = await cast.ben.open(page)
  expect(wordsOf(shown.querySelector(".crumb-cannot"))).toContain("Take the photo with more light.")
  expect(shown.querySelector(".crumb-numbers")).toBeNull()

  await cast.ben.submit(`${page}/area`, corners)
  const breaks = { measure: () => Promise.reject(new Error("out of memory")) }
  await expect(measurePhoto({ db: app.db, store: app.photoStore, thread: breaks }, photo.id)).rejects.toThrow("memory")
  await giveUp(app.db, photo.id)
  expect(wordsOf((await cast.ben.open(page)).page.querySelector(".crumb-cannot"))).toContain("a fault of ours")

  const again = `${page}/again`
  expect((await cast.ben.open(page)).page.querySelector(`form[action="${again}"]`)).not.toBeNull()
  expect((await cast.bea.open(page)).page.querySelector(`form[action="${again}"]`)).toBeNull()
  expect((await cast.ben.submit(again, {})).location).toBe(page)
  expect(await rowOf(app, photo.id)).toMatchObject({ state: "waiting", result: null })
  await measured(app, photo.id)
  await cast.ben.submit(again, {})
  expect(await rowOf(app, photo.id)).toMatchObject({ state: "measured" })
})

test("a photo of something else is not measured, and one that turns out to be none loses its measurement", async ({
  app,
  cast,
}) => {
  const { bench, photo, page } = await sent(app, cast, { subject: "crust" })
  expect(await rowOf(app, photo.id)).toBeUndefined()
  expect((await cast.ben.open(page)).status).toBe(404)
  const change = (subject: string) =>
    cast.ben.submit(`${bench}/photos/${photo.id}`, { entryId: randomUUID(), subject, stageKey: "" })
  await change("crumb")
  expect(await rowOf(app, photo.id)).toMatchObject({ state: "waiting" })
  await change("crust")
  expect(await rowOf(app, photo.id)).toBeUndefined()
})

test("another area or scale is measured anew, the same one is not, and a late answer to an earlier one is dropped", async ({
  app,
  cast,
}) => {
  const { photo, page } = await sent(app, cast)
  await measured(app, photo.id)
  const before = (await rowOf(app, photo.id))!

  expect((await cast.ben.submit(`${page}/area`, corners)).status).toBe(303)
  const marked = (await rowOf(app, photo.id))!
  expect([before.state, marked.state]).toEqual(["measured", "waiting"])
  expect(marked.asked).not.toBe(before.asked)

  await measured(app, photo.id)
  await cast.asta.submit(`${page}/area`, corners)
  expect(await rowOf(app, photo.id)).toMatchObject({ state: "measured", asked: marked.asked })

  const late = {
    measure: async () => {
      await cast.ben.submit(`${page}/ruler`, ruler)
      return { kept: found }
    },
  }
  await app.db.update(measurements).set({ state: "waiting" }).where(eq(measurements.photoId, photo.id))
  await measurePhoto({ db: app.db, store: app.photoStore, thread: late }, photo.id)
  expect(await rowOf(app, photo.id)).toMatchObject({ state: "waiting", result: null })
  const { ruler: kept, acrossMm } = (await app.db.query.photos.findFirst())!
  expect(kept).toMatchObject({ from: { x: 0.1, y: 0.9 }, mm: 100 })
  expect(acrossMm).toBeCloseTo(200, 6)
})

test("what is measured already is never written twice", async ({ app, cast }) => {
  const { photo } = await sent(app, cast)
  await measured(app, photo.id)
  const { doneAt } = (await rowOf(app, photo.id))!
  await measured(app, photo.id, { kind: "unreadable" })
  expect(await rowOf(app, photo.id)).toMatchObject({ state: "measured", doneAt })
})

test.for([
  [{ x2: "" }, "x2", "Say how far from the left."],
  [{ y3: "120" }, "y3", "It lies within the picture, from 0 to 100 %."],
  [{ x1: "left" }, "x1", "Give a per cent, such as 20."],
  [{ x3: "", y3: "", x4: "", y4: "" }, "x1", "An area has three corners at least."],
  [{ x3: "25", y3: "72", x4: "70", y4: "70" }, "x1", "The edges of this area cross; go around it corner by corner."],
  [{ x2: "26", x3: "26" }, "x1", "That is less than 2 % of the picture, too little."],
] as const)(
  "an area with %o is refused beside its corner, and kept as typed",
  async ([wrong, field, words], { app, cast }) => {
    const { page, photo } = await sent(app, cast)
    const answer = await cast.ben.submit(`${page}/area`, { ...corners, ...wrong })
    expect(answer.status).toBe(422)
    expect(error(answer, field.replace("y", "x"))).toBe(words)
    expect(typedIn(answer, "y1")).toBe("30 %")
    expect((await app.db.query.photos.findFirst({ where: eq(photos.id, photo.id) }))!.crumbArea).toBeNull()
  },
)

test.for([
  [{ length: "" }, "length", "Say how far the two points are apart."],
  [{ known: "eur-2" }, "length", "Choose one above or type a length, not both."],
  [{ toX: "10.5" }, "toX", "The two points are too near each other to tell a scale."],
  [{ toY: "" }, "toX", "Say how far from the top."],
  [{ length: "4 mm" }, "length", "The whole picture would be 8 mm wide; check the points and the length."],
] as const)("a scale with %o is refused beside its field", async ([wrong, field, words], { app, cast }) => {
  const { page } = await sent(app, cast)
  const answer = await cast.ben.submit(`${page}/ruler`, { ...ruler, ...wrong })
  expect(answer.status).toBe(422)
  expect(error(answer, field)).toBe(words)
  expect(typedIn(answer, "fromX")).toBe("10")
})

test("a coin tells the scale, and the scale told at the bench takes its place", async ({ app, cast }) => {
  const { bench, page, photo } = await sent(app, cast)
  await cast.ben.submit(`${page}/ruler`, { ...ruler, toX: "20", known: "eur-2", length: "" })
  const scale = async () => (await app.db.query.photos.findFirst({ where: eq(photos.id, photo.id) }))!
  expect((await scale()).acrossMm).toBeCloseTo(257.5, 6)
  await cast.ben.submit(`${bench}/photos/${photo.id}/scale`, { entryId: randomUUID(), acrossMm: "180 mm" })
  expect(await scale()).toMatchObject({ acrossMm: 180, ruler: null })
  await cast.ben.submit(`${page}/ruler`, { none: "yes" })
  expect(await scale()).toMatchObject({ acrossMm: null, ruler: null })
})

test("what cannot be measured says why and what would help", async ({ app, cast }) => {
  const { photo, page } = await sent(app, cast)
  const reasons = [{ code: "no-contrast" as const, says: "Cells and walls are nearly the same grey." }]
  await measured(app, photo.id, { kind: "cannot", area: [], reasons })
  const words = wordsOf((await cast.ben.open(page)).page.querySelector(".crumb-cannot"))
  expect(words).toBe("This crumb cannot be measured. Cells and walls are nearly the same grey.")
})

test("a photo that is taken back takes its measurement, its counts and all its files with it", async ({
  app,
  cast,
}) => {
  const { photo, page } = await sent(app, cast)
  await measured(app, photo.id)
  await cast.ana.submit(`${page}/counts`, { left: "30", top: "30", right: "40", bottom: "40", count: "12" })
  expect(existsSync(app.photoStore.path(photo.id, "even"))).toBe(true)
  await cast.ben.submit(`/photos/${photo.id}/removal`)
  expect(await app.db.$count(measurements)).toBe(0)
  expect(await app.db.$count(handCounts)).toBe(0)
  expect(existsSync(app.photoStore.path(photo.id, "even"))).toBe(false)
  expect((await cast.ben.open(page)).status).toBe(404)
})

test("several count by eye, each takes theirs back, and the class sees how the measurement compares", async ({
  app,
  cast,
}) => {
  const { photo, page } = await sent(app, cast)
  await measured(app, photo.id)
  // ten by five cells have their middles in it
  const frame = { left: "26.25", top: "26.7", right: "38.75", bottom: "35" }
  await cast.ana.submit(`${page}/counts`, { ...frame, count: "50" })
  await cast.asta.submit(`${page}/counts`, { ...frame, count: "40" })
  await cast.olga.submit(`${page}/counts`, { left: "10", top: "10", right: "40", bottom: "40", count: "7" })
  expect((await cast.ben.submit(`${page}/counts`, { ...frame, count: "1" })).status).toBe(403)

  const counts = () => cast.ana.open(page).then((answer) => wordsOf(answer.page.querySelector("#counts")))
  expect(await counts()).toContain("outside the area")
  expect(await counts()).toContain("Over 2 frames the measurement finds 13 % more cells than people")
  expect(wordsOf((await cast.ana.open(`/classes/${cast.classId}/crumb-truth`)).page.querySelector(".big"))).toContain(
    "13 %",
  )

  const theirs = (await app.db.query.handCounts.findFirst({ where: eq(handCounts.userId, cast.asta.id) }))!
  expect((await cast.ana.submit(`/hand-counts/${theirs.id}/removal`)).status).toBe(404)
  await cast.asta.submit(`/hand-counts/${theirs.id}/removal`)
  expect(await counts()).toContain("finds as many cells as people")
})

test.for([
  [{ count: "many" }, "count", "Give the number of cells, a whole number."],
  [{ right: "" }, "right", "Say where the frame ends."],
  [{ right: "30.5" }, "right", "That frame is too small to count in."],
] as const)("a count with %o is refused", async ([wrong, field, words], { app, cast }) => {
  const { page } = await sent(app, cast)
  const frame = { left: "30", top: "30", right: "40", bottom: "40", count: "12" }
  const answer = await cast.ana.submit(`${page}/counts`, { ...frame, ...wrong })
  expect(answer.status).toBe(422)
  expect(error(answer, field)).toBe(words)
})

test("crumbs hang side by side at one scale when all have one, and only those that one may see", async ({
  app,
  cast,
}) => {
  const { photo: one, page } = await sent(app, cast)
  const { photo: other } = await sent(app, cast, { forClass: "" })
  await measured(app, one.id)
  await measured(app, other.id, { ...(found as typeof found & { kind: "measured" }), mmPerPx: null, scaled: null })
  const url = `/crumbs?photos=${one.id}&photos=${other.id}`

  const unlike = await cast.ben.open(url)
  expect(wordsOf(unlike.page.querySelector(".lede"))).toContain("Not at one scale")
  expect(unlike.page.querySelectorAll(".to-scale")).toHaveLength(0)
  expect(wordsOf(unlike.page.querySelector(".crumb-compared"))).not.toContain("mm²")

  await app.db.update(photos).set({ acrossMm: 200 })
  const alike = await cast.ben.open(url)
  expect(wordsOf(alike.page.querySelector(".lede"))).toContain("All at one scale")
  expect(alike.page.querySelectorAll(".to-scale").map((svg) => svg.getAttribute("width"))).toEqual(["3.13em", "3.13em"])

  expect((await cast.bea.open(url)).status).toBe(404)
  expect((await cast.bea.open(`/crumbs?photos=${one.id}`)).status).toBe(200)
  expect((await cast.bea.open("/crumbs")).status).toBe(422)
  expect((await cast.cleo.open(page)).status).toBe(404)
})
