import { randomUUID } from "node:crypto"
import { createReadStream, readdirSync, readlinkSync } from "node:fs"
import { mkdir, rm, writeFile } from "node:fs/promises"
import { get } from "node:http"
import type { AddressInfo } from "node:net"
import { dirname, join } from "node:path"
import { setTimeout as after } from "node:timers/promises"
import { Ajv2020 } from "ajv/dist/2020.js"
import formats from "ajv-formats"
import { parse } from "csv-parse/sync"
import { eq } from "drizzle-orm"
import type { FastifyInstance } from "fastify"
import { fromBuffer } from "yauzl"
import type { Db } from "../server/db.ts"
import { photoNames, slugsOf } from "../server/export/file-names.ts"
import { zipOf } from "../server/export/photos.ts"
import { processPhoto } from "../server/photos/processing.ts"
import {
  bakeDays,
  bakes,
  changes,
  judgements,
  marks,
  measurements,
  memberships,
  photos,
  readings,
  users,
} from "../server/schema.ts"
import type { Cast } from "./cast.ts"
import { giveBakeDay } from "./class-day.ts"
import { measuredCrumb } from "./measured-crumb.ts"
import { crumbs } from "./photos/drawn.ts"
import { at, log, onPlan } from "./table/log.ts"
import { expect, test } from "./test.ts"
import type { Visitor } from "./visitor.ts"

type Record = { [column: string]: string }

/** Ben's bake to plan, shared, and Bea's, which is not. */
async function aDay(db: Db, cast: Cast) {
  const { bakeDayId, revisionId } = await giveBakeDay(db, cast, { title: "Tin loaf, März" })
  const add = async (who: Visitor, changed: Partial<typeof bakes.$inferInsert>) => {
    const logged = log(onPlan, [
      ["dough", "09:00", 24],
      ["dough", "16:20", 24.4],
      ["rise", "13:50", 0.5],
      ["finger", "16:00", "slowly-partly"],
    ])
    const [row] = await db
      .insert(bakes)
      .values({
        bakeDayId,
        revisionId,
        userId: who.id,
        onTableAt: logged.onTableAt,
        finishedAt: at("19:00"),
        ...changed,
      })
      .returning()
    const bakeId = row!.id
    for (const mark of logged.marks) await db.insert(marks).values({ ...mark, bakeId })
    for (const reading of logged.readings)
      await db
        .insert(readings)
        .values({ ...reading, bakeId, entryId: randomUUID(), typed: String(reading.value ?? "") })
    return bakeId
  }
  const result = { insideC: 96.5, doughMassG: 892, bakedMassG: 788, heightMm: 128, ownWords: "Good." }
  const bens = await add(cast.ben, { ...result, kitchen: "attic", cues: ["burst"] })
  const beas = await add(cast.bea, { shared: false })
  return { url: `/bake-days/${bakeDayId}/export`, bakeDayId, bens, beas }
}

const note = (bakeId: number, typed: string) => ({
  ...{ bakeId, typed, entryId: randomUUID(), kind: "note" as const, takenAt: at("10:00"), stageKey: "bulk" },
})

const rowsOf = (text: string) => parse(text, { columns: true, bom: true }) as Record[]
const rowsFor = async (who: Visitor, url: string) => rowsOf((await who.open(url)).text)

async function addPhoto(app: FastifyInstance, bakeId: number, who: Visitor, forClass: boolean, clock = "19:30") {
  const [row] = await app.db
    .insert(photos)
    .values({ bakeId, userId: who.id, subject: "crumb", takenAt: at(clock, 20), forClass, width: 60, height: 40 })
    .returning()
  await app.photoStore.keep(row!.id, await processPhoto(await crumbs(60, 40).jpeg().toBuffer()))
  return row!.id
}

/** What an independent reader finds in a zip, by name. */
async function unzipped(app: FastifyInstance, who: Visitor, url: string) {
  const { rawPayload, headers } = await app.inject({ url, headers: { cookie: who.cookie } })
  return { headers, files: await filesIn(rawPayload) }
}
const filesIn = (zip: Buffer) =>
  new Promise<Map<string, Buffer>>((resolve, reject) => {
    fromBuffer(zip, { lazyEntries: true }, (error, file) => {
      if (error) return reject(error)
      const found = new Map<string, Buffer>()
      file.on("entry", (entry) => {
        file.openReadStream(entry, async (failed, stream) => {
          if (failed) return reject(failed)
          const chunks: Buffer[] = []
          for await (const chunk of stream) chunks.push(chunk as Buffer)
          found.set(entry.fileName, Buffer.concat(chunks))
          file.readEntry()
        })
      })
      file.on("end", () => resolve(found))
      file.on("error", reject)
      file.readEntry()
    })
  })

