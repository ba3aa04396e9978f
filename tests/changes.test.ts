import { randomUUID } from "node:crypto"
import { describe } from "vitest"
import { findBake } from "../server/bakes/queries.ts"
import type { Db } from "../server/db.ts"
import type { FormulaContent } from "../server/formulas/content.ts"
import { changes, corrections } from "../server/schema.ts"
import { error, idIn, started } from "./bench.ts"
import type { Cast } from "./cast.ts"
import { giveBakeDay, tinLoaf } from "./class-day.ts"
import { expect, test } from "./test.ts"
import { type Page, type Visitor, wordsOf } from "./visitor.ts"

const change = (who: Visitor, url: string, kind: string, fields: Record<string, string>) =>
  who.submit(`${url}/changes`, { entryId: randomUUID(), kind, ...fields })
const seen = async (who: Visitor, url: string) => (await who.open(url)).page.querySelector("#changes")!
const listed = async (who: Visitor, url: string) =>
  (await seen(who, url))
    .querySelectorAll(".changed > li > details > summary, .changed > li > p:first-child")
    .map(wordsOf)
const moved = async (who: Visitor, url: string) => {
  const rows = (await seen(who, url)).querySelectorAll(".moved > div").map(wordsOf)
  return rows.map((words) => words.replace("formula ", "").replace("yours ", ""))
}
const theChange = async (db: Db) => (await db.query.changes.findFirst())!

describe("what was done otherwise is told in words with grams, and moves this bake's own figures", () => {
  test("salt left out", async ({ db, cast }) => {
    const { url } = await started(db, cast)
    const { status, location } = await change(cast.ben, url, "left-out", { of: "dough/salt" })

    expect([status, location]).toEqual([303, `${url}#changes`])
    expect(await listed(cast.ben, url)).toEqual(["Left out: 20 g salt"])
    expect(await moved(cast.ben, url)).toEqual(["Dough 1720 g → 1700 g", "Salt 2 % → 0 %"])
    expect(wordsOf(await seen(cast.ben, url))).toContain("is not counted in the estimate")
  })

  test("rescue flour, with the time and the stage that runs", async ({ db, cast }) => {
    const { url, id } = await started(db, cast)
    await cast.ben.submit(`${url}/marks`, { entryId: randomUUID(), stageKey: "bulk", action: "start" })
    await change(cast.ben, url, "added", { what: "bread flour", quantity: "40" })

    expect((await listed(cast.ben, url))[0]).toMatch(/^Rescue: \+40 g bread flour at \d\d:\d\d, during Bulk$/)
    expect(await moved(cast.ben, url)).toEqual([
      "Dough 1720 g → 1760 g",
      "Flour 1000 g → 1040 g",
      "Hydration as written 70 % → 67.3 %",
      "Salt 2 % → 1.92 %",
      "Prefermented flour 11 % → 10.6 %",
    ])
    const bake = (await findBake(db, id))!
    expect(bake.asWritten).toEqual(tinLoaf)
    expect(bake.content.parts[1]!.lines).toHaveLength(4)
  })

  test("another flour, as much of it", async ({ db, cast }) => {
    const { url } = await started(db, cast)
    await change(cast.ben, url, "swapped", { of: "dough/bread flour", instead: "rye flour", outQuantity: "100 g" })
    expect(await listed(cast.ben, url)).toEqual(["Swapped: rye flour for 100 g bread flour"])
    expect(await moved(cast.ben, url)).toEqual([])
  })

  test("milk for water brings less water than it says", async ({ db, cast }) => {
    const { url } = await started(db, cast)
    await change(cast.ben, url, "swapped", { of: "dough/water", instead: "whole milk" })
    expect(await listed(cast.ben, url)).toEqual(["Swapped: whole milk for water, 590 g"])
    const figures = await moved(cast.ben, url)
    expect(figures).toContain("Hydration as written 70 % → 11 %")
    expect(figures).toContain("Hydration with all water 70 % → 63 %")
  })

  test("half of the water, and a spoon of it", async ({ db, cast }) => {
    const { url } = await started(db, cast)
    await change(cast.ben, url, "left-out", { of: "dough/water", outQuantity: "half of it" })
    await change(cast.ben, url, "added", { what: "water", quantity: "2 tbsp", at: "40 min ago" })
    const [half, spoons] = await listed(cast.ben, url)
    expect(half).toBe("Left out: half of it (295 g) of water")
    expect(spoons).toMatch(/^Rescue: \+2 tbsp \(30 g\) of water at \d\d:\d\d/)
    expect(await moved(cast.ben, url)).toContain("Hydration as written 70 % → 43.5 %")
  })

  test("yeast for the levain", async ({ db, cast }) => {
    const { url } = await started(db, cast)
    await change(cast.ben, url, "swapped", { of: "levain/", instead: "instant yeast", quantity: "4 g" })
    expect(await listed(cast.ben, url)).toEqual(["Swapped: 4 g instant yeast for 220 g Levain"])
    expect(await moved(cast.ben, url)).toContain("Prefermented flour 11 % → 0 %")
  })

  test("an oven, and anything else, in words", async ({ db, cast }) => {
    const { url } = await started(db, cast)
    await change(cast.ben, url, "oven", { words: "neighbour’s, fan" })
    await change(cast.ben, url, "other", { words: "baked in the lid of a pot" })
    expect(await listed(cast.ben, url)).toEqual(["Oven: neighbour’s, fan", "Otherwise: baked in the lid of a pot"])
    expect(await moved(cast.ben, url)).toEqual([])
  })
})

