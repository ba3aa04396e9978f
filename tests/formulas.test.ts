import { eq } from "drizzle-orm"
import type { HTMLElement } from "node-html-parser"
import sharp from "sharp"
import type { Db } from "../server/db.ts"
import { findFormula, listPublished, listRevisions } from "../server/formulas/queries.ts"
import { bakeDays, bakes, photos } from "../server/schema.ts"
import { expect, test } from "./test.ts"
import { type Page, type Visitor, wordsOf } from "./visitor.ts"

// A published worked example of baguettes with poolish; see the sources in tests/dough.
const baguette = {
  title: "Poolish baguette",
  about: "Six long loaves.",
  "parts.0.key": "poolish",
  "parts.0.name": "Poolish",
  "parts.0.goesInto": "dough",
  ...line(0, 0, "468 g", "bread flour"),
  ...line(0, 1, "468 g", "water"),
  ...line(0, 2, "0.3 g", "instant yeast"),
  "parts.1.key": "dough",
  "parts.1.name": "Final dough",
  "parts.1.goesInto": "",
  ...line(1, 0, "900 g", "bread flour"),
  ...line(1, 1, "468 g", "water"),
  ...line(1, 2, "9 g", "instant yeast"),
  ...line(1, 3, "27 g", "salt"),
  ...line(1, 4, "", ""),
  pieces: "6",
  pieceMass: "390 g",
  "stages.0.key": "bulk1",
  "stages.0.kind": "bulk",
  "stages.0.name": "Bulk",
  "stages.0.lasts": "1 h 30 – 2 h",
  "stages.0.driven": "yes",
  "stages.0.reference": "24",
  "stages.0.handsOn": "5",
  "stages.0.cue": "Half as big again",
  "stages.1.key": "bake1",
  "stages.1.kind": "bake",
  "stages.1.name": "Bake",
  "stages.1.lasts": "25",
}

function line(part: number, index: number, quantity: string, ingredient: string) {
  return {
    [`parts.${part}.lines.${index}.quantity`]: quantity,
    [`parts.${part}.lines.${index}.ingredient`]: ingredient,
  }
}

async function written(by: Visitor, fields: Record<string, string> = baguette) {
  const { location } = await by.submit("/formulas", fields)
  return location!
}

async function published(by: Visitor, db: Db) {
  const url = await written(by)
  await by.submit(`${url}/revisions`)
  const [revision] = await listRevisions(db, idIn(url))
  return { url, revisionId: revision!.id }
}

const idIn = (url: string) => Number(url.split("/").at(-1))
const revisionsOf = (db: Db, url: string) => listRevisions(db, idIn(url))
const thrown = (id: number, classId: number) => ({
  ...{ classId, revisionId: id, title: "Baguettes", opensOn: "2026-11-14", closesOn: "2026-11-15" },
  ...{ onTableTime: "18:30", lookFor: "" },
})
const figuresOn = ({ page }: Page) => wordsOf(page.querySelector("dl.figures"))
const typedIn = (page: HTMLElement, name: string) =>
  page.getElementById(name)?.getAttribute("value") ?? page.getElementById(name)?.text

/** What a browser would send of the form on a page. */
function fieldsOf(page: HTMLElement) {
  const form = page.querySelector("form.write")!
  const fields: Record<string, string> = {}
  for (const input of form.querySelectorAll("input, textarea, select")) {
    const name = input.getAttribute("name")!
    if (input.getAttribute("type") === "checkbox" && !input.hasAttribute("checked")) continue
    const chosen = input.querySelector("option[selected]") ?? input.querySelector("option")
    fields[name] = chosen ? chosen.getAttribute("value")! : (input.getAttribute("value") ?? input.text)
  }
  return fields
}

test("a formula entered in the form shows its figures", async ({ cast }) => {
  const shown = await cast.ana.open(await written(cast.ana))

  expect(wordsOf(shown.page.querySelector("h1"))).toBe("Poolish baguette")
  expect(figuresOn(shown)).toBe(
    "Dough 2340 g Flour in all parts 1368 g Hydration 68.4 % Salt 1.97 % Prefermented flour 34.2 % Pieces 6 × 390 g",
  )
  expect(wordsOf(shown.page.querySelector(".formula"))).toContain("900 g 65.8 % 100 % in its part bread flour")
  expect(wordsOf(shown.page.querySelector(".stages"))).toContain("1 h 30 min – 2 h at 24 °C · hands on for 5 min")
})