test("every reading is a row, each quantity in a column with its unit", async ({ db, cast }) => {
  const { url, bens } = await aDay(db, cast)

  const { text, headers } = await cast.ana.open(`${url}/readings.csv`)

  expect(headers["content-type"]).toContain("text/csv; charset=utf-8")
  expect(headers["content-disposition"]).toBe('attachment; filename="tin-loaf-marz-readings.csv"')
  expect(text.split("\r\n")[0]).toBe(
    "bake_day,bake_id,baker,bake_number,taken_at,taken_within_min,stage,reading,of,known,temperature_c,rise_percent,ph,finger_test,note,as_typed",
  )
  const rows = rowsOf(text)
  expect(rows).toHaveLength(8)
  const bensRows = rows.filter((row) => row.bake_id === String(bens))
  expect(bensRows[0]).toMatchObject({
    ...{ bake_day: "Tin loaf, März", baker: "Ben", bake_number: "1", taken_at: "2026-11-14T09:00:00+00:00" },
    ...{ reading: "dough temperature", known: "measured", temperature_c: "24", rise_percent: "", ph: "" },
  })
  expect(bensRows.map((row) => [row.reading, row.temperature_c, row.rise_percent, row.finger_test])).toEqual([
    ["dough temperature", "24", "", ""],
    ["rise", "", "50", ""],
    ["finger test", "", "", "slowly-partly"],
    ["dough temperature", "24.4", "", ""],
  ])
})

test("a student gets their own and what is shared, the staff all", async ({ db, cast }) => {
  const { url, bens, beas } = await aDay(db, cast)
  const bakesOf = async (who: Visitor, file: string) =>
    [...new Set((await rowsFor(who, `${url}/${file}`)).map((row) => Number(row.bake_id)))].sort((a, b) => a - b)
  const documentOf = async (who: Visitor) =>
    JSON.parse((await who.open(`${url}/bake-day.json`)).text).bakes.map(({ id }: { id: number }) => id)

  for (const file of ["readings.csv", "bakes.csv"]) {
    expect(await bakesOf(cast.ben, file)).toEqual([bens])
    expect(await bakesOf(cast.bea, file)).toEqual([bens, beas])
    expect(await bakesOf(cast.asta, file)).toEqual([bens, beas])
    expect((await cast.dan.open(`${url}/${file}`)).status).toBe(404)
  }
  expect(await documentOf(cast.ben)).toEqual([bens])
  expect(await documentOf(cast.bea)).toEqual([beas, bens])
})

test("one bake is one row of plan, times, fermentation, verdict and result", async ({ db, cast }) => {
  const { url, bens } = await aDay(db, cast)

  await db.insert(judgements).values([
    { bakeId: bens, userId: cast.ben.id, by: "baker", call: "over" },
    { bakeId: bens, userId: cast.ben.id, by: "baker", call: "unsure" },
  ])

  const [row] = await rowsFor(cast.ben, `${url}/bakes.csv`)

  expect(row).toMatchObject({
    ...{ baker: "Ben", shared_with_class: "yes", state: "finished", kitchen: "attic", formula_revision: "1" },
    ...{ bulk_planned_min: "300", bulk_began_at: "2026-11-14T09:00:00+00:00", bulk_min: "300", cool_min: "" },
    ...{ planned_reference_h: "7.33", rise_percent: "50", target_rise_percent: "50", finger_test: "slowly-partly" },
    ...{ verdict: "well", likeliest_reason: "Nothing wrong", baker_says: "unsure", instructor_says: "" },
    ...{ inside_temperature_c: "96.5", dough_mass_g: "892", height_mm: "128", own_words: "Good." },
  })
  const [under, well, over] = [row!.under_percent, row!.well_percent, row!.over_percent].map(Number)
  expect(under! + well! + over!).toBeCloseTo(100, 0)
  const shares = Object.entries(row!).filter(([name, value]) => name.startsWith("lead_from_") && value)
  expect(shares.length).toBeGreaterThan(0)
  expect(shares.reduce((sum, [, value]) => sum + Number(value), 0)).toBeCloseTo(Number(row!.lead_min), 0)
})

test("units do not follow whoever exports", async ({ db, cast }) => {
  const { url } = await aDay(db, cast)
  const before = (await cast.ana.open(`${url}/bakes.csv`)).text
  await db
    .update(users)
    .set({ temperatureUnit: "F", massUnit: "oz", zone: "Asia/Tokyo" })
    .where(eq(users.id, cast.ana.id))
  expect((await cast.ana.open(`${url}/bakes.csv`)).text).toBe(before)
})