test("a skipped stage is not offered as next, and the plan says so", async ({ db, cast }) => {
  const { url } = await started(db, cast)
  await change(cast.ben, url, "skipped", { stageKey: "shape" })
  await cast.ben.submit(`${url}/marks`, { entryId: randomUUID(), stageKey: "bulk", action: "start" })

  const { page } = await cast.ben.open(url)
  expect(await listed(cast.ben, url)).toEqual(["Skipped: Shape"])
  expect(wordsOf(page.querySelector("#now"))).toContain("Start Proof")
  expect(wordsOf(page.querySelector("#stage-shape"))).toContain("actual skipped")
  expect((await change(cast.ben, url, "skipped", { stageKey: "bulk" })).status).toBe(422)
})

describe("what a form cannot keep comes back as typed, with a word beside the field", () => {
  const refusals: [kind: string, fields: Record<string, string>, field: string, message: RegExp][] = [
    ["left-out", { outQuantity: "20 g" }, "of", /Choose what was left out/],
    ["left-out", { of: "dough/salt", outQuantity: "40 g" }, "outQuantity", /There is only 20 g of it/],
    ["left-out", { of: "dough/water", outQuantity: "50 %" }, "outQuantity", /of the water, or of the flour/],
    ["swapped", { of: "dough/water" }, "instead", /Say what came instead/],
    ["added", { what: "bread flour" }, "quantity", /Say how much/],
    ["added", { quantity: "40 g" }, "what", /Say what was added/],
    ["added", { what: "", quantity: "40 g" }, "instead", /Say what was added/],
    ["added", { what: "bread flour", quantity: "0 g" }, "quantity", /above 0/],
    ["added", { instead: "milk", quantity: "9 oz" }, "quantity", /fluid ounces.*“9 US fl oz”/],
    ["added", { what: "water", quantity: "40 g", at: "soon" }, "at", /Say when/],
    ["skipped", {}, "stageKey", /Choose the stage/],
    ["oven", { words: " " }, "words", /Say which oven/],
    ["other", {}, "words", /Say what was different/],
  ]
  test.for(refusals)("%s %o", async ([kind, fields, field, message], { db, cast }) => {
    const { url } = await started(db, cast)
    const answer = await change(cast.ben, url, kind, fields)

    expect(answer.status).toBe(422)
    expect(error(answer, `change-${kind}-${field}`)).toMatch(message)
    expect(keptIn(answer, kind)).toMatchObject(fields)
    expect(await db.$count(changes)).toBe(0)
  })

  /** What stands in the form of a kind, by name. */
  function keptIn({ page }: Page, kind: string) {
    const form = page.querySelector(`#changes form:has(input[name=kind][value=${kind}])`)!
    const fields = form.querySelectorAll("input, textarea").filter((one) => {
      return one.getAttribute("type") !== "radio" || one.hasAttribute("checked")
    })
    return Object.fromEntries(fields.map((one) => [one.getAttribute("name"), one.getAttribute("value") ?? one.text]))
  }
})

test("nothing is added to a part that the formula does not have", async ({ db, cast }) => {
  const { url } = await started(db, cast)
  const answer = await change(cast.ben, url, "added", { what: "water", quantity: "40 g", into: "poolish" })
  expect([answer.status, error(answer, "change-added-into")]).toEqual([422, "This formula has no such part."])
})

test("an amount that reads two ways is asked about, and the one that is chosen counts", async ({ db, cast }) => {
  const { url } = await started(db, cast)
  const milk = { instead: "milk", quantity: "9 oz" }
  const { page } = await change(cast.ben, url, "added", milk)
  const buttons = page.querySelectorAll("#changes .choices button")
  expect(buttons.map(wordsOf)).toEqual([
    ...["ounces by weight: 255 g", "US fl oz: 275 g", "imperial fl oz: 264 g", "nobody knows any more"],
  ])

  await change(cast.ben, url, "added", { ...milk, take: buttons[0]!.getAttribute("value")! })
  expect((await listed(cast.ben, url))[0]).toMatch(/^Added: \+9 oz \(255 g\) of milk at/)
})

