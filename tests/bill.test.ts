import { eq } from "drizzle-orm"
import { parse } from "node-html-parser"
import { keepPlan } from "../server/bake-days/queries.ts"
import type { Db } from "../server/db.ts"
import type { FormulaContent } from "../server/formulas/content.ts"
import type { Kitchen } from "../server/kitchens/kitchen.ts"
import { kitchens, users } from "../server/schema.ts"
import type { Cast } from "./cast.ts"
import { giveBakeDay, tinLoaf } from "./class-day.ts"
import { expect, test } from "./test.ts"
import { type Page, wordsOf } from "./visitor.ts"

const line = (quantity: string, ingredient: string, note = "") => ({
  ...{ ...tinLoaf.parts[1]!.lines[0]!, quantity, ingredient, note },
})
const [levain, dough] = tinLoaf.parts
/** The tin loaf with its parts the wrong way round, water held back, a pinch of yeast, something nobody can weigh, and a wash. */
const richer: FormulaContent = {
  ...tinLoaf,
  parts: [
    {
      ...dough!,
      lines: [
        ...[line("890 g", "strong white flour"), line("560–590 g", "water", "the last by feel"), line("20 g", "salt")],
        ...[line("0.4 g", "instant yeast"), line("a handful", "seeds")],
      ],
    },
    { ...levain!, staysPercent: "10" },
  ],
  finishing: [line("1", "egg", "beaten")],
  stages: [
    { ...tinLoaf.stages[0]!, key: "feed", name: "Feed the levain" },
    { ...tinLoaf.stages[1]!, key: "ripen", kind: "rest", name: "Levain ripens" },
    ...tinLoaf.stages,
  ],
}
const opened = (url: string) => ({ bill: `${url}/bill`, list: `${url}/shopping` })
async function day(db: Db, cast: Cast, content = richer) {
  const { bakeDayId, revisionId } = await giveBakeDay(db, cast, { content })
  return { bakeDayId, revisionId, url: `/bake-days/${bakeDayId}`, ...opened(`/bake-days/${bakeDayId}`) }
}
const rowsOf = ({ page }: Page) => page.querySelectorAll(".bill-list tbody tr").map(wordsOf)
const thingsOf = ({ text }: Page) =>
  parse(text)
    .querySelectorAll(".shopping-list li")
    .map((item) => {
      for (const hidden of item.querySelectorAll("details, form")) hidden.remove()
      return wordsOf(item)
    })
const errorOf = ({ page }: Page, id: string) => wordsOf(page.querySelector(`[id="${id}-error"]`))
const setKitchen = (db: Db, userId: number, content: Kitchen) => db.insert(kitchens).values({ userId, content })
const noon = new Date("2026-11-14T12:00:00Z")

test("a student sees what to weigh in the order of need, with the times of their own day", async ({ db, cast }) => {
  const { bakeDayId, bill } = await day(db, cast)
  await keepPlan(db, bakeDayId, cast.ben.id, { onTableAt: noon, variant: "" })
  const page = await cast.ben.open(bill)
  expect(page.status).toBe(200)
  const rows = rowsOf(page)
  const names = page.page.querySelectorAll(".bill-name").map(wordsOf)
  expect(names).toEqual(["Levain", "Final dough", "On and around it"])
  expect(page.page.querySelectorAll(".bill-part").map(wordsOf)[0]).toMatch(
    /^Levain \d\d:\d\d .* · Feed the levain · makes 220 g · 198 g of it goes on/,
  )
  expect(rows).toContain("100 g bread flour")
  expect(rows).toContain("560 g now up to 30 g held back water the last by feel")
  expect(rows).toContain("198 g Levain made above")
  expect(rows).toContain(
    "–no amount known seeds a handful in the formula A handful of seeds has no fixed weight. Give the amount in grams.",
  )
  expect(rows.find((row) => row.startsWith("For 0.4 g a scale that shows every 1 g shows nothing. Stir"))).toBeDefined()
})

test("amounts follow the scale of the person's kitchen, or another that is chosen", async ({ db, cast }) => {
  const { bill } = await day(db, cast)
  await setKitchen(db, cast.ben.id, { scaleStepG: { value: 5, known: "measured", typed: "5 g" } })
  const own = await cast.ben.open(bill)
  expect(own.page.querySelector("#scale option[selected]")!.getAttribute("value")).toBe("5 g")
  expect(rowsOf(own)).toContain("200 g 198 g +2 g, 1 % Levain made above")
  const finer = await cast.ben.open(`${bill}?scale=0.1+g`)
  expect(rowsOf(finer)).toContain("0.4 g instant yeast")
  for (const odd of ["constructor", "%00", "7 kg"])
    expect((await cast.ben.open(`${bill}?scale=${odd}`)).status, odd).toBeLessThan(500)
})

