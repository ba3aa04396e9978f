import { expect, test } from "vitest"
import { gramsPerOunce, gramsPerPound } from "../../server/dough/quantity/measures.ts"
import { readQuantity } from "../../server/dough/quantity/read.ts"
import { cToF, fToC } from "../../server/dough/units.ts"

test("the avoirdupois pound and ounce are exact (NIST Handbook 44, Appendix C)", () => {
  expect(gramsPerPound).toBe(453.59237)
  expect(gramsPerOunce).toBe(28.349523125)
})

test("1 3/4 oz are 0.11 lb (teaching slides Baker's Percentages, lean dough)", () => {
  const quantity = readQuantity("1 3/4 oz")
  expect(quantity.kind === "mass" && quantity.g.low / gramsPerPound).toBeCloseTo(0.11, 2)
})

/** Fixed points of both scales (NIST SP 811, Appendix B.8), and yeast's end, 140 °F (Home Baking Association). */
test.each([
  [32, 0],
  [212, 100],
  [-40, -40],
  [98.6, 37],
  [140, 60],
])("%d °F are %d °C", (f, c) => {
  expect(fToC(f)).toBeCloseTo(c, 10)
  expect(cToF(c)).toBeCloseTo(f, 10)
})
