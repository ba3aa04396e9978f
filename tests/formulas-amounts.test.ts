import { eq } from "drizzle-orm"
import { findFormula } from "../server/formulas/queries.ts"
import { bakes, users } from "../server/schema.ts"
import { giveBakeDay, tinLoaf } from "./class-day.ts"
import { expect, test } from "./test.ts"
import { wordsOf } from "./visitor.ts"

const line = (at: string, quantity: string, ingredient: string) => ({
  [`${at}.quantity`]: quantity,
  [`${at}.ingredient`]: ingredient,
})
const brioche = {
  title: "Brioche",
  measures: "us",
  "parts.0.key": "dough",
  "parts.0.name": "Dough",
  "parts.0.goesInto": "",
  ...line("parts.0.lines.0", "500 g", "bread flour"),
  ...line("parts.0.lines.1", "9 oz", "whole milk"),
  ...line("parts.0.lines.2", "2 large", "eggs"),
  ...line("parts.0.lines.3", "1/2 cup", "sugar"),
  ...line("finishing.0", "1", "egg"),
}
const idIn = (url: string) => Number(/\d+/.exec(url)![0])

test("an amount by count or volume has its grams beside it, and what they rest on", async ({ cast }) => {
  const { page } = await cast.ana.submit("/formulas", { ...brioche, change: "line:0" })
  expect(wordsOf(page.getElementById("share-0-2"))).toContain("100 g")
  expect(wordsOf(page.getElementById("share-0-3"))).toMatch(/100 g.*USDA/)
})

test("an amount that could mean two things is asked about, and kept as typed beside the answer", async ({
  cast,
  db,
}) => {
  const asked = await cast.ana.submit("/formulas", { ...brioche, change: "line:0" })
  const said = asked.page.getElementById("share-0-1")!
  expect(wordsOf(said.querySelector(".why"))).toMatch(/weight|fluid/)
  const button = said.querySelectorAll("button").find((one) => /fl/.test(one.getAttribute("value")!))!

  const answered = await cast.ana.submit("/formulas", { ...brioche, change: button.getAttribute("value")! })
  expect(answered.status).toBe(200)
  expect(answered.page.getElementById("parts.0.lines.1.quantity")?.getAttribute("value")).toBe("9 oz")
  const readAs = answered.page.getElementById("parts.0.lines.1.readAs")!.getAttribute("value")!
  expect(readAs).toMatch(/fl/)

  const { location } = await cast.ana.submit("/formulas", { ...brioche, "parts.0.lines.1.readAs": readAs })
  const { draft } = (await findFormula(db, idIn(location!)))!
  expect(draft.parts[0]!.lines[1]).toMatchObject({ quantity: "9 oz", readAs })
  expect(wordsOf((await cast.ana.open(location!)).page.querySelector(".formula"))).toContain(`9 oz taken as ${readAs}`)
})

test("cups are those of whoever writes", async ({ cast, db }) => {
  await db.update(users).set({ measures: "metric" }).where(eq(users.id, cast.ana.id))
  const { page } = await cast.ana.open("/formulas/new")
  expect(page.querySelector("#measures option[selected]")?.getAttribute("value")).toBe("metric")
})

test("pasted lines become rows, whichever button is pressed", async ({ cast, db }) => {
  const pasted = { ...brioche, "parts.0.pasted": "1 1/2 tsp salt\r\n\r\n250 g butter, soft" }
  const { page } = await cast.ana.submit("/formulas", { ...pasted, change: "paste" })
  expect(page.getElementById("parts.0.lines.4.ingredient")?.getAttribute("value")).toBe("salt")
  expect(page.getElementById("parts.0.pasted")?.text.trim()).toBe("")

  const { location } = await cast.ana.submit("/formulas", pasted)
  const { draft } = (await findFormula(db, idIn(location!)))!
  expect(draft.parts[0]!.lines.slice(4)).toMatchObject([
    { quantity: "1 1/2 tsp", ingredient: "salt" },
    { quantity: "250 g", ingredient: "butter" },
  ])
})

test("what goes on or around the dough is weighed but stands outside it", async ({ cast }) => {
  const { location } = await cast.ana.submit("/formulas", brioche)
  const plain = await cast.ana.submit("/formulas", { ...brioche, ...line("finishing.0", "", "") })
  const figures = async (url: string) => wordsOf((await cast.ana.open(url)).page.querySelector("dl.figures"))
  expect(await figures(location!)).toBe(await figures(plain.location!))
  expect(wordsOf((await cast.ana.open(location!)).page.querySelector(".formula"))).toMatch(/On and around it .*50 g/)
})

const white = {
  "variants.0.key": "white",
  "variants.0.name": "All white",
  "variants.0.about": "For a higher loaf.",
  "variants.0.swaps.0.insteadOf": "dough/whole milk",
  ...line("variants.0.swaps.0.lines.0", "250 g", "water"),
  "stages.0.key": "bulk1",
  "stages.0.kind": "bulk",
  "stages.0.name": "Bulk",
  "stages.0.lasts": "4 h",
  "variants.0.times.0.stageKey": "bulk1",
  "variants.0.times.0.lasts": "2–3 h",
}

test("another way to make a formula is written once, and every figure follows it", async ({ cast }) => {
  const { location } = await cast.ana.submit("/formulas", { ...brioche, ...white })
  const written = await cast.ana.open(location!)
  expect(wordsOf(written.page.querySelector(".ways"))).toBe("As written All white")

  const { page } = await cast.ana.open(`${location}?variant=white`)
  expect(wordsOf(page.querySelector(".formula"))).toContain("250 g 50 % water")
  expect(wordsOf(page.querySelector(".formula"))).not.toContain("whole milk")
  expect(wordsOf(page.querySelector(".stages"))).toContain("2 h – 3 h")
  const other = await cast.ana.open(`${location}?variant=nonsense`)
  expect(wordsOf(other.page.querySelector(".formula"))).toContain("whole milk")
})

