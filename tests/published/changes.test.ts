import { expect, test } from "vitest"
import { applyChanges, type Change } from "../../server/dough/formula/changes.ts"
import { workOut } from "../../server/dough/formula/formula.ts"
import { formula, part } from "../dough/formula/writing.ts"

const untyped = { quantity: "", g: null }
const rescue = (quantity: string, instead: string): Change => ({
  ...{ kind: "added", partKey: "dough", ingredient: "", out: untyped },
  ...{ instead, in: { quantity, g: null } },
})
const percent = (range: { low: number } | undefined) => 100 * range!.low

/**
 * A home baker's country loaf that stayed liquid, with "804 g + 100 g" and "26 g + 100 g" in its list: 200 g of flour
 * went in while it was shaped. http://www.hungryshots.com/2015/07/overnight-country-bread.html (seen: secondary, our notes
 * of it). The percentages are by hand: 832.5 g of water on 1 061.5 g of flour as it was meant, on 1 261.5 g as it was made.
 */
test("rescue flour brings a liquid dough from 78.4 to 66.0 %", () => {
  const meant = formula([
    part("levain", "33 g | sourdough starter\n132 g | wheat flour\n33 g | whole wheat flour\n132 g | water", {
      goesInto: "dough",
    }),
    part("dough", "804 g | wheat flour\n26 g | whole wheat flour\n50 g | rye flour\n684 ml | water"),
  ])
  const rescued = applyChanges(meant, [rescue("100 g", "wheat flour"), rescue("100 g", "whole wheat flour")])

  expect(rescued.problems).toEqual([])
  expect(percent(workOut(meant).hydration)).toBeCloseTo(78.4, 1)
  expect(percent(workOut(rescued.formula).hydration)).toBeCloseTo(66.0, 1)
  expect(percent(workOut(rescued.formula).prefermented)).toBeCloseTo(14.4, 1)
})

/** By the definition of baker's percentage: what was never poured is 0 % of the flour, and the rest stays as it was. */
test("salt that was never poured is 0 %", () => {
  const loaf = formula([part("dough", "500 g | flour\n375 g | water\n10 g | salt")])
  const salt: Change = {
    ...{ kind: "left-out", partKey: "dough", ingredient: "salt", instead: "" },
    ...{ out: untyped, in: untyped },
  }
  const { salt: share, hydration, dough } = workOut(applyChanges(loaf, [salt]).formula)
  expect(percent(share)).toBe(0)
  expect(percent(hydration)).toBeCloseTo(75, 9)
  expect(dough!.low).toBeCloseTo(875, 9)
})
