import { expect, test } from "vitest"
import type { Range } from "../../server/dough/amounts.ts"
import { workOut } from "../../server/dough/formula/formula.ts"
import { formula, part } from "../dough/formula/writing.ts"

type Case = {
  what: string
  rows: string
  figure: "hydration" | "wholeHydration" | "wholeWater" | "formulaTotal" | "fat"
  expected: number
  tolerance: number
  source: string
  seen: "primary" | "secondary" | "memory"
  url?: string
}

const enriched = "500 g | bread flour\n200 g | whole milk\n100 g | eggs\n100 g | unsalted butter\n20 g | honey"
const brioche = "500 g | flour\n12.5 g | salt\n60 g | sugar\n250 g | salted butter\n45 g | water\n250 g | eggs"

const usda = {
  source: "water and fat by USDA National Nutrient Database for Standard Reference, Release 28",
  seen: "primary",
  url: "https://github.com/masilver99/SR28-PSQL",
} as const
const forum = {
  source: "brioche formula quoted on a baking forum from a professional textbook; water of egg and butter by USDA",
  seen: "secondary",
  url: "https://www.baking-forums.com/threads/hydration-in-bread.7689/",
} as const

const cases: Case[] = [
  {
    ...usda,
    what: "milk, eggs, butter and honey in 500 g flour, %",
    rows: enriched,
    figure: "wholeHydration",
    expected: 54.75,
    tolerance: 0.01,
  },
  {
    ...usda,
    what: "the same with nothing counted as water, %",
    rows: enriched,
    figure: "hydration",
    expected: 0,
    tolerance: 0,
  },
  {
    ...usda,
    what: "water in 200 g of whole milk, g",
    rows: "500 g | flour\n200 g | whole milk",
    figure: "wholeWater",
    expected: 176.26,
    tolerance: 0.005,
  },
  {
    ...usda,
    what: "water in 2 large eggs, g",
    rows: "500 g | flour\n100 g | eggs",
    figure: "wholeWater",
    expected: 76.15,
    tolerance: 0.005,
  },
  {
    ...usda,
    what: "fat of 100 g butter and 100 g egg on 500 g flour, %",
    rows: "500 g | flour\n100 g | unsalted butter\n100 g | eggs",
    figure: "fat",
    expected: (100 * 90.62) / 500,
    tolerance: 0.001,
  },
  {
    ...forum,
    what: "brioche, all percentages, %",
    rows: `${brioche}\n35 g | fresh yeast`,
    figure: "formulaTotal",
    expected: 230.5,
    tolerance: 1e-9,
  },
  // the source leaves the yeast's own water out
  {
    ...forum,
    what: "brioche, with eggs and butter, %",
    rows: brioche,
    figure: "wholeHydration",
    expected: 55,
    tolerance: 0.1,
  },
  { ...forum, what: "brioche, its water alone, %", rows: brioche, figure: "hydration", expected: 9, tolerance: 1e-9 },
]

test.each(cases)("$what: $source ($seen)", ({ rows, figure, expected, tolerance }) => {
  const figures = workOut(formula([part("dough", rows)]))
  const value = only(figures[figure]) * (figure === "wholeWater" ? 1 : 100)
  expect(Math.abs(value - expected)).toBeLessThanOrEqual(tolerance + 1e-12)
})

// 40 %: the figure of a baker who takes milk for water and forgets the rest.
test("milk counted as water is hydration as written, and still 88 % water in hydration with all water", () => {
  const dough = part("dough", "500 g | bread flour\n200 g | whole milk")
  dough.lines[1]!.countsAs = "water"
  const figures = workOut(formula([dough]))
  expect(only(figures.hydration)).toBeCloseTo(0.4, 12)
  expect(only(figures.wholeHydration)).toBeCloseTo(176.26 / 500, 12)
})

function only(range: Range | undefined) {
  expect(range?.low).toBe(range?.high)
  return range!.low
}