test("whoever weighs in ounces gets pounds and eighths", async ({ db, cast }) => {
  const { bill, list } = await day(db, cast)
  await db.update(users).set({ massUnit: "oz" }).where(eq(users.id, cast.ben.id))
  // 890 g are 31.39 oz, 100 g 3.53
  const rows = rowsOf(await cast.ben.open(bill))
  expect(rows.find((row) => row.includes("strong white flour"))).toMatch(/^1 lb 15 3\/8 oz /)
  expect(rows.find((row) => row.includes("bread flour"))).toMatch(/^3 1\/2 oz /)
  // 990 g are 2 lb 2.9 oz
  expect(thingsOf(await cast.ben.open(list))[0]).toMatch(/^2 1\/4 lb 2 lb 2.9 oz bread flour/)
})

test("the person's way to make it, their pieces and their feeding are followed", async ({ db, cast }) => {
  const variants = [
    {
      ...{ key: "rye", name: "With rye", about: "", times: [] },
      swaps: [{ part: "dough", insteadOf: "salt", lines: [line("25 g", "salt")] }],
    },
  ]
  const { bakeDayId, bill } = await day(db, cast, { ...richer, variants, parts: tinLoaf.parts })
  const wishes = { pieces: 3, feeding: { starter: 1, flour: 10, water: 10 } }
  await keepPlan(db, bakeDayId, cast.ben.id, { onTableAt: noon, variant: "rye", wishes })
  const page = await cast.ben.open(bill)
  const rows = rowsOf(page)
  expect(wordsOf(page.page.querySelector(".lede"))).toContain("With rye")
  expect(rows.find((row) => row.includes("salt"))).toMatch(/^75 g salt/)
  // 660 g in 21 parts
  expect(rows.find((row) => row.includes("ripe starter"))).toMatch(/^31 g/)
  expect(wordsOf(page.page.querySelector(".bill-fed"))).toBe(
    "Your day feeds the levain 1 : 10 : 10, and the amounts here follow it.",
  )
})

test("one person's list has each thing once, without water, and what they said they have", async ({ db, cast }) => {
  const { list } = await day(db, cast)
  await setKitchen(db, cast.ben.id, { flours: "strong white; rye from the mill" })
  const page = await cast.ben.open(list)
  expect(page.status).toBe(200)
  expect(thingsOf(page)).toEqual([
    "1 kg 990 g bread flour you said you have it 890 g as strong white flour for final dough · 100 g for levain",
    "20 g salt",
    "1 g 0.4 g instant yeast",
    "–no amount known seeds “a handful”: A handful of seeds has no fixed weight. Give the amount in grams.",
    "1 egg 51 g egg on and around the dough",
    "20 g ripe starter",
  ])
  expect(page.text).toContain("Water is left out: 660–690 g, from the tap")
  expect(page.page.querySelectorAll(".shopping-bring")).toEqual([])
})

test("the class's list is for all its students with losses, and both can be changed", async ({ db, cast }) => {
  const { list } = await day(db, cast)
  const two = await cast.ana.open(list)
  expect(wordsOf(two.page.querySelector(".big"))).toMatch(/^For 2 people, one piece each .* of which 3 % are lost/)
  // 2 · 20 g / 0.97 and 10 · 2 · 20 g
  expect(thingsOf(two)[1]).toBe("45 g 41.2 g salt")
  const ten = await cast.ben.open(`${list}?for=class&people=10&pieces=2&loss=0`)
  expect(thingsOf(ten)[1]).toBe("400 g salt")
  expect(thingsOf(ten)[4]).toMatch(/^20 eggs/)
})

test("what cannot be read of it stays as typed, with why beside it", async ({ db, cast }) => {
  const { list } = await day(db, cast)
  const page = await cast.ben.open(`${list}?for=class&people=many&pieces=0&loss=90`)
  expect(page.status).toBe(200)
  expect(errorOf(page, "people")).toContain("whole number")
  expect(errorOf(page, "pieces")).toContain("whole number")
  expect(errorOf(page, "loss")).toBe("Give a percentage from 0 to 40.")
  expect(page.page.querySelector("#people")!.getAttribute("value")).toBe("many")
  for (const odd of [
    "for=dancing",
    "people[]=1&loss=%00",
    "for=class&variant=constructor",
    "people=9999&pieces=9999&loss=40",
  ])
    expect((await cast.ben.open(`${list}?${odd}`)).status, odd).toBeLessThan(500)
})