test("another way may do without a stage", async ({ cast }) => {
  const bake = { "stages.1.key": "bake1", "stages.1.kind": "bake", "stages.1.name": "Bake", "stages.1.lasts": "25" }
  const { location } = await cast.ana.submit("/formulas", {
    ...{ ...brioche, ...white, ...bake },
    "variants.0.times.0.lasts": "none",
  })
  expect(wordsOf((await cast.ana.open(`${location}?variant=white`)).page.querySelector(".stages"))).not.toContain(
    "Bulk",
  )
  const { page } = await cast.ana.open(`${location}/edit`)
  expect(page.getElementById("variants.0.times.0.lasts")?.getAttribute("value")).toBe("none")
  expect(page.getElementById("variants.0.times.1.lasts")?.getAttribute("value")).toBe("")
})

test("a swap whose line was renamed is kept, and says so", async ({ cast }) => {
  const renamed = { ...brioche, ...white, ...line("parts.0.lines.1", "250 g", "warm milk") }
  const { page } = await cast.ana.submit("/formulas", { ...renamed, change: "line:0" })
  expect(wordsOf(page.getElementById("variants.0"))).toContain("whole milk is no longer in Dough")
  expect(wordsOf(page.getElementById("variants.0"))).toContain("whole milk: no longer there")
})

test("a formula is not published while a swap of it has lost its line", async ({ cast }) => {
  const renamed = { ...brioche, ...white, ...line("parts.0.lines.1", "250 g", "warm milk") }
  const { location } = await cast.ana.submit("/formulas", renamed)
  const { status, page } = await cast.ana.submit(`${location}/revisions`)
  expect(status).toBe(422)
  expect(wordsOf(page.getElementById("publish-error"))).toBe("All white: whole milk is no longer in Dough.")
})

test("an amount of a swap is asked about beside it, and its answer kept", async ({ cast, db }) => {
  const doubtful = { ...brioche, ...white, ...line("variants.0.swaps.0.lines.0", "9 oz", "oat milk") }
  const { page } = await cast.ana.submit("/formulas", { ...doubtful, change: "line:0" })
  const said = page.getElementById("share-swap-0-0-0")!
  expect(wordsOf(said.querySelector(".why"))).toMatch(/weight|fluid/)

  const change = said.querySelector("button")!.getAttribute("value")!
  const answered = await cast.ana.submit("/formulas", { ...doubtful, change })
  const readAs = answered.page.getElementById("variants.0.swaps.0.lines.0.readAs")!.getAttribute("value")!
  const { location } = await cast.ana.submit("/formulas", { ...doubtful, "variants.0.swaps.0.lines.0.readAs": readAs })
  const { draft } = (await findFormula(db, idIn(location!)))!
  expect(draft.variants[0]!.swaps[0]!.lines[0]).toMatchObject({ quantity: "9 oz", readAs })
})

test("what is wrong with another way is said beside its field", async ({ cast }) => {
  const wrong = { "variants.0.name": "", "variants.0.swaps.0.insteadOf": "", "variants.0.times.0.lasts": "a while" }
  const { status, page } = await cast.ana.submit("/formulas", { ...brioche, ...white, ...wrong })
  expect(status).toBe(422)
  expect(wordsOf(page.getElementById("variants.0.name-error"))).toMatch(/name/)
  expect(wordsOf(page.getElementById("variants.0.swaps.0.insteadOf-error"))).toMatch(/Choose/)
  expect(wordsOf(page.getElementById("variants.0.times.0.lasts-error"))).toMatch(/Give a time/)
})

const butterLoaf = {
  ...tinLoaf,
  variants: [
    {
      ...{ key: "yeast", name: "With yeast", about: "In an afternoon." },
      swaps: [
        {
          ...{ part: "levain", insteadOf: "" },
          lines: [{ quantity: "5 g", readAs: "", ingredient: "instant yeast", note: "", countsAs: "" as const }],
        },
      ],
      times: [{ stageKey: "bulk", lowMin: 60, highMin: 60 }],
    },
  ],
}

test("a student picks a way to make it, and day and bake follow", async ({ cast, db }) => {
  const { bakeDayId } = await giveBakeDay(db, cast, { content: butterLoaf })
  const url = `/bake-days/${bakeDayId}`
  const begins = async () => wordsOf((await cast.ben.open(url)).page.querySelector(".schedule .when"))
  const plan = (await cast.ben.open(url)).page.querySelector("#day")!.getAttribute("value")!
  await cast.ben.submit(`${url}/plan`, { day: plan, time: "18:00", variant: "" })
  const asWritten = await begins()
  await cast.ben.submit(`${url}/plan`, { day: plan, time: "18:00", variant: "yeast" })
  expect(await begins()).not.toBe(asWritten)
  expect(wordsOf((await cast.ben.open(url)).page.querySelector(".formula"))).toContain("instant yeast")

  const { location } = await cast.ben.submit(`${url}/bakes`)
  const bake = await db.query.bakes.findFirst({ where: eq(bakes.userId, cast.ben.id) })
  expect(bake?.variant).toBe("yeast")
  expect(wordsOf((await cast.ben.open(location!)).page.querySelector("main"))).toContain("With yeast")
  expect((await cast.ben.submit(`${url}/plan`, { day: plan, time: "18:00", variant: "none" })).status).toBe(422)
})