test("a new formula starts with a levain in a final dough and the stages of a loaf", async ({ cast }) => {
  const { page } = await cast.ana.open("/formulas/new")
  expect(typedIn(page, "parts.0.name")).toBe("Levain")
  expect(typedIn(page, "parts.1.name")).toBe("Final dough")
  expect(page.querySelectorAll("fieldset.written-stage")).toHaveLength(8)
  expect(wordsOf(page.querySelector("form.write button"))).toBe("Save")
})

test("what is wrong is said beside its field, and what was typed is kept", async ({ cast, db }) => {
  const wrong = {
    title: " ",
    "parts.0.staysPercent": "100",
    "stages.0.lasts": "5–4 h",
    "stages.1.lasts": "a while",
    "stages.1.reference": "180",
  }
  const { status, page } = await cast.ana.submit("/formulas", { ...baguette, ...wrong })

  expect(status).toBe(422)
  expect(wordsOf(page.getElementById("title-error"))).toBe("Give the formula a name.")
  expect(wordsOf(page.getElementById("parts.0.staysPercent-error"))).toBe(
    "Give a percentage from 0 to 99.9, or a mass such as 45 g.",
  )
  expect(wordsOf(page.getElementById("stages.0.lasts-error"))).toMatch(/backwards/)
  expect(wordsOf(page.getElementById("stages.1.lasts-error"))).toMatch(/Give a time such as/)
  expect(wordsOf(page.getElementById("stages.1.reference-error"))).toMatch(/180 °C is not possible/)
  expect(typedIn(page, "stages.0.lasts")).toBe("5–4 h")
  expect(typedIn(page, "parts.1.lines.3.quantity")).toBe("27 g")
  expect(await db.query.formulas.findMany()).toHaveLength(0)
})

test("an amount that cannot be read is kept as typed, with the reason beside its line", async ({ cast }) => {
  const url = await written(cast.ana, { ...baguette, ...line(1, 3, "a handful", "salt") })
  const { page } = await cast.ana.open(`${url}/edit`)
  expect(typedIn(page, "parts.1.lines.3.quantity")).toBe("a handful")
  expect(wordsOf(page.getElementById("share-1-3"))).toMatch(/handful/)
  expect((await cast.ana.open(url)).text).toContain("no share of salt")
})

test("rows are added, moved and removed without a script, and nothing typed is lost", async ({ cast }) => {
  const url = await written(cast.ana)
  const first = fieldsOf((await cast.ana.open(`${url}/edit`)).page)
  const typed = { ...first, "parts.1.lines.5.quantity": "60–90 g", "parts.1.lines.5.ingredient": "seeds" }

  const added = await cast.ana.submit(url, { ...typed, change: "line:1" })
  expect(added.status).toBe(200)
  expect(fieldsOf(added.page)).toMatchObject(typed)
  expect(Object.keys(fieldsOf(added.page))).toContain("parts.1.lines.6.quantity")
  expect((await cast.ana.open(url)).text).not.toContain("seeds")

  const removed = await cast.ana.submit(url, { ...fieldsOf(added.page), change: "remove-line:1:2" })
  expect(fieldsOf(removed.page)).toMatchObject({
    "parts.1.lines.2.ingredient": "salt",
    "parts.1.lines.4.ingredient": "seeds",
  })

  const up = await cast.ana.submit(url, { ...fieldsOf(removed.page), change: "up:stage:1" })
  expect(fieldsOf(up.page)).toMatchObject({ "stages.0.key": "bake1", "stages.1.cue": "Half as big again" })

  const gone = await cast.ana.submit(url, { ...fieldsOf(up.page), change: "remove-part:1" })
  expect(fieldsOf(gone.page)).toMatchObject({ "parts.0.key": "poolish", "parts.0.goesInto": "" })

  const more = await cast.ana.submit(url, { ...fieldsOf(gone.page), change: "part" })
  expect(fieldsOf(more.page)).toMatchObject({ "parts.0.goesInto": "poolish", "parts.1.name": "Poolish" })
})

test("empty lines are not kept, and two spare ones are there to write into", async ({ cast, db }) => {
  const url = await written(cast.ana)
  expect((await findFormula(db, idIn(url)))!.draft.parts[1]!.lines).toHaveLength(4)
  const { page } = await cast.ana.open(`${url}/edit`)
  expect(page.getElementById("parts.1.lines.5.quantity")).not.toBeNull()
  expect(page.getElementById("parts.1.lines.6.quantity")).toBeNull()
})