test("what nobody weighed is kept as words, and says what goes without it", async ({ db, cast }) => {
  const { url } = await started(db, cast)
  await change(cast.ben, url, "added", { what: "bread flour", quantity: "a good handful" })

  expect((await listed(cast.ben, url))[0]).toMatch(/^Rescue: bread flour, “a good handful” at/)
  expect(wordsOf(await seen(cast.ben, url))).toContain(
    "“a good handful” of bread flour cannot be weighed: the dough, its flour and every percentage are reckoned without it.",
  )
  expect(await moved(cast.ben, url)).toEqual([])
})

test("what an amount in spoons rests on stands beside it", async ({ db, cast }) => {
  const { url } = await started(db, cast)
  await change(cast.ben, url, "added", { what: "salt", quantity: "1 tsp" })
  expect(wordsOf(await seen(cast.ben, url))).toMatch(/1 metric tsp \(5 ml\) of salt is taken as/)
})

test("a change is corrected, and what it said before stays beside it", async ({ db, cast }) => {
  const { url } = await started(db, cast)
  await change(cast.ben, url, "added", { what: "water", quantity: "40 g" })
  const { id } = await theChange(db)
  const { page } = await cast.ben.open(url)
  expect(page.querySelector(`#change-${id}-quantity`)!.getAttribute("value")).toBe("40 g")
  const at = page.querySelector(`#change-${id}-at`)!.getAttribute("value")!

  await cast.asta.submit(`${url}/changes/${id}`, { entryId: randomUUID(), what: "water", quantity: "30 g", at })
  expect((await listed(cast.ben, url))[0]).toMatch(/^Rescue: \+30 g water/)
  const was = wordsOf((await seen(cast.ben, url)).querySelector(".was"))
  expect(was).toMatch(/^Rescue: \+40 g water at \d\d:\d\d changed by Asta/)
  expect((await seen(cast.bea, url)).querySelector(".was")).toBeNull()

  const refused = await cast.ben.submit(`${url}/changes/${id}`, { entryId: randomUUID(), what: "water", quantity: "" })
  expect([refused.status, error(refused, `change-${id}-quantity`)]).toEqual([422, expect.stringMatching(/how much/)])
})

test("a change that was asked about is not asked about again", async ({ db, cast }) => {
  const { url } = await started(db, cast)
  await change(cast.ben, url, "added", { instead: "milk", quantity: "9 oz", take: "9 US fl oz" })
  const { id, massG } = await theChange(db)
  const fields = { entryId: randomUUID(), instead: "milk", quantity: "9 oz", into: "dough" }
  expect((await cast.ben.submit(`${url}/changes/${id}`, fields)).status).toBe(303)
  expect(await theChange(db)).toMatchObject({ massG, partKey: "dough" })
})

test("a change is taken back, struck through and put back", async ({ db, cast }) => {
  const { url } = await started(db, cast)
  await change(cast.ben, url, "left-out", { of: "dough/salt" })
  const { id } = await theChange(db)

  await cast.ben.submit(`${url}/changes/${id}/removal`, { entryId: randomUUID() })
  expect(wordsOf((await seen(cast.ben, url)).querySelector(".gone"))).toMatch(/^Left out: 20 g salt taken back/)
  expect(await moved(cast.ben, url)).toEqual([])
  expect(wordsOf(await seen(cast.bea, url))).toBe("")

  await cast.ben.submit(`${url}/changes/${id}/restoration`, { entryId: randomUUID() })
  expect(await listed(cast.ben, url)).toEqual(["Left out: 20 g salt"])
  expect(await db.$count(corrections)).toBe(2)
})

test("sent twice, it is one; with something else under the same number it is refused", async ({ db, cast }) => {
  const { url } = await started(db, cast)
  const entryId = randomUUID()
  const flour = { entryId, what: "bread flour", quantity: "40 g" }
  await change(cast.ben, url, "added", flour)
  expect((await change(cast.ben, url, "added", flour)).status).toBe(303)
  expect(await db.$count(changes)).toBe(1)

  const other = await change(cast.ben, url, "added", { ...flour, quantity: "50 g" })
  expect([other.status, error(other, "change-added-quantity")]).toEqual([422, expect.stringMatching(/sent before/)])
})

test("classmates see what changed and cannot write it; who is not of the class finds nothing", async ({ db, cast }) => {
  const { url } = await started(db, cast)
  await change(cast.ben, url, "left-out", { of: "dough/salt" })
  const { id } = await theChange(db)

  expect(await listed(cast.bea, url)).toEqual(["Left out: 20 g salt"])
  expect((await change(cast.bea, url, "oven", { words: "mine" })).status).toBe(403)
  expect((await change(cast.cleo, url, "oven", { words: "mine" })).status).toBe(404)
  expect((await cast.cleo.submit(`${url}/changes/${id}/removal`)).status).toBe(404)
})

