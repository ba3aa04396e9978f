import { randomUUID } from "node:crypto"
import { eq } from "drizzle-orm"
import type { Db } from "../server/db.ts"
import type { FormulaContent } from "../server/formulas/content.ts"
import { addFormula } from "../server/formulas/queries.ts"
import { kitchens, users } from "../server/schema.ts"
import type { Cast } from "./cast.ts"
import { giveBakeDay, tinLoaf } from "./class-day.ts"
import { expect, test } from "./test.ts"
import { type Page, wordsOf } from "./visitor.ts"

const kitchen = { dough: "24", room: "20", liquid: "10", ice: "-18", kneading: "hand", rise: "1" }
const asked = (changes: Record<string, string> = {}) => `water?${new URLSearchParams({ ...kitchen, ...changes })}`
const bigOf = ({ page }: Page) => wordsOf(page.querySelector(".big"))
const degreesOf = (page: Page) =>
  Number(
    bigOf(page)
      .match(/(−?[\d.]+) °C/)![1]!
      .replace("−", "-"),
  )
const errorOf = ({ page }: Page, field: string) => wordsOf(page.querySelector(`[id="${field}-error"]`))

/** A formula of ana's whose final dough has these lines. */
async function formulaOf(db: Db, cast: Cast, lines: [quantity: string, ingredient: string][]) {
  const written = lines.map(([quantity, ingredient]) => ({ ...tinLoaf.parts[1]!.lines[0]!, quantity, ingredient }))
  const content: FormulaContent = { ...tinLoaf, parts: [{ ...tinLoaf.parts[1]!, lines: written }] }
  return `/formulas/${await addFormula(db, cast.ana.id, { title: "Brioche", content })}`
}

test("a student finds the water for the class's formula", async ({ db, cast }) => {
  const { revisionId } = await giveBakeDay(db, cast)

  const page = await cast.ben.open(`/revisions/${revisionId}/${asked()}`)

  expect(page.status).toBe(200)
  // 23 °C after mixing; 890 g flour at 1.84, 220 g levain at 3.01 and 20 g salt at 0.87 kJ/(kg K) lack 3 °C each,
  // which 590 g water at 4.185 bring: 23 + 3·(1638 + 662 + 17)/2469
  expect(degreesOf(page)).toBeCloseTo(25.8, 0)
  expect(bigOf(page)).toContain("590 g")
  expect(wordsOf(page.page.querySelector(".rests"))).toContain(
    "4 × 24 °C − 20 °C (room) − 20 °C (flour) − 20 °C (Levain)",
  )
})

test("before anything is typed it reckons with the formula's temperature and with guesses that it shows", async ({
  db,
  cast,
}) => {
  const { formulaId } = await giveBakeDay(db, cast)
  const { page, status } = await cast.ana.open(`/formulas/${formulaId}/water`)
  expect(status).toBe(200)
  expect(page.querySelector("#dough")!.getAttribute("value")).toBe("24")
  expect(page.querySelector("#room")!.getAttribute("value")).toBe("21")
  expect(wordsOf(page.querySelector(".big"))).toMatch(/Water at \d/)
})

test("water colder than the tap is told in ice, in place of water and on top", async ({ db, cast }) => {
  const { revisionId } = await giveBakeDay(db, cast)
  const page = await cast.ben.open(`/revisions/${revisionId}/${asked({ room: "30", liquid: "24", dough: "22" })}`)
  const [, fromTap, ice] = bigOf(page)
    .match(/([\d.]+) g from the tap with ([\d.]+) g of ice/)!
    .map(Number)
  expect(fromTap! + ice!).toBeCloseTo(590, -1)
  expect(page.text).toContain("of ice on top")
})

test("an impossible wish is answered with what would do", async ({ db, cast }) => {
  const { revisionId } = await giveBakeDay(db, cast)
  const cold = { room: "8", dough: "28", "at.flour": "6" }
  const page = await cast.ben.open(`/revisions/${revisionId}/${asked(cold)}`)
  expect(bigOf(page)).toContain("Water would have to be at")
  expect(wordsOf(page.page.querySelector(".caution"))).toMatch(/Above 45 °C it harms yeast.*instead of 28 °C/)
  const changes = page.page.querySelectorAll(".changes li").map(wordsOf)
  expect(changes.some((one) => /^Flour at [\d.]+ °C instead of 6 °C/.test(one))).toBe(true)
  expect(changes[0]).toMatch(/will do\.$/)
})

test("what cannot be read stays as typed, with why beside it", async ({ db, cast }) => {
  const { revisionId } = await giveBakeDay(db, cast)
  const wrong = { dough: "75", room: "", ice: "4", "at.flour": "<warm>", rise: "90" }
  const page = await cast.ben.open(`/revisions/${revisionId}/${asked(wrong)}`)
  expect(page.status).toBe(200)
  expect(bigOf(page)).toContain("Not yet")
  expect(errorOf(page, "dough")).toContain("Is that 75 °F?")
  expect(errorOf(page, "room")).toBe("Give a temperature.")
  expect(errorOf(page, "ice")).toContain("not possible for ice")
  expect(errorOf(page, "at.flour")).toContain("as a number")
  expect(errorOf(page, "rise")).toContain("check the number")
  expect(page.page.querySelector('[id="at.flour"]')!.getAttribute("value")).toBe("<warm>")
  expect(page.text).not.toContain("<warm>")
})

