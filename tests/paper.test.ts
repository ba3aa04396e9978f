import { cut, linesIn, page, stepFor } from "../server/paper/fit.ts"
import { giveBakeDay, tinLoaf } from "./class-day.ts"
import { bigFormula } from "./paper.ts"
import { expect, test } from "./test.ts"
import { wordsOf } from "./visitor.ts"

test("a formula's sheet has both units, half a batch, percentages, totals, and temperatures in both", async ({
  cast,
  db,
}) => {
  const { revisionId } = await giveBakeDay(db, cast)
  const { page } = await cast.ben.open(`/revisions/${revisionId}/sheet`)
  const rows = page.querySelectorAll(".paper-lines tr").map(wordsOf)
  expect(rows).toContain("bread flour89 %890 g1 lb 15.4 oz445 g15.7 oz")
  expect(rows).toContain("Levain all of it220 g7.8 oz110 g3.9 oz")
  expect(rows).toContain("All of the dough1720 g3 lb 12.7 oz860 g1 lb 14.3 oz")
  expect(wordsOf(page.querySelector(".paper-totals"))).toContain("Hydration 70 %")
  expect(wordsOf(page.querySelector(".paper-stages"))).toContain("Bulk4 h – 6 h10 min24 °C, 75.2 °F")
  expect(wordsOf(page.querySelector(".paper-mind"))).toContain("Taste nothing raw")
})

test("what has no grams stands as it was written, and half of it is said so", async ({ cast, db }) => {
  const line = { quantity: "a pinch", readAs: "", ingredient: "caraway", note: "", countsAs: "" as const }
  const content = { ...tinLoaf, finishing: [line] }
  const { revisionId } = await giveBakeDay(db, cast, { content })
  const { page } = await cast.ben.open(`/revisions/${revisionId}/sheet`)
  expect(page.querySelectorAll(".paper-lines tr").map(wordsOf)).toContain("carawaya pinchhalf of it")
})

test("one's own day has a name, its times, and a box for everything that is written down", async ({ cast, db }) => {
  const { bakeDayId } = await giveBakeDay(db, cast)
  const { page } = await cast.ben.open(`/bake-days/${bakeDayId}/sheet`)
  expect(wordsOf(page.querySelector(".paper-who"))).toContain("Name Ben")
  expect(page.querySelectorAll(".paper-log thead th").map(wordsOf).slice(2)).toEqual([
    ...["Began", "Ended", "Dough °C", "Room °C", "Rise", "Notes"],
  ])
  const rows = page.querySelectorAll(".paper-log tbody tr:not(.paper-date)")
  expect(rows.map((row) => row.querySelectorAll(".paper-box").length)).toEqual(tinLoaf.stages.map(() => 6))
  expect(wordsOf(rows[1]!)).toMatch(/^Bulk.*\d\d:\d\d – \d\d:\d\d/)
})

test("the wall's sheet has the class's schedule, and a row for each of its students alone", async ({ cast, db }) => {
  const { bakeDayId } = await giveBakeDay(db, cast)
  const { page } = await cast.asta.open(`/bake-days/${bakeDayId}/wall-sheet`)
  expect(page.querySelectorAll(".paper-grid tbody th").map(wordsOf)).toEqual(["Bea", "Ben"])
  expect(page.querySelectorAll(".paper-times li").map(wordsOf).at(-1)).toBe("18:00 On the table")
  const words = wordsOf(page.querySelector(".paper-wall"))
  for (const said of [
    "Dough 24 °C, 75.2 °F",
    "A dome just over the rim.",
    "bread flour 890 g (89 %)",
    "times in Lisbon",
  ])
    expect(words).toContain(said)
})

test("a formula too long for any page loses none of its lines, and says so before it is printed", async ({
  cast,
  db,
}) => {
  const parts = bigFormula.parts.map((part) => ({ ...part, lines: [...part.lines, ...part.lines, ...part.lines] }))
  const { revisionId } = await giveBakeDay(db, cast, { content: { ...bigFormula, parts } })
  const { page } = await cast.ana.open(`/revisions/${revisionId}/sheet`)
  expect(wordsOf(page.querySelector(".paper-hint"))).toContain("longer than one page")
  expect(page.querySelectorAll(".paper-lines tbody tr:not(.paper-part)").length).toBeGreaterThanOrEqual(22 * 3 + 3)
  expect(page.querySelector(".pt-7-5")).not.toBeNull()
})

test("the roomiest step that fits is taken, and the densest with a warning where none does", () => {
  expect(stepFor(({ pt }) => pt * 20)).toMatchObject({ pt: 11, overflows: false })
  expect(stepFor(({ pt }) => (pt > 8 ? page.heightMm + 1 : 10))).toMatchObject({ pt: 8, cue: 600, overflows: false })
  expect(stepFor(() => page.heightMm + 1)).toMatchObject({ pt: 7.5, cue: 0, overflows: true })
})

test.each([
  ["Domed and full of bubbles, at last", 20, "Domed and full of…"],
  ["Domed", 20, "Domed"],
  ["Domed, and full", 7, "Domed…"],
  ["Domed", 0, ""],
])("%j in %d letters is %j", (text, most, expected) => {
  expect(cut(text, most)).toBe(expected)
})

test("twice the type takes at least twice the lines", () => {
  const text = "slowly and only partly back ".repeat(8)
  expect(linesIn(text, 80, 14)).toBeGreaterThanOrEqual(2 * linesIn(text, 80, 7) - 1)
  expect(linesIn("", 80, 11)).toBe(1)
})