test("what would run as a formula in a spreadsheet is text there, numbers stay numbers, breaks stay in their cell", async ({
  db,
  cast,
}) => {
  const { url, bens } = await aDay(db, cast)
  const notes = [
    "=1+1",
    "+cmd|' /C calc'!A0",
    "-2+3",
    "@SUM(A1)",
    "\tx",
    "＝1",
    "-4.5",
    'said "no"\nand, well',
    "plain",
  ]
  await db.insert(readings).values(notes.map((typed) => note(bens, typed)))
  await db.insert(readings).values({ ...note(bens, "-4.5 °C"), kind: "fridge", value: -4.5 })

  const rows = await rowsFor(cast.ben, `${url}/readings.csv`)

  expect(rows.filter((row) => row.reading === "note").map((row) => row.note)).toEqual([
    ...["'=1+1", "'+cmd|' /C calc'!A0", "'-2+3", "'@SUM(A1)", "'\tx", "'＝1", "-4.5", 'said "no"\nand, well', "plain"],
  ])
  expect(rows.find((row) => row.reading === "fridge temperature")?.temperature_c).toBe("-4.5")
})

test("a name that is a formula is harmless too, and UTF-8 is marked where a spreadsheet asks", async ({ db, cast }) => {
  const { url } = await aDay(db, cast)
  await db.update(memberships).set({ shownName: "=Zoë" }).where(eq(memberships.userId, cast.ben.id))

  const marked = (await cast.ben.open(`${url}/bakes.csv?for=spreadsheet`)).text

  expect(marked.startsWith("\ufeffbake_day,")).toBe(true)
  expect(rowsOf(marked)[0]!.baker).toBe("'=Zoë")
  expect((await cast.ben.open(`${url}/bakes.csv`)).text.startsWith("bake_day,")).toBe(true)
})

test("nothing in any file says who somebody is outside the class", async ({ db, cast }) => {
  const { url } = await aDay(db, cast)
  await db.update(users).set({ signInName: "secret.ben@example.org" }).where(eq(users.id, cast.ben.id))
  for (const file of ["readings.csv", "bakes.csv", "bake-day.json"]) {
    const { text } = await cast.ana.open(`${url}/${file}`)
    expect(text).not.toContain("secret.ben")
    expect(text).not.toMatch(/user_?id/i)
  }
})

test("the document keeps to its published schema, whatever was logged", async ({ db, cast, app }) => {
  const { url, bens, bakeDayId } = await aDay(db, cast)
  await addPhoto(app, bens, cast.ben, true)
  await db.insert(readings).values(note(bens, "=1+1"))
  await db.insert(changes).values({ bakeId: bens, kind: "left-out", partKey: "dough", ingredient: "salt" })
  const { revisionId } = (await db.query.bakes.findFirst())!
  await db.insert(bakes).values({ bakeDayId, revisionId, userId: cast.ben.id, onTableAt: at("18:00", 15) })
  await db
    .insert(bakes)
    .values({ bakeDayId, revisionId, userId: cast.ana.id, onTableAt: at("18:00"), abandonedAt: at("12:00") })

  const document = JSON.parse((await cast.ana.open(`${url}/bake-day.json`)).text)
  const schema = await cast.stranger.open(new URL(document.$schema).pathname)

  expect(schema.headers["content-type"]).toContain("application/schema+json")
  const ajv = new Ajv2020({ allErrors: true, strict: true, allowUnionTypes: true })
  formats.default(ajv)
  const validate = ajv.compile(JSON.parse(schema.text))
  validate(document)
  expect(validate.errors).toBeNull()
  expect(JSON.parse(schema.text).$id).toBe(document.$schema)
  expect(document.bakes.map(({ number, state }: { number: number; state: string }) => [state, number])).toEqual([
    ["given up", 1],
    ["finished", 1],
    ["finished", 1],
    ["open", 2],
  ])
  const bensBake = document.bakes.find(({ id }: { id: number }) => id === bens)
  expect(bensBake.readings.find(({ reading }: { reading: string }) => reading === "note").note).toBe("=1+1")
  expect(bensBake.photos[0]).toMatchObject({ file: "ben-1-crumb-2026-11-20T1930.jpg", measuredCrumb: null })
  delete document.bakes[0].baker
  expect(validate(document)).toBe(false)
})

