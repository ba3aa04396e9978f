import { eq } from "drizzle-orm"
import type { Db } from "../server/db.ts"
import type { FormulaContent } from "../server/formulas/content.ts"
import { addFormula } from "../server/formulas/queries.ts"
import { users } from "../server/schema.ts"
import type { Cast } from "./cast.ts"
import { giveBakeDay, tinLoaf } from "./class-day.ts"
import { expect, test } from "./test.ts"
import { type Page, wordsOf } from "./visitor.ts"

const asked = (query: Record<string, string>) => `scale?${new URLSearchParams(query)}`
const sizeOf = ({ page }: Page) => wordsOf(page.querySelector(".big"))
const errorOf = ({ page }: Page, field: string) => wordsOf(page.querySelector(`[id="${field}-error"]`))
/** The lines of the list in words: what to weigh first, then the ingredient. */
const linesOf = ({ page }: Page) => page.querySelectorAll(".list tbody tr").map(wordsOf)
const line = (quantity: string, ingredient: string) => ({ ...tinLoaf.parts[1]!.lines[0]!, quantity, ingredient })

/** A formula of ana's, the tin loaf but for these changes. */
async function formulaOf(db: Db, cast: Cast, changes: Partial<FormulaContent>) {
  return `/formulas/${await addFormula(db, cast.ana.id, { title: "Seeded rye", content: { ...tinLoaf, ...changes } })}`
}
const oneDough = (...lines: ReturnType<typeof line>[]) => ({ parts: [{ ...tinLoaf.parts[1]!, lines }] })
/** 500 g flour with a pinch of yeast. */
const pinch = oneDough(line("500 g", "bread flour"), line("350 g", "water"), line("0.3 g", "instant yeast"))

test("before anything is typed the list is the formula's own", async ({ db, cast }) => {
  const { formulaId } = await giveBakeDay(db, cast)
  const page = await cast.ana.open(`/formulas/${formulaId}/scale`)
  expect(page.status).toBe(200)
  expect(sizeOf(page)).toBe("1720 g of dough 1 × 1720 g · the formula as it is")
  expect(linesOf(page)).toEqual([
    "Levain makes 220 g",
    "100 g bread flour",
    "100 g water",
    "20 g ripe starter",
    "Final dough makes 1720 g",
    "890 g bread flour",
    "590 g water",
    "20 g salt",
    "220 g Levain made above, all of it",
  ])
})

test("a student doubles the class's formula", async ({ db, cast }) => {
  const { revisionId } = await giveBakeDay(db, cast)
  const page = await cast.ben.open(`/revisions/${revisionId}/${asked({ by: "times", times: "2" })}`)
  expect(sizeOf(page)).toBe("3440 g of dough 2 × 1720 g · 2 × the formula")
  expect(linesOf(page)).toContain("1780 g bread flour 890 g in the formula")
  expect(page.text).toContain("Have 40 g of ripe starter ready")
})

test.for<[string, Record<string, string>, string]>([
  ["a mass of dough", { by: "dough", dough: "860 g" }, "860 g of dough"],
  ["a mass of flour", { by: "flour", flour: "2 kg" }, "3440 g of dough"],
  ["pieces", { by: "pieces", "pieces.count": "4", "pieces.each": "430" }, "1720 g of dough 4 × 430 g"],
  [
    "pieces once baked",
    { by: "baked", "baked.count": "2", "baked.each": "800 g", "baked.loss": "20 %" },
    "2000 g of dough 2 × 1000 g, 800 g each once baked",
  ],
  // 2 · 20 · 10 · 9 cm³ · half full / 1.2 ml
  [
    "a pan to fill",
    { by: "pan", "pan.count": "2", "pan.shape": "rectangle", "pan.size": "20 × 10 × 9 cm", "pan.full": "50" },
    "1500 g of dough 2 × 750 g, one for each pan",
  ],
  [
    "another pan of half the size",
    {
      by: "pans",
      "from.shape": "square",
      "from.size": "20 × 8 cm",
      "to.shape": "rectangle",
      "to.size": "20 × 10 × 8 cm",
    },
    "860 g of dough",
  ],
  [
    "another pan of a quarter of the bottom",
    { by: "pans", "from.size": "24 cm", "to.size": "12 cm", compare: "area" },
    "430 g of dough",
  ],
])("%s", async ([, query, size], { db, cast }) => {
  const { revisionId } = await giveBakeDay(db, cast)
  expect(sizeOf(await cast.ben.open(`/revisions/${revisionId}/${asked(query)}`))).toContain(size)
})

