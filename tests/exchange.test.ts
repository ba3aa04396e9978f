import { Ajv2020 } from "ajv/dist/2020.js"
import { parse as parseCsv } from "csv-parse/sync"
import { eq } from "drizzle-orm"
import type { Db } from "../server/db.ts"
import { makePublicLink, takeBackPublicLink } from "../server/formulas/queries.ts"
import { formulas } from "../server/schema.ts"
import { giveBakeDay, tinLoaf } from "./class-day.ts"
import { expect, test } from "./test.ts"
import { type Page, type Visitor, wordsOf } from "./visitor.ts"

const pasted = `Country loaf
By Jo Example
Makes 2 loaves

For the levain:
50 g ripe starter
100 g bread flour

Final dough
1.2 cup wholemeal flour
500 g bread flour
350 g water

Method
1. Mix everything, rest overnight.
2. Bulk for 4–5 hours at 24 °C.
3. Bake 45 min.

Print this page
https://bread.example/country
`

const fieldsOf = ({ page }: Page) =>
  Object.fromEntries(
    page
      .querySelectorAll("main form input, main form textarea, main form select")
      .map((input) => [
        input.getAttribute("name")!,
        input.querySelector("option[selected]")?.getAttribute("value") ?? input.getAttribute("value") ?? input.text,
      ]),
  )
const draftAt = async (db: Db, url: string | undefined) =>
  (await db.query.formulas.findFirst({ where: eq(formulas.id, Number(/\d+/.exec(url ?? "")?.[0])) }))!
const upload = (by: Visitor, name: string, text: string) =>
  by.upload("/formulas/import", { pasted: "" }, { field: "file", name, type: "text/html", bytes: Buffer.from(text) })
const dataIn = ({ page }: Page) => JSON.parse(page.querySelector('script[type="application/ld+json"]')!.rawText)

test("a pasted formula is told line by line, and one button makes a draft of it", async ({ db, cast }) => {
  const read = await cast.ana.submit("/formulas/import", { pasted })
  const words = wordsOf(read.page.querySelector("main"))
  expect(read.status).toBe(200)
  for (const line of pasted.split("\n").filter((each) => /^\d.*(g|cup|water)/.test(each))) expect(words).toContain(line)
  expect(words).toContain("Is “1.2” 1/2, or 1 1/5?")
  expect(words).toContain("“overnight” is no length")
  expect(words).toContain("goes into Final dough")
  expect(words).toContain("Told by “Bulk”")

  const made = await cast.ana.submit("/formulas/import/draft", {
    ...fieldsOf(read),
    "stages.0.lasts": "10–12 h",
    "stages.2.kind": "rest",
  })
  expect(made).toMatchObject({ status: 303 })
  const { ownerId, title, draft } = await draftAt(db, made.location)
  expect(ownerId).toBe(cast.ana.id)
  expect(title).toBe("Country loaf")
  expect(draft.parts.map(({ name, lines }) => [name, lines.length])).toEqual([
    ["Levain", 2],
    ["Final dough", 3],
  ])
  expect(draft.stages.map(({ kind, lowMin, highMin }) => [kind, lowMin, highMin])).toEqual([
    ["rest", 600, 720],
    ["bulk", 240, 300],
    ["rest", 45, 45],
  ])
  expect(draft.about).toContain("By Jo Example")
  expect(draft.about).toContain("From https://bread.example/country")
  expect(draft).toMatchObject({ pieces: "2" })
  const edit = await cast.ana.open(made.location!)
  expect(wordsOf(edit.page.querySelector("main"))).toContain("Is “1.2” 1/2, or 1 1/5?")
})

test("a draft without a name, or with a time that is none, is refused with everything as it was left", async ({
  db,
  cast,
}) => {
  const read = await cast.ana.submit("/formulas/import", { pasted })
  const refused = await cast.ana.submit("/formulas/import/draft", {
    ...fieldsOf(read),
    title: " ",
    "stages.1.lasts": "a while",
    about: "Mine now",
  })
  expect(refused.status).toBe(422)
  expect(refused.page.getElementById("title-error")?.text).toContain("Give the formula a name.")
  expect(refused.page.getElementById("stages.1.lasts-error")?.text).toContain("Give a time")
  expect(refused.page.getElementById("stages.1.lasts")?.getAttribute("value")).toBe("a while")
  expect(refused.page.getElementById("about")?.text).toBe("Mine now")
  expect(refused.page.getElementById("pasted")?.text).toContain("Country loaf")
  expect(await db.query.formulas.findMany({ where: eq(formulas.ownerId, cast.ana.id) })).toEqual([])
})

test("what cannot be read comes back as it was pasted", async ({ cast }) => {
  const refused = await cast.ana.submit("/formulas/import", { pasted: '{"@type": ' })
  expect(refused.status).toBe(422)
  expect(refused.page.getElementById("pasted")?.text).toBe('{"@type": ')
  expect(refused.page.getElementById("pasted-error")?.text).toContain("begins like JSON")
  expect((await cast.ana.submit("/formulas/import")).status).toBe(422)
  expect((await upload(cast.ana, "big.html", `<html>${"x".repeat(5 * 1024 * 1024 + 5)}`)).text).toContain(
    "larger than 5 MB",
  )
})

