import fc from "fast-check"
import { expect, test } from "vitest"
import { sayTo } from "../../server/accounts/say.ts"
import { tinLoaf as demo, title as demoTitle } from "../../server/demo/tin-loaf.ts"
import { bringIn } from "../../server/exchange/bring-in.ts"
import { tableOf } from "../../server/exchange/csv-out.ts"
import { minutesOf } from "../../server/exchange/durations.ts"
import { asDataBlock, recipeOf } from "../../server/exchange/recipe-out.ts"
import { textOf } from "../../server/exchange/text-out.ts"
import type { FormulaContent } from "../../server/formulas/content.ts"
import { tinLoaf } from "../class-day.ts"
import { formulas } from "./generated.ts"

const published = (content: FormulaContent, title = "Any loaf") =>
  recipeOf({
    ...{ title, content, ownIngredients: [], number: 3, publishedAt: new Date("2026-11-20T18:00:00Z") },
    ...{ url: "https://bread.example/revisions/7", house: "https://bread.example" },
  })
const brought = (text: string) => {
  const result = bringIn(text, { measures: "us" })
  if ("problem" in result) throw new Error(result.problem)
  return result
}
const page = (content: FormulaContent, title?: string) =>
  `<!doctype html><html><body><p>Some page</p><script>if (1 < 2) {}</script><script type="application/ld+json">${asDataBlock(published(content, title))}</script></body></html>`

test("any formula comes back from its recipe data exactly, as a file and out of a page", () => {
  fc.assert(
    fc.property(formulas, (content) => {
      for (const file of [JSON.stringify(published(content)), page(content)]) {
        const back = brought(file)
        expect(back.kind).toBe("formula")
        expect(back.title).toBe("Any loaf")
        expect(back.content).toEqual(content)
      }
    }),
    { numRuns: 100, seed: 6 },
  )
})

test("every line stands in the recipe itself, with its part, for programs that know nothing of ours", () => {
  fc.assert(
    fc.property(formulas, (content) => {
      const { recipeIngredient, totalTime = "PT0S", prepTime = "PT0S", cookTime = "PT0S" } = published(content)
      const lines = [...content.parts.flatMap((part) => part.lines), ...content.finishing]
      expect(recipeIngredient).toHaveLength(lines.length)
      for (const [at, { quantity, ingredient, note }] of lines.entries())
        for (const words of [quantity, ingredient, note]) expect(recipeIngredient[at]).toContain(words)
      expect(minutesOf(totalTime)).toBeGreaterThanOrEqual(minutesOf(prepTime)! + minutesOf(cookTime)! - 1e-9)
    }),
    { numRuns: 60, seed: 7 },
  )
})

test("lines, parts and stages come back from the table, whatever they begin with", () => {
  const withoutKeys = ({ parts, stages, finishing, measures }: FormulaContent) => ({
    ...{ finishing, measures },
    parts: parts
      .filter(({ lines }) => lines.length)
      .map(({ goesInto, staysPercent, lines }) => [
        parts.some(({ key, lines }) => key === goesInto && lines.length),
        staysPercent,
        lines,
      ]),
    stages: stages.map(({ key: _, ...stage }) => stage),
  })
  fc.assert(
    fc.property(formulas, (content) => {
      const { parts, finishing, stages } = content
      fc.pre(parts.some(({ lines }) => lines.length) || finishing.length > 0 || stages.length > 0)
      const { kind, content: back } = brought(tableOf("Any loaf", content, []))
      expect(kind).toBe("table")
      expect(withoutKeys(back)).toEqual(withoutKeys(content))
    }),
    { numRuns: 100, seed: 8 },
  )
})

test.each([
  [demoTitle, demo],
  ["Tin loaf", tinLoaf],
])("%s comes back from its text with its parts, lines and stages", (title, content) => {
  const back = brought(textOf(title, content, sayTo(undefined)))
  expect(back.title).toBe(title)
  const told = ({ parts, finishing, stages, ...rest }: FormulaContent) => ({
    parts: parts.map(({ name, goesInto, staysPercent, lines }) => [
      name,
      parts.find(({ key }) => key === goesInto)?.name,
      staysPercent.replace(" %", ""),
      lines,
    ]),
    stages: stages.map(({ key: _, ...stage }) => stage),
    ...{ finishing, pieces: rest.pieces, pieceMass: rest.pieceMass, pan: rest.pan, measures: rest.measures },
  })
  expect(told(back.content)).toEqual(told(content))
  expect(back.content.about).toContain(content.about)
  expect(back.left).toEqual([])
})

test("a list that was changed after it left is read anew, and that is said", () => {
  const changed = published(tinLoaf)
  changed.recipeIngredient[0] = "150 g rye flour"
  const back = brought(JSON.stringify(changed))
  expect(back.kind).toBe("recipe")
  expect(back.remarks.join(" ")).toContain("changed after it left")
  expect(back.content.parts.flatMap(({ lines }) => lines)[0]).toMatchObject({
    quantity: "150 g",
    ingredient: "rye flour",
  })
})

test("a data block ends nothing but itself", () => {
  const content = { ...tinLoaf, about: "</script><script>alert(1)</script><!--" }
  expect(asDataBlock(published(content))).not.toContain("<")
  expect(brought(page(content)).content.about).toBe(content.about)
})