test("what a size takes for granted is said with its source", async ({ db, cast }) => {
  const { revisionId } = await giveBakeDay(db, cast)
  const baked = { by: "baked", "baked.count": "1", "baked.each": "900 g", "baked.loss": "12" }
  expect((await cast.ben.open(`/revisions/${revisionId}/${asked(baked)}`)).text).toMatch(
    /1000–1034 g as dough \(Gisslen/,
  )
  const pan = { by: "pan", "pan.size": "20 × 10 × 9 cm" }
  expect((await cast.ben.open(`/revisions/${revisionId}/${asked(pan)}`)).text).toContain("would be 750–900 g")
})

test("a class gets the list for one and for all, losses included", async ({ db, cast }) => {
  const { revisionId } = await giveBakeDay(db, cast)
  const page = await cast.ben.open(
    `/revisions/${revisionId}/${asked({ by: "class", "class.people": "10", "class.loss": "2" })}`,
  )
  expect(sizeOf(page)).toContain("17551 g of dough 10 × 1720 g")
  expect(linesOf(page)).toContain("908 g 908.2 g 9082 g 9081.6 g bread flour 890 g in the formula")
  expect(page.text).toContain("Each of the 10 mixes 1755 g, of which 1720 g are left")
  expect(page.text).toContain("204 g of ripe starter ready, 20 g for each")
})

test("a scale too coarse for the yeast says so, and how to weigh it by way of water", async ({ db, cast }) => {
  const url = await formulaOf(db, cast, pinch)
  const coarse = await cast.ana.open(`${url}/${asked({ scale: "1 g" })}`)
  expect(linesOf(coarse)).toContain("too little 0.3 g instant yeast")
  expect(linesOf(coarse)).toContain(
    "For 0.3 g a scale that shows every 1 g shows nothing. Stir 3 g into 197 g of the water and use 20 g of that, and 20 g less water: right to within 19 %.",
  )
  const fine = await cast.ana.open(`${url}/${asked({ scale: "0.01 g" })}`)
  expect(linesOf(fine)).toContain("0.30 g instant yeast")
  expect(fine.page.querySelectorAll(".list .rests")).toEqual([])
})

test("rounding that matters is said with its share", async ({ db, cast }) => {
  const { revisionId } = await giveBakeDay(db, cast)
  const page = await cast.ben.open(`/revisions/${revisionId}/${asked({ by: "times", times: "1.1", scale: "5 g" })}`)
  expect(linesOf(page)).toContain("110 g bread flour 100 g in the formula")
  expect(linesOf(page)).toContain("20 g 22 g −2 g, 9.1 % salt 20 g in the formula")
})

test("ranges, what stays in a jar, what goes on top and what has no amount keep their place", async ({ db, cast }) => {
  const [levain, dough] = tinLoaf.parts
  const url = await formulaOf(db, cast, {
    parts: [
      { ...levain!, staysPercent: "10" },
      { ...dough!, lines: [...dough!.lines, line("10–20 g", "oil"), line("some", "seeds")] },
    ],
    finishing: [line("10 g", "sesame")],
  })
  const page = await cast.ana.open(`${url}/${asked({ by: "flour", flour: "1978 g" })}`)
  expect(sizeOf(page)).toContain("1978 g of flour")
  expect(linesOf(page)).toEqual(
    expect.arrayContaining([
      "Levain makes 440 g · 396 g of it goes on, the rest stays in its jar",
      "396 g Levain made above",
      "20–40 g oil 10–20 g in the formula",
      "20 g sesame 10 g in the formula",
      "–no amount known seeds some in the formula",
    ]),
  )
  expect(page.text).toContain("not brought to this size: seeds.")
})

test("a formula in percent asks for a mass, and then has all of them", async ({ db, cast }) => {
  const url = await formulaOf(db, cast, {
    ...oneDough(line("100 %", "bread flour"), line("70 %", "water"), line("2 %", "salt")),
    pieces: "",
  })
  expect(sizeOf(await cast.ana.open(`${url}/scale`))).toBe("Not yet Give a mass, such as 2 kg or 4 lb.")
  const page = await cast.ana.open(`${url}/${asked({ by: "dough", dough: "1.72 kg" })}`)
  expect(linesOf(page)).toContain("1000 g bread flour 100 % in the formula")
  expect(sizeOf(await cast.ana.open(`${url}/${asked({ by: "times" })}`))).toContain(
    "Not yet Nothing gives the formula a mass",
  )
})

test("another way to make it is followed, and named", async ({ db, cast }) => {
  const url = await formulaOf(db, cast, {
    variants: [
      {
        ...{ key: "rye", name: "Half rye", about: "", times: [] },
        swaps: [
          {
            part: "dough",
            insteadOf: "bread flour",
            lines: [line("500 g", "rye flour"), line("400 g", "bread flour")],
          },
        ],
      },
    ],
  })
  const page = await cast.ana.open(`${url}/${asked({ variant: "rye", by: "times", times: "2" })}`)
  expect(linesOf(page)).toContain("1000 g rye flour 500 g in the formula")
  expect(wordsOf(page.page.querySelector(".lede"))).toContain("Half rye")
  expect(page.page.querySelector("#variant option[selected]")!.getAttribute("value")).toBe("rye")
  expect(page.page.querySelector(".lede a")!.getAttribute("href")).toBe(`${url}?variant=rye`)
})

test("what cannot be read stays as typed, with why beside it", async ({ db, cast }) => {
  const { revisionId } = await giveBakeDay(db, cast)
  const wrong = {
    by: "baked",
    "baked.count": "2.5",
    "baked.each": "<much>",
    "baked.loss": "70",
    "fit.piece": "7",
    dough: "2 kg",
  }
  const page = await cast.ben.open(`/revisions/${revisionId}/${asked(wrong)}`)
  expect(page.status).toBe(200)
  expect(sizeOf(page)).toContain("Not yet")
  expect(errorOf(page, "baked.count")).toContain("whole number")
  expect(errorOf(page, "baked.each")).toBe("Give a mass, such as 2 kg or 4 lb.")
  expect(errorOf(page, "baked.loss")).toBe("Give a percentage from 0 to 40.")
  expect(errorOf(page, "fit.piece")).toContain("with its unit")
  expect(errorOf(page, "fit.size")).toContain("across × height")
  expect(page.page.querySelector('[id="baked.each"]')!.getAttribute("value")).toBe("<much>")
  expect(page.text).not.toContain("<much>")
  expect(page.page.querySelector("#dough")!.getAttribute("value")).toBe("2 kg")
})

test.for<[string, Record<string, string>, string, string]>([
  ["two numbers in one", { by: "dough", dough: "1,200 g" }, "dough", "1200 or 1.2"],
  ["a range", { by: "dough", dough: "1–2 kg" }, "dough", "one mass"],
  ["eggs", { by: "flour", flour: "3 eggs" }, "flour", "Give a mass"],
  ["no times at all", { by: "times", times: "0" }, "times", "how many times"],
  ["a pan without height", { by: "pan", "pan.size": "20 × 10 cm" }, "pan.size", "height too"],
  ["the rim and the bottom swapped", { by: "pans", "from.size": "20/24 × 5 cm" }, "from.size", "rim first"],
  [
    "pieces the size of a grain",
    { "fit.piece": "1 mm", "fit.gap": "0", "fit.size": "26 cm" },
    "fit.piece",
    "check the units",
  ],
])("%s is asked about", async ([, query, field, error], { db, cast }) => {
  const { revisionId } = await giveBakeDay(db, cast)
  expect(errorOf(await cast.ben.open(`/revisions/${revisionId}/${asked(query)}`), field)).toContain(error)
})

test("a field that is only blank is asked for without an alarm", async ({ db, cast }) => {
  const { revisionId } = await giveBakeDay(db, cast)
  const page = await cast.ben.open(`/revisions/${revisionId}/${asked({ by: "class" })}`)
  expect(sizeOf(page)).toContain("Not yet Give how many people")
  expect(page.page.querySelectorAll(".error")).toEqual([])
})

test("whoever weighs in ounces is asked and answered in ounces, and may still type grams", async ({ db, cast }) => {
  const { revisionId } = await giveBakeDay(db, cast)
  await db.update(users).set({ massUnit: "oz" }).where(eq(users.id, cast.ben.id))
  const first = await cast.ben.open(`/revisions/${revisionId}/scale`)
  expect(first.page.querySelector("#dough")!.getAttribute("value")).toBe("60.7")
  expect(first.page.querySelector("#scale option[selected]")!.getAttribute("value")).toBe("0.1 oz")
  // 860 g are 30.3 oz, and 445 g of flour 15.7
  const page = await cast.ben.open(`/revisions/${revisionId}/${asked({ by: "dough", dough: "860 g" })}`)
  expect(sizeOf(page)).toContain("1 lb 14.3 oz of dough")
  expect(linesOf(page)).toContain("15.7 oz bread flour 890 g in the formula")
  const bare = await cast.ben.open(`/revisions/${revisionId}/${asked({ by: "dough", dough: "32" })}`)
  expect(sizeOf(bare)).toContain("2 lb of dough")
})

test("how many pieces fit is counted, drawn and said", async ({ db, cast }) => {
  const { revisionId } = await giveBakeDay(db, cast)
  const query = { by: "pieces", "pieces.count": "16", "fit.piece": "6 cm", "fit.gap": "2 cm", "fit.size": "24 × 5 cm" }
  const page = await cast.ben.open(`/revisions/${revisionId}/${asked(query)}`)
  // seven circles fill one three times as wide
  expect(wordsOf(page.page.querySelector("figcaption"))).toMatch(
    /^7 pieces fit, pieces of 6 cm, 2 cm apart.*The 16 of this dough need 3 such pans.*proof/,
  )
  expect(page.page.querySelectorAll("svg .lies").length).toBe(7)
  expect(page.page.querySelector("figure svg")!.getAttribute("aria-label")).toContain("7 pieces fit")
  const none = await cast.ben.open(`/revisions/${revisionId}/${asked({ ...query, "fit.piece": "30 cm" })}`)
  expect(wordsOf(none.page.querySelector("figcaption"))).toContain("Not one fits")
})

test("odd addresses break nothing", async ({ db, cast }) => {
  const { revisionId } = await giveBakeDay(db, cast)
  for (const query of [
    "by=dancing",
    "by=constructor&scale=toString",
    "by=pan&pan.shape=star&pan.size=%F0%9F%8D%9E",
    "by=times&times=99999999999999999999",
    "by=dough&dough=1&dough=0.0000001",
    "by=class&class.people=9999&class.loss=39",
    "dough[]=1&variant[x]=y&variant=none",
    "fit.piece=0.001+cm&fit.size=0+cm&fit.gap=-1",
  ])
    expect((await cast.ben.open(`/revisions/${revisionId}/scale?${query}`)).status, query).toBe(200)
})

test("cleo finds nothing", async ({ db, cast }) => {
  const { revisionId, formulaId } = await giveBakeDay(db, cast)
  expect((await cast.cleo.open(`/revisions/${revisionId}/scale`)).status).toBe(404)
  expect((await cast.cleo.open(`/formulas/${formulaId}/scale`)).status).toBe(404)
})