test("a formula leaves as recipe data and comes back whole from its page", async ({ db, cast }) => {
  const { revisionId } = await giveBakeDay(db, cast)
  const page = await cast.ana.open(`/revisions/${revisionId}`)
  expect(wordsOf(page.page.querySelector("main"))).toContain("Take it away")
  const read = await upload(cast.cleo, "tin.html", page.text)
  expect(wordsOf(read.page.querySelector(".lede"))).toContain("No question is open")
  const { location } = await cast.cleo.submit("/formulas/import/draft", fieldsOf(read))
  const { title, draft, ownerId } = await draftAt(db, location)
  expect({ title, draft, ownerId }).toEqual({ title: "Tin loaf", draft: tinLoaf, ownerId: cast.cleo.id })
})

test("the recipe data says when, how long and who may read it, but never who signs in", async ({ db, cast }) => {
  const { revisionId, bakeDayId } = await giveBakeDay(db, cast)
  const file = await cast.ben.open(`/revisions/${revisionId}/formula.json`)
  expect(file.headers["content-type"]).toContain("application/ld+json")
  expect(file.headers["content-disposition"]).toContain('filename="tin-loaf.json"')
  const data = JSON.parse(file.text)
  expect(data).toMatchObject({
    "@type": "Recipe",
    name: "Tin loaf",
    prepTime: "PT7H40M",
    cookTime: "PT40M",
    totalTime: "PT9H20M",
  })
  expect(data.recipeIngredient).toContain("890 g bread flour (Final dough)")
  expect(data).not.toHaveProperty("suitableForDiet")
  expect(file.text).not.toContain('"ana"')
  expect(dataIn(await cast.ben.open(`/revisions/${revisionId}`))).toEqual(data)
  expect(dataIn(await cast.ben.open(`/bake-days/${bakeDayId}`))).toEqual(data)

  const schema = await cast.stranger.open("/schemas/formula-1.json")
  const ajv = new Ajv2020()
  expect(ajv.validate(JSON.parse(schema.text), data["oven:formula"]), JSON.stringify(ajv.errors)).toBe(true)
})

test("the table is safe to open and the text is read back", async ({ db, cast }) => {
  const line = { ...tinLoaf.parts[1]!.lines[0]!, ingredient: '=HYPERLINK("x")', note: " @home, “warm”" }
  const parts = [tinLoaf.parts[0]!, { ...tinLoaf.parts[1]!, lines: [line, ...tinLoaf.parts[1]!.lines] }]
  const { revisionId } = await giveBakeDay(db, cast, { content: { ...tinLoaf, parts } })
  const csv = await cast.ben.open(`/revisions/${revisionId}/formula.csv`)
  expect(csv.headers["content-type"]).toContain("text/csv")
  expect(csv.text.split("\r\n").length).toBe(1 + 7 + 6 + 1)
  const rows: Record<string, string>[] = parseCsv(csv.text, { bom: true, columns: true })
  expect(rows[3]).toMatchObject({ ingredient: `'=HYPERLINK("x")`, note: "' @home, “warm”", "least g": "890" })
  const back = await cast.ana.submit("/formulas/import", { pasted: csv.text })
  const lines = back.page.querySelectorAll(".exchange-lines").map(wordsOf).join(" ")
  expect(lines).toContain('Ingredient=HYPERLINK("x") Note@home')

  const txt = await cast.ben.open(`/revisions/${revisionId}/formula.txt`)
  expect(txt.headers["content-type"]).toContain("text/plain")
  expect((await cast.ana.submit("/formulas/import", { pasted: txt.text })).status).toBe(200)
})

test("anyone takes a formula away while its link is public, and nobody after", async ({ db, cast }) => {
  const { formulaId, revisionId } = await giveBakeDay(db, cast)
  await makePublicLink(db, formulaId)
  const { publicToken } = (await db.query.formulas.findFirst({ where: eq(formulas.id, formulaId) }))!
  const page = await cast.stranger.open(`/open/${publicToken}`)
  expect(dataIn(page).url).toContain(`/open/${publicToken}`)
  for (const kind of ["json", "csv", "txt"]) {
    expect((await cast.stranger.open(`/open/${publicToken}/formula.${kind}`)).status).toBe(200)
    expect((await cast.cleo.open(`/revisions/${revisionId}/formula.${kind}`)).status).toBe(404)
  }
  await takeBackPublicLink(db, formulaId)
  expect((await cast.stranger.open(`/open/${publicToken}/formula.json`)).status).toBe(404)
})

test("words in a formula cannot end the data block they stand in", async ({ db, cast }) => {
  const about = "</script><script>alert(1)</script>"
  const { revisionId } = await giveBakeDay(db, cast, { content: { ...tinLoaf, about } })
  const page = await cast.ben.open(`/revisions/${revisionId}`)
  expect(page.text).not.toContain(about)
  expect(dataIn(page).description).toBe(about)
})
