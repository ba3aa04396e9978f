import { eq } from "drizzle-orm"
import { findBake } from "../server/bakes/queries.ts"
import type { Db } from "../server/db.ts"
import type { FormulaContent } from "../server/formulas/content.ts"
import { bakes, users } from "../server/schema.ts"
import { error, idIn, started } from "./bench.ts"
import type { Cast } from "./cast.ts"
import { giveBakeDay, tinLoaf } from "./class-day.ts"
import { expect, test } from "./test.ts"
import { type Page, wordsOf } from "./visitor.ts"

const line = (quantity: string, ingredient: string) => ({ ...tinLoaf.parts[0]!.lines[0]!, quantity, ingredient })

/** Seeded rye for twelve small tins, 90 g each, of which one may be off by 5 g. */
const smallTins: FormulaContent = {
  ...tinLoaf,
  parts: [
    {
      ...{ key: "dough", name: "Dough", goesInto: "", staysPercent: "" },
      lines: [line("100 %", "rye flour"), line("70 %", "water"), line("2 %", "salt")],
    },
  ],
  ...{ pieces: "12", pieceMass: "90 g", pieceTolerance: "± 5 g" },
}

async function dividing(db: Db, cast: Cast, content = smallTins) {
  const { bakeDayId } = await giveBakeDay(db, cast, { content })
  const { location } = await cast.ben.submit(`/bake-days/${bakeDayId}/bakes`)
  return { bakeDayId, url: location!, id: idIn(location!) }
}

const pieces = ({ page }: Page) => wordsOf(page.querySelector("#pieces"))
const field = ({ page }: Page) => page.querySelector("#pieceMasses")?.textContent

test("the masses of the pieces are kept as typed, and their spread shown against what the formula allows", async ({
  db,
  cast,
}) => {
  const { id, url } = await dividing(db, cast)
  const answer = await cast.ben.submit(`${url}/pieces`, { pieceMasses: "92, 88\r\n95 97 84 90" })

  expect([answer.status, answer.location]).toEqual([303, `${url}#pieces`])
  expect(await findBake(db, id)).toMatchObject({
    pieceMassesG: [92, 88, 95, 97, 84, 90],
    pieceMassesTyped: "92, 88\n95 97 84 90 g",
  })
  const page = await cast.ben.open(url)
  expect(pieces(page)).toContain("Weighed6 of 12")
  expect(pieces(page)).toContain("Median91 g")
  expect(pieces(page)).toContain("Spread84–97 g")
  expect(pieces(page)).toContain("Outside2")
  expect(pieces(page)).toMatch(/97 g, heavy.*84 g, light/s)
  expect(page.page.querySelector("#pieces svg")?.getAttribute("aria-label")).toBe(
    "6 pieces, 84–97 g, median 91 g, 2 outside 85–95 g.",
  )
  expect(page.page.querySelectorAll("#pieces svg .outside")).toHaveLength(2)
  expect(page.page.querySelectorAll("#pieces svg .piece")).toHaveLength(4)
})

test.for([
  ["a word", "92 88 ninety", "88 ninety: give the mass of one piece"],
  ["nothing", "92 0", "0: that is too little for a piece of dough"],
  ["a slip of unit", "92000", "92000: that is too much for a piece of dough"],
  ["a doubtful comma", "92,88", "Is 92,88 one piece or several?"],
  ["too many", Array(201).fill("90").join(" "), "That is 201 pieces; up to 200 are kept."],
  ["too long a text", "90 ".repeat(700), "Keep it under 2000 characters."],
] as const)("%s is refused beside the field, and what was typed stays", async ([, typed, words], { db, cast }) => {
  const { id, url } = await dividing(db, cast)
  const answer = await cast.ben.submit(`${url}/pieces`, { pieceMasses: typed })
  expect(answer.status).toBe(422)
  expect(error(answer, "pieceMasses")).toContain(words)
  expect(field(answer)).toBe(typed)
  expect((await findBake(db, id))!.pieceMassesG).toEqual([])
})