test("what was measured on a crumb is in the table and in the document, for whom the photo is", async ({
  db,
  cast,
  app,
}) => {
  const { url, bens } = await aDay(db, cast)
  const photoId = await addPhoto(app, bens, cast.ben, false)
  await db.insert(measurements).values({ photoId, asked: "once", state: "measured", result: measuredCrumb })
  const bensOf = async (who: Visitor) => {
    const [row] = (await rowsFor(who, `${url}/bakes.csv`)).filter(({ baker }) => baker === "Ben")
    const document = JSON.parse((await who.open(`${url}/bake-day.json`)).text)
    return { row: row!, photos: document.bakes.find(({ id }: { id: number }) => id === bens).photos, document }
  }

  const { row, photos, document } = await bensOf(cast.ana)

  expect(row).toMatchObject({
    crumb_visible_cell_area_percent: "40",
    crumb_cells_per_cm2: "36",
    crumb_largest_cell_mm2: "22",
    crumb_cautions: "",
  })
  expect(photos[0].measuredCrumb).toMatchObject({
    ...{ visibleCellAreaPercent: 40, lowPercent: 38, highPercent: 43, cellsPerCm2: 36, largestCellMm2: 22 },
    cautions: [],
  })
  const { text } = await cast.stranger.open(new URL(document.$schema).pathname)
  const ajv = new Ajv2020({ strict: true, allowUnionTypes: true })
  formats.default(ajv)
  const validate = ajv.compile(JSON.parse(text))
  validate(document)
  expect(validate.errors).toBeNull()
  // one that was kept before crumbs were measured
  delete photos[0].measuredCrumb
  expect(validate(document)).toBe(true)
  expect((await bensOf(cast.bea)).row.crumb_visible_cell_area_percent).toBe("")
})

test("every value of the schema says what it is, numbers with their unit", async ({ cast }) => {
  const schema = JSON.parse((await cast.stranger.open("/schemas/bake-day-1.json")).text)
  const untold: string[] = []
  const walk = (path: string, node: unknown) => {
    if (!node || typeof node !== "object") return
    const { properties = {}, ...rest } = node as { properties?: { [name: string]: { [key: string]: unknown } } }
    for (const [name, property] of Object.entries(properties)) {
      const { description, type } = property
      const isNumber = [type].flat().includes("number")
      if (typeof description !== "string" || (isNumber && !description.includes("Unit: ")))
        untold.push(`${path}/${name}`)
      walk(`${path}/${name}`, property)
    }
    for (const [key, value] of Object.entries(rest)) walk(`${path}/${key}`, value)
  }
  walk("", schema)
  expect(untold).toEqual([])
})

test("photos come under names that say whose and what, and only those somebody may see", async ({ app, db, cast }) => {
  const { url, bens, beas } = await aDay(db, cast)
  const open = await addPhoto(app, bens, cast.ben, true)
  await addPhoto(app, bens, cast.ben, false, "19:31")
  await addPhoto(app, beas, cast.bea, true)

  const forBea = await unzipped(app, cast.bea, `${url}/photos.zip`)
  const forBen = await unzipped(app, cast.ben, `${url}/photos.zip`)
  const forStaff = await unzipped(app, cast.asta, `${url}/photos.zip`)

  const [one, hidden, hers] = [
    "ben-1-crumb-2026-11-20T1930.jpg",
    "ben-1-crumb-2026-11-20T1931.jpg",
    "bea-1-crumb-2026-11-20T1930.jpg",
  ]
  expect(forBea.headers["content-disposition"]).toBe('attachment; filename="tin-loaf-marz-photos.zip"')
  expect([...forBea.files.keys()]).toEqual([hers, one])
  expect([...forBen.files.keys()]).toEqual([one, hidden])
  expect([...forStaff.files.keys()].toSorted()).toEqual([hers, one, hidden].toSorted())
  const shown = await app.inject({ url: `/photos/${open}/large`, headers: { cookie: cast.ben.cookie } })
  expect(forBea.files.get(one)!.equals(shown.rawPayload)).toBe(true)
})

test("a photo whose file is gone is named in a text, and all others come", async ({ app, db, cast }) => {
  const { url, bens } = await aDay(db, cast)
  await addPhoto(app, bens, cast.ben, true, "19:29")
  const lost = await addPhoto(app, bens, cast.ben, true)
  await addPhoto(app, bens, cast.ben, true, "19:31")
  await rm(app.photoStore.path(lost, "large"))

  const { files } = await unzipped(app, cast.ben, `${url}/photos.zip`)

  expect([...files.keys()]).toEqual([
    "ben-1-crumb-2026-11-20T1929.jpg",
    "ben-1-crumb-2026-11-20T1931.jpg",
    "missing.txt",
  ])
  expect(files.get("missing.txt")!.toString()).toContain("ben-1-crumb-2026-11-20T1930.jpg")
})