test("a change of another bake is not there", async ({ db, cast }) => {
  const { url, bakeDayId } = await started(db, cast)
  await change(cast.ben, url, "left-out", { of: "dough/salt" })
  const { id } = await theChange(db)
  const { location } = await cast.bea.submit(`/bake-days/${bakeDayId}/bakes`)
  expect((await cast.bea.submit(`${location}/changes/${id}/removal`)).status).toBe(404)
  expect((await cast.bea.submit(`${location}/changes/99999999999/removal`)).status).toBe(404)
})

describe("on the class table", () => {
  const row = async (who: Visitor, bakeDayId: number, id: number) =>
    wordsOf((await who.open(`/bake-days/${bakeDayId}/table`)).page.querySelector(`#bake-${id} .difference`))

  test("every change is among what differed", async ({ db, cast }) => {
    const { url, id, bakeDayId } = await started(db, cast)
    await change(cast.ben, url, "left-out", { of: "dough/salt" })
    await change(cast.ben, url, "added", { what: "bread flour", quantity: "40 g" })
    await change(cast.ben, url, "skipped", { stageKey: "proof" })
    await change(cast.ben, url, "oven", { words: "neighbour’s" })

    const words = await row(cast.bea, bakeDayId, id)
    const table = (await cast.bea.open(`/bake-days/${bakeDayId}/table`)).page
    expect(wordsOf(table.querySelector(".times tbody"))).toContain("skipped")
    for (const part of ["20 g salt left out", "+40 g bread flour", "Proof skipped", "oven: neighbour’s"])
      expect(words).toContain(part)
    expect(words.startsWith("Proof skipped")).toBe(true)
  })

  test("what is taken back is not", async ({ db, cast }) => {
    const { url, id, bakeDayId } = await started(db, cast)
    await change(cast.ben, url, "left-out", { of: "dough/salt" })
    await cast.ben.submit(`${url}/changes/${(await theChange(db)).id}/removal`)
    expect(await row(cast.bea, bakeDayId, id)).not.toContain("salt")
  })

  test("an allergen that the formula does not have is said there, and on the bake", async ({ db, cast }) => {
    const { url, id, bakeDayId } = await started(db, cast)
    await change(cast.ben, url, "swapped", { of: "dough/water", instead: "whole milk" })
    const said = /Allergens the formula does not have.*milk, from whole milk/
    expect(await row(cast.bea, bakeDayId, id)).toMatch(said)
    expect(wordsOf(await seen(cast.bea, url))).toMatch(said)
    expect(wordsOf(await seen(cast.bea, url))).not.toContain("wheat")
  })
})

test("a bake keeps the culture that its own leaven makes", async ({ db, cast }) => {
  const { url, bakeDayId } = await started(db, cast)
  await change(cast.ben, url, "swapped", { of: "levain/", instead: "instant yeast", quantity: "4 g" })
  const { listBakesOf } = await import("../server/table/queries.ts")
  const [bake] = await listBakesOf(db, bakeDayId, { viewer: cast.bea, role: "student" })
  expect(bake).toMatchObject({ id: idIn(url), culture: "baker's yeast" })
})

test("pieces are measured against the dough that was really made", async ({ db, cast }) => {
  const { url } = await startedWith(db, cast, { ...tinLoaf, pieces: "10", pieceTolerance: "5 g" })
  await change(cast.ben, url, "added", { what: "bread flour", quantity: "80 g" })
  expect(wordsOf((await cast.ben.open(url)).page.querySelector("#pieces"))).toContain("10 × 180 g")
})

test("a formula all in percent without pieces says that it gives no masses", async ({ db, cast }) => {
  const line = (quantity: string, ingredient: string) => ({ ...tinLoaf.parts[1]!.lines[0]!, quantity, ingredient })
  const parts = [{ ...tinLoaf.parts[1]!, lines: [line("100 %", "flour"), line("70 %", "water")] }]
  const { url } = await startedWith(db, cast, { ...tinLoaf, pieces: "", parts })
  await change(cast.ben, url, "added", { what: "flour", quantity: "40 g" })
  expect(wordsOf(await seen(cast.ben, url))).toContain("The formula gives no masses that “40 g” could be set against")
})

async function startedWith(db: Db, cast: Cast, content: FormulaContent) {
  const { bakeDayId } = await giveBakeDay(db, cast, { content })
  const { location } = await cast.ben.submit(`/bake-days/${bakeDayId}/bakes`)
  return { url: location! }
}
