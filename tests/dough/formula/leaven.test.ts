import { expect, test } from "vitest"
import { workOut } from "../../../server/dough/formula/formula.ts"
import { leavenOf } from "../../../server/dough/formula/leaven.ts"
import { formula, part } from "./writing.ts"

test.each([
  ["20 g | ripe starter", "sourdough"],
  ["5 g | instant yeast", "baker's yeast"],
  ["20 g | levain\n1 g | fresh yeast", "both"],
  ["20 g | ripe starter\n0 g | yeast", "sourdough"],
  ["10 g | baking powder", "none"],
  [" | ", "none"],
])("%j is %s", (row, leaven) => {
  const figures = workOut(formula([part("dough", `500 g | flour\n300 g | water\n${row}`)]))
  expect(leavenOf(figures)).toBe(leaven)
})

test("a line that only repeats a yeasted part called levain is no sourdough", () => {
  const levain = part("levain", "50 g | flour\n50 g | water\n1 g | yeast", { goesInto: "dough" })
  const figures = workOut(formula([levain, part("dough", "450 g | flour\n101 g | levain")]))
  expect(leavenOf(figures)).toBe("baker's yeast")
})