test("a classmate who weighs in ounces reads them so; saving them again in other units changes nothing", async ({
  db,
  cast,
}) => {
  const { id, url } = await dividing(db, cast)
  await cast.ben.submit(`${url}/pieces`, { pieceMasses: "92 88 95" })
  await db.update(users).set({ massUnit: "oz" })

  expect(pieces(await cast.bea.open(url))).toContain("Spread3.1–3.4 oz")
  const page = await cast.asta.open(url)
  expect(field(page)).toBe("92 88 95 g")
  await cast.asta.submit(`${url}/pieces`, { pieceMasses: field(page)! })
  expect((await findBake(db, id))!.pieceMassesG).toEqual([92, 88, 95])
  await cast.asta.submit(`${url}/pieces`, { pieceMasses: "92 88 96 g" })
  expect((await findBake(db, id))!.pieceMassesG).toEqual([92, 88, 96])
})

test("blank takes the masses back", async ({ db, cast }) => {
  const { id, url } = await dividing(db, cast)
  await cast.ben.submit(`${url}/pieces`, { pieceMasses: "92 88 95" })
  await cast.ben.submit(`${url}/pieces`, { pieceMasses: " " })
  expect(await findBake(db, id)).toMatchObject({ pieceMassesG: [], pieceMassesTyped: "" })
  expect((await cast.ben.open(url)).page.querySelector("#pieces svg")).toBeNull()
})

test("the form waits, open, where the dough is being divided", async ({ db, cast }) => {
  const { url } = await dividing(db, cast)
  const isOpen = async () => (await cast.ben.open(url)).page.querySelector("#pieces details[open] form") !== null
  expect(await isOpen()).toBe(false)
  await cast.ben.submit(`${url}/marks`, { stageKey: "shape", action: "start" })
  expect(await isOpen()).toBe(true)
  await cast.ben.submit(`${url}/pieces`, { pieceMasses: "92 88 95" })
  expect(await isOpen()).toBe(false)
})

test("a dough that stays whole asks for no pieces, and none weighed shows classmates nothing", async ({ db, cast }) => {
  const { url } = await started(db, cast)
  expect((await cast.ben.open(url)).page.querySelector("#pieces")).toBeNull()
  const divided = await dividing(db, cast)
  expect((await cast.bea.open(divided.url)).page.querySelector("#pieces")).toBeNull()
})

test("without a tolerance in the formula no piece is called light or heavy; two are too few for a median", async ({
  db,
  cast,
}) => {
  const { url } = await dividing(db, cast, { ...smallTins, pieceTolerance: "" })
  await cast.ben.submit(`${url}/pieces`, { pieceMasses: "40, 140" })
  const shown = pieces(await cast.ben.open(url))
  expect(shown).toContain("Spread40–140 g")
  expect(shown).not.toMatch(/Outside|light|heavy|Median/)
})

test("the table says from what to what they weigh, once somebody weighed", async ({ db, cast }) => {
  const { bakeDayId, url } = await dividing(db, cast)
  const numbers = async () =>
    wordsOf((await cast.bea.open(`/bake-days/${bakeDayId}/table`)).page.querySelector(".numbers"))
  expect(await numbers()).not.toContain("Pieces")
  await cast.ben.submit(`${url}/pieces`, { pieceMasses: "92 88 95" })
  expect(await numbers()).toContain("3 × 88–95 g")
})

test("classmates may not weigh somebody's pieces, strangers to the class find nothing", async ({ db, cast }) => {
  const { id, url } = await dividing(db, cast)
  const weigh = { pieceMasses: "92 88 95" }
  expect((await cast.bea.submit(`${url}/pieces`, weigh)).status).toBe(403)
  expect((await cast.cleo.submit(`${url}/pieces`, weigh)).status).toBe(404)
  expect((await db.query.bakes.findFirst({ where: eq(bakes.id, id) }))?.pieceMassesG).toEqual([])
})