test("the figures of what is being typed come without saving it", async ({ cast, db }) => {
  const { page, text } = await cast.ana.submit("/formulas/figures", { ...baguette, ...line(1, 1, "500 g", "water") })
  expect(text).toContain("2372 g")
  expect(wordsOf(page.getElementById("share-1-0"))).toBe("65.8 % of the flour counted as flour")
  expect(await db.query.formulas.findMany()).toHaveLength(0)
})

test("a published revision stays as it was, whatever is edited later", async ({ cast, db }) => {
  const { url, revisionId } = await published(cast.ana, db)
  await cast.ana.submit(url, { ...baguette, title: "Poolish baguette, wetter", ...line(1, 1, "500 g", "water") })

  const frozen = await cast.ana.open(`/revisions/${revisionId}`)
  expect(figuresOn(frozen)).toContain("Hydration 68.4 %")
  expect(wordsOf(frozen.page.querySelector("h1"))).toBe("Poolish baguette")
  expect((await cast.ana.open("/formulas")).text).toContain("revision 1, changed since")

  expect((await cast.ana.submit(`${url}/revisions`, { whatChanged: "" })).status).toBe(422)
  await cast.ana.submit(`${url}/revisions`, { whatChanged: "More water" })
  expect((await revisionsOf(db, url)).map(({ number, whatChanged }) => [number, whatChanged])).toEqual([
    [2, "More water"],
    [1, "First published."],
  ])
  const ana = await db.query.users.findFirst({ where: (user) => eq(user.id, cast.ana.id) })
  expect(await listPublished(db, ana!)).toMatchObject([{ title: "Poolish baguette, wetter", number: 2 }])
})

test.for([
  ["no line in a final dough", { "parts.1.goesInto": "poolish" }, "There is nothing to bake from yet"],
  ["a stage without a time", { "stages.0.lasts": "" }, "Say how long “Bulk” takes"],
] as const)("a formula with %s is not published", async ([, fields, sentence], { cast, db }) => {
  const url = await written(cast.ana, { ...baguette, ...fields })
  const refused = await cast.ana.submit(`${url}/revisions`)
  expect(refused.status).toBe(422)
  expect(wordsOf(refused.page.getElementById("publish-error"))).toContain(sentence)
  expect(await revisionsOf(db, url)).toEqual([])
})

test("publishing twice without a change makes one revision", async ({ cast, db }) => {
  const { url } = await published(cast.ana, db)
  expect((await cast.ana.submit(`${url}/revisions`, { whatChanged: "again" })).status).toBe(422)
  expect(await revisionsOf(db, url)).toHaveLength(1)
})

test("a stage keeps its key when it is renamed and moved", async ({ cast, db }) => {
  const url = await written(cast.ana)
  const fields = fieldsOf((await cast.ana.open(`${url}/edit`)).page)
  const { page } = await cast.ana.submit(url, { ...fields, "stages.0.name": "Long bulk", change: "down:stage:0" })
  await cast.ana.submit(url, fieldsOf(page))
  const { stages } = (await findFormula(db, idIn(url)))!.draft
  expect(stages.map(({ key, name }) => [key, name])).toEqual([
    ["bake1", "Bake"],
    ["bulk1", "Long bulk"],
  ])
})

test("saving the form untouched changes nothing", async ({ cast, db }) => {
  const url = await written(cast.ana, { ...baguette, "stages.0.reference": "75 °F" })
  const before = (await findFormula(db, idIn(url)))!.draft
  await cast.ana.submit(url, fieldsOf((await cast.ana.open(`${url}/edit`)).page))
  const after = (await findFormula(db, idIn(url)))!.draft
  expect(after.parts).toEqual(before.parts)
  expect(after.stages[0]!.referenceC).toBeCloseTo(before.stages[0]!.referenceC!, 1)
})

test("another teacher finds nothing, and the owner of the instance may edit", async ({ cast, db }) => {
  const { url, revisionId } = await published(cast.ana, db)
  for (const path of [url, `${url}/edit`, `/revisions/${revisionId}`]) {
    expect((await cast.cleo.open(path)).status).toBe(404)
    expect((await cast.olga.open(path)).status).toBe(200)
  }
  expect((await cast.cleo.submit(url, baguette)).status).toBe(404)
  expect((await cast.cleo.submit(`${url}/public-link`)).status).toBe(404)
  expect((await cast.cleo.open("/formulas")).text).not.toContain("Poolish")
  expect((await cast.olga.open("/formulas")).text).toContain("by ana")
})