test("a formula in percent only says that it has no masses, and keeps its list", async ({ db, cast }) => {
  const lines = [line("100 %", "bread flour"), line("70 %", "water"), line("2 %", "salt")]
  const { list, bill } = await day(db, cast, { ...tinLoaf, pieces: "", parts: [{ ...dough!, lines }] })
  const page = await cast.ben.open(list)
  expect(wordsOf(page.page.querySelector(".big"))).toContain("Nothing gives the formula a mass")
  expect(thingsOf(page)[0]).toContain("bread flour “100 %”: It is a share of the flour")
  expect(wordsOf((await cast.ben.open(bill)).page.querySelector(".big"))).toContain("no total yet")
})

test("a student takes a thing, says how much, and gives it back", async ({ db, cast }) => {
  const { list, url } = await day(db, cast)
  const query = "for=class&people=9&pieces=1&loss=3"
  const taken = await cast.ben.submit(`${url}/bringings?${query}`, { thing: "Salt", amount: "" })
  expect([taken.status, taken.location]).toEqual([303, `${list}?${query}`])
  expect(thingsOf(await cast.bea.open(`${list}?for=class`))[1]).toContain("salt Ben: all of it")
  await cast.ben.submit(`${url}/bringings?${query}`, { thing: "salt", amount: "a <b>pinch</b>" })
  const mine = await cast.ben.open(`${list}?for=class`)
  expect(thingsOf(mine)[1]).toContain("salt You: a <b>pinch</b>")
  expect(mine.text).not.toContain("<b>pinch")
  const back = mine.page.querySelector(".shopping-brought form")!.getAttribute("action")!
  expect((await cast.bea.submit(back)).status).toBe(403)
  expect((await cast.ben.submit(back)).location).toBe(`${list}?for=class`)
  expect((await cast.ben.open(`${list}?for=class`)).page.querySelectorAll(".shopping-brought")).toEqual([])
})

test("the instructor takes a name off, an assistant may not", async ({ db, cast }) => {
  const { list, url } = await day(db, cast)
  await cast.bea.submit(`${url}/bringings`, { thing: "instant yeast", amount: "two packets" })
  await cast.asta.submit(`${url}/bringings`, { thing: "ripe starter", amount: "" })
  const seen = await cast.asta.open(list)
  expect(thingsOf(seen)[2]).toContain("Bea: two packets")
  expect(thingsOf(seen).at(-1)).toContain("ripe starter You: all of it")
  expect(seen.page.querySelectorAll(".shopping-brought form").length).toBe(1)
  const forms = (await cast.ana.open(list)).page.querySelectorAll(".shopping-brought form")
  expect(forms.map(wordsOf)).toEqual(["Take off Bea", "Take off Asta"])
  const off = forms[0]!.getAttribute("action")!
  expect((await cast.asta.submit(off)).status).toBe(403)
  expect((await cast.ana.submit(off)).status).toBe(303)
  expect((await cast.ana.submit(off)).status).toBe(404)
})

test("what is not on the list, or says too much, is refused where it was typed", async ({ db, cast }) => {
  const { url } = await day(db, cast)
  const gone = await cast.ben.submit(`${url}/bringings?for=class`, { thing: "caraway", amount: "a jar" })
  expect([gone.status, errorOf(gone, "thing")]).toEqual([
    422,
    "That is not on the list any more; take something that is.",
  ])
  const long = await cast.ben.submit(`${url}/bringings`, { thing: "salt", amount: "x".repeat(81) })
  expect(long.status).toBe(422)
  expect(long.text).toContain("Keep it under 80 characters.")
  expect(long.page.querySelector("details[open] input[name=amount]")!.getAttribute("value")).toBe("x".repeat(81))
})

test("somebody who has left the class brings nothing, and another formula keeps what was brought", async ({
  db,
  cast,
}) => {
  const { list, url } = await day(db, cast)
  await cast.ben.submit(`${url}/bringings`, { thing: "salt", amount: "" })
  await cast.bea.submit(`${url}/bringings`, { thing: "strong white flour", amount: "" })
  await cast.ben.submit(`/classes/${cast.classId}/leaving`)
  const page = await cast.ana.open(list)
  expect(page.page.querySelectorAll(".shopping-brought").map(wordsOf)).toEqual(["Bea: all of it Take off Bea"])
})

test("a stranger to the class finds nothing", async ({ db, cast }) => {
  const { bill, list, url } = await day(db, cast)
  for (const path of [bill, list]) expect((await cast.cleo.open(path)).status).toBe(404)
  expect((await cast.dan.submit(`${url}/bringings`, { thing: "salt" })).status).toBe(404)
})