test("an earlier dough tells the kneading, and without its temperatures is asked for them", async ({ db, cast }) => {
  const { revisionId } = await giveBakeDay(db, cast)
  const first = await cast.ben.open(`/revisions/${revisionId}/${asked({ kneading: "earlier" })}`)
  expect(bigOf(first)).toContain("First tell of that earlier dough")

  // the very dough of today: its water comes back
  const water = String(degreesOf(await cast.ben.open(`/revisions/${revisionId}/${asked()}`)))
  const earlier = { kneading: "earlier", "earlier.dough": "24", "earlier.liquid": water, "earlier.room": "20" }
  const page = await cast.ben.open(`/revisions/${revisionId}/${asked(earlier)}`)
  expect(degreesOf(page)).toBeCloseTo(Number(water), 6)
  expect(wordsOf(page.page.querySelector(".basis"))).toMatch(/by 1 °C, as the earlier dough tells/)

  const impossible = { ...earlier, "earlier.dough": "48" }
  const refused = await cast.ben.open(`/revisions/${revisionId}/${asked(impossible)}`)
  expect(errorOf(refused, "earlier.dough")).toContain("check the temperatures")
})

test("whoever reads in °F is asked and answered in °F, and may still type °C", async ({ db, cast }) => {
  const { revisionId } = await giveBakeDay(db, cast)
  await db.update(users).set({ temperatureUnit: "F" }).where(eq(users.id, cast.ben.id))
  const url = `/revisions/${revisionId}/water?dough=75.2&room=20+C&liquid=50&ice=0&kneading=hand&rise=1.8`
  const page = await cast.ben.open(url)
  expect(bigOf(page)).toMatch(/Water at 7[78][.\d]* °F/)
  expect(wordsOf(page.page.querySelector(".basis"))).toContain("Kneading changes the dough by 1.8 °F")
})

test("of a range of water the last is held back, as warm as the dough", async ({ db, cast }) => {
  const url = await formulaOf(db, cast, [
    ["500 g", "bread flour"],
    ["335–365 g", "water"],
  ])
  const page = await cast.ana.open(`${url}/${asked()}`)
  expect(bigOf(page)).toMatch(/335 g at once; hold back 30 g at 24 °C$/)
  // 23 °C after mixing; 500 g flour at 1.84 lack 3 °C, which 335 g water at 4.185 bring: 23 + 3·920/1402
  expect(degreesOf(page)).toBeCloseTo(25, 0)
  // 30 g at 10 °C into 835 g: 125.6·14/(920 + 1402 + 125.6)
  expect(page.text).toContain("all of it would cool the dough by 0.7 °C")
})

test("a kitchen, the class's target and what was read on the bench come first, and each is said", async ({
  db,
  cast,
}) => {
  const { revisionId, bakeDayId } = await giveBakeDay(db, cast, { targetDoughC: 25 })
  const told = (value: number) => ({ value, known: "assumed" as const, typed: `${value} °C` })
  await db.insert(kitchens).values({ userId: cast.ben.id, content: { roomC: told(18), tapC: told(12) } })
  const first = await cast.ben.open(`/revisions/${revisionId}/water?day=${bakeDayId}`)
  const valueIn = ({ page }: Page, field: string) => page.querySelector(`#${field}`)!.getAttribute("value")
  const hintIn = ({ page }: Page, field: string) => wordsOf(page.querySelector(`#${field}-hint`))
  expect(["dough", "room", "liquid"].map((field) => valueIn(first, field))).toEqual(["25", "18", "12"])
  expect(hintIn(first, "room")).toBe("Assumed, as you told of your kitchen.")
  expect(hintIn(first, "ice")).toBe("Our guess.")

  const bake = await cast.ben.submit(`/bake-days/${bakeDayId}/bakes`)
  const reading = { entryId: randomUUID(), kind: "room", value: "22.5", takenAt: "", known: "measured", of: "" }
  await cast.ben.submit(`${bake.location}/readings`, reading)
  const later = await cast.ben.open(`/revisions/${revisionId}/water?day=${bakeDayId}`)
  expect(valueIn(later, "room")).toBe("22.5")
  expect(hintIn(later, "room")).toMatch(/^Measured at \d\d:\d\d, on your bench\.$/)
})

test("the levain can be mixed warm as well", async ({ db, cast }) => {
  const { revisionId } = await giveBakeDay(db, cast)
  const page = await cast.ben.open(`/revisions/${revisionId}/${asked({ mix: "levain" })}`)
  expect(bigOf(page)).toContain("100 g")
  expect(page.page.querySelector("#mix option[selected]")!.text).toBe("Levain")
})

test("a dough without water is tempered by its milk", async ({ db, cast }) => {
  const url = await formulaOf(db, cast, [
    ["500 g", "bread flour"],
    ["150 g", "whole milk"],
    ["150 g", "egg"],
  ])
  expect(bigOf(await cast.ana.open(`${url}/${asked()}`))).toMatch(/^Whole milk at/i)
})

test("a formula that pours nothing says so", async ({ db, cast }) => {
  const url = await formulaOf(db, cast, [["500 g", "bread flour"]])
  const { status, text } = await cast.ana.open(`${url}/water`)
  expect(status).toBe(200)
  expect(text).toContain("nothing to pour")
})

test("odd addresses break nothing", async ({ db, cast }) => {
  const { revisionId } = await giveBakeDay(db, cast)
  for (const query of [
    "mix=none",
    "dough=1&dough=24",
    "dough=",
    "at.flour[]=1",
    "kneading=dancing",
    "room=%F0%9F%8D%9E",
  ])
    expect((await cast.ben.open(`/revisions/${revisionId}/water?${query}`)).status).toBe(200)
})

test("cleo finds nothing", async ({ db, cast }) => {
  const { revisionId, formulaId } = await giveBakeDay(db, cast)
  expect((await cast.cleo.open(`/revisions/${revisionId}/water`)).status).toBe(404)
  expect((await cast.cleo.open(`/formulas/${formulaId}/water`)).status).toBe(404)
})