test("students write no formulas, and read a revision once a bake day gives it to their class", async ({
  cast,
  db,
}) => {
  const { url, revisionId } = await published(cast.ana, db)
  expect((await cast.ben.open("/formulas/new")).status).toBe(403)
  expect((await cast.ben.open(`/revisions/${revisionId}`)).status).toBe(404)

  await db.insert(bakeDays).values(thrown(revisionId, cast.classId))

  expect((await cast.ben.open(`/revisions/${revisionId}`)).status).toBe(200)
  expect((await cast.dan.open(`/revisions/${revisionId}`)).status).toBe(404)
  expect((await cast.ben.open(url)).status).toBe(404)
})

test("a class still reads the revision it baked after its bake day is given another", async ({ cast, db }) => {
  const { url, revisionId } = await published(cast.ana, db)
  await cast.ana.submit(url, { ...baguette, pan: "couche" })
  await cast.ana.submit(`${url}/revisions`, { whatChanged: "A couche" })
  const [second] = await revisionsOf(db, url)
  const [day] = await db.insert(bakeDays).values(thrown(second!.id, cast.classId)).returning()
  expect((await cast.bea.open(`/revisions/${revisionId}`)).status).toBe(404)

  await db.insert(bakes).values({ bakeDayId: day!.id, revisionId, userId: cast.ben.id, onTableAt: new Date() })

  expect((await cast.bea.open(`/revisions/${revisionId}`)).status).toBe(200)
})

test("anyone reads the newest revision by its public link, until it is taken back", async ({ cast, db }) => {
  const url = await written(cast.ana)
  await cast.ana.submit(`${url}/public-link`)
  const link = `/open/${(await findFormula(db, idIn(url)))!.publicToken}`
  expect((await cast.stranger.open(link)).status).toBe(404)

  await cast.ana.submit(`${url}/revisions`)
  const read = await cast.stranger.open(link)
  expect(read.status).toBe(200)
  expect(figuresOn(read)).toContain("Dough 2340 g")

  await cast.ana.submit(`${url}/public-link/removal`)
  expect((await cast.stranger.open(link)).status).toBe(404)
})

test("a picture stands beside its stage's cue and can be removed", async ({ cast, db, app }) => {
  const url = await written(cast.ana)
  const bytes = await sharp({ create: { width: 40, height: 30, channels: 3, background: "#caa" } })
    .jpeg()
    .toBuffer()
  const file = { field: "ready", name: "dough.jpg", type: "image/jpeg", bytes }

  expect((await cast.ana.upload(`${url}/stage-pictures`, { stageKey: "bulk1" }, file)).status).toBe(303)

  const picture = (await db.query.photos.findFirst({ where: eq(photos.formulaId, idIn(url)) }))!
  expect(picture).toMatchObject({ stageKey: "bulk1", subject: "dough", forClass: true, width: 40, height: 30 })
  const shown = (await cast.ana.open(url)).page.querySelector(".stages img")!
  expect(shown.getAttribute("src")).toBe(`/photos/${picture.id}/small`)
  expect(shown.closest("li")!.text).toContain("Half as big again")

  expect((await cast.cleo.submit(`${url}/stage-pictures/${picture.id}/removal`)).status).toBe(404)
  expect((await cast.ana.submit(`${url}/stage-pictures/nonsense/removal`)).status).toBe(404)
  await cast.ana.submit(`${url}/stage-pictures/${picture.id}/removal`)
  expect(await db.query.photos.findMany()).toEqual([])
  expect(await app.photoStore.open(picture.id, "small")).toBeUndefined()
})

test("a file that is no picture, or for no stage, is refused in words", async ({ cast }) => {
  const url = await written(cast.ana)
  const file = { field: "ready", name: "dough.jpg", type: "image/jpeg", bytes: Buffer.from("not a picture") }
  const renamed = await cast.ana.upload(`${url}/stage-pictures`, { stageKey: "bulk1" }, file)
  expect(renamed.status).toBe(422)
  expect(wordsOf(renamed.page.getElementById("ready-error"))).toContain("not a picture")
  const nowhere = await cast.ana.upload(`${url}/stage-pictures`, { stageKey: "gone" }, file)
  expect(wordsOf(nowhere.page.getElementById("stageKey-error"))).toBe("Choose a stage of this formula.")
  expect((await cast.ana.submit(`${url}/stage-pictures`, { stageKey: "bulk1" })).status).toBe(422)
})