test("without photos the zip says so", async ({ app, db, cast }) => {
  const { url } = await aDay(db, cast)
  expect([...(await unzipped(app, cast.ben, `${url}/photos.zip`)).files.keys()]).toEqual(["no-photos.txt"])
})

test("names never clash, whatever people are called, and lead out of no folder", () => {
  const slugs = slugsOf([
    { userId: 1, name: "Ámparo L." },
    { userId: 2, name: "amparo--l" },
    { userId: 3, name: "../../etc/passwd" },
    { userId: 4, name: "Иван" },
    { userId: 5, name: "李" },
    { userId: 1, name: "Ámparo L." },
  ])
  expect([...slugs.values()]).toEqual(["amparo-l", "amparo-l-2", "etc-passwd", "baker", "baker-2"])

  const photo = (id: string) => ({ id, subject: "crumb", takenAt: at("19:30", 20) })
  const names = photoNames([photo("a"), photo("b"), photo("c")], { slug: "ben", nth: 2, zone: "America/New_York" })
  expect([...names.values()]).toEqual([
    "ben-2-crumb-2026-11-20T1430.jpg",
    "ben-2-crumb-2026-11-20T1430-2.jpg",
    "ben-2-crumb-2026-11-20T1430-3.jpg",
  ])
})

test("photos are read one after the other, and no faster than somebody takes them", async ({ dataDir }) => {
  const path = join(dataDir, "big.jpg")
  await writeFile(path, Buffer.alloc(400_000, 7))
  let [opened, open] = [0, 0]
  const store = {
    open: async () => {
      opened++
      open++
      return createReadStream(path).on("close", () => open--)
    },
  }
  const pictures = async function* () {
    for (let n = 0; n < 50; n++) yield { id: String(n), name: `${n}.jpg`, takenAt: at("19:30") }
  }
  const zip = zipOf(pictures(), store)
  await after(200)
  expect(opened).toBe(1)

  const chunks: Buffer[] = []
  let most = 0
  for await (const chunk of zip) {
    chunks.push(chunk as Buffer)
    most = Math.max(most, open)
  }
  expect(most).toBeLessThanOrEqual(2)
  expect((await filesIn(Buffer.concat(chunks))).size).toBe(50)
})

test("whoever leaves in the middle of a download leaves nothing open behind", async ({ app, db, cast, dataDir }) => {
  const { url, bens } = await aDay(db, cast)
  for (const clock of ["19:29", "19:30"]) {
    const id = await addPhoto(app, bens, cast.ben, true, clock)
    await mkdir(dirname(app.photoStore.path(id, "large")), { recursive: true })
    await writeFile(app.photoStore.path(id, "large"), Buffer.alloc(30_000_000, 7))
  }
  await app.listen({ port: 0, host: "127.0.0.1" })
  const { port } = app.server.address() as AddressInfo
  const openFiles = () =>
    readdirSync("/proc/self/fd").filter((fd) => {
      try {
        return readlinkSync(`/proc/self/fd/${fd}`).startsWith(join(dataDir, "photos"))
      } catch {
        return false
      }
    }).length

  const seen = await new Promise<number>((resolve, reject) => {
    const request = get({ port, path: `${url}/photos.zip`, headers: { cookie: cast.ben.cookie } }, (response) => {
      response.once("data", () => {
        const count = openFiles()
        response.destroy()
        resolve(count)
      })
    })
    request.on("error", reject)
  })

  expect(seen).toBe(1)
  await expect.poll(openFiles, { timeout: 10_000 }).toBe(0)
})

test("the page says what is in each file, and whose", async ({ app, db, cast }) => {
  const { url, bens, bakeDayId } = await aDay(db, cast)
  await addPhoto(app, bens, cast.ben, false)

  const [bens_, beas, anas] = [await cast.ben.open(url), await cast.bea.open(url), await cast.ana.open(url)]

  expect(bens_.text).toContain("one bake, 4 readings, one photo")
  expect(beas.text).toContain("2 bakes, 8 readings, 0 photos")
  expect(beas.page.querySelector("a[href$='photos.zip']")).toBeNull()
  expect(anas.text).toContain("keep the files where only the staff can read them")
  expect((await cast.ben.open(`/bake-days/${bakeDayId}`)).text).toContain(url)
  await db.update(bakeDays).set({ title: "…" })
  const { headers } = await cast.ben.open(`${url}/bakes.csv`)
  expect(headers["content-disposition"]).toBe(`attachment; filename="bake-day-${bakeDayId}-bakes.csv"`)
})
