import { describe, expect, test } from "vitest"
import { bases, basesInPart } from "../../../server/dough/formula/bases.ts"
import { workOut } from "../../../server/dough/formula/formula.ts"
import type { WrittenFormula, WrittenPart } from "../../../server/dough/formula/written.ts"
import type { Ingredient } from "../../../server/dough/ingredients/ingredient.ts"
import { exactly, formula, lines, part, range } from "./writing.ts"

const figures = (parts: WrittenPart[], more: Partial<WrittenFormula> = {}) => workOut(formula(parts, more))

describe("what is inside the ingredients", () => {
  const worked = figures([
    part("dough", "500 g | bread flour\n250 g | whole milk\n100 g | salted butter\n50 g | sugar\n8 g | salt"),
  ])

  test("water in milk and butter counts beside hydration as written", () => {
    expect(worked).toMatchObject({ hydration: exactly(0), wholeWater: exactly(2.5 * 88.13 + 15.87 + 0.01) })
    expect(worked.wholeHydration).toEqual(exactly((2.5 * 88.13 + 15.87 + 0.01) / 500))
  })

  test("salted butter and milk bring salt", () => {
    expect(worked.salt).toEqual(exactly(8 / 500))
    expect(worked.wholeSalt!.low).toBeCloseTo((8 + 1.6075 + 2.5 * 0.1075) / 500, 3)
  })

  test("fat and sugar are of the flour, flour's own left out", () => {
    expect(worked.fat).toEqual(exactly((81.11 + 2.5 * 3.25) / 500))
    expect(worked.sugar!.low).toBeCloseTo((0.06 + 2.5 * 5.05 + 49.9) / 500, 9)
  })

  test("the formula's total is the factor between flour and dough", () => {
    expect(worked.formulaTotal).toEqual(exactly(908 / 500))
  })

  test("each line says what it was taken for", () => {
    expect(worked.parts[0]!.lines[1]!.ingredient).toEqual({
      slug: "milk-whole-3.25",
      name: expect.any(String),
      role: "liquid",
    })
  })
})

test("what nobody knows is left out by name, and the figures are then the least", () => {
  const worked = figures([part("dough", "500 g | flour\n200 g | water\n100 g | lemon curd\n0 g | moon dust")])
  expect(worked.leftOut).toEqual({
    wholeHydration: ["lemon curd"],
    wholeSalt: ["lemon curd"],
    fat: ["lemon curd"],
    sugar: ["lemon curd"],
  })
  expect(worked.wholeHydration).toEqual(exactly(0.4))
  expect(worked.cannot).toEqual([
    "Hydration with all water, all salt, fat and sugar leave out lemon curd, whose water, salt, fat and sugar are not known: take what is shown as the least.",
  ])
})

test("an ingredient of one's own brings what one says of it", () => {
  const curd: Ingredient = {
    ...{ slug: "own-1", name: "lemon curd", role: "inclusion", countsAs: "other", source: "the jar" },
    ...{ per100g: { water: 30, fat: 10, sugar: 50, salt: 0.1 }, portions: [], allergens: { us: [], eu: [] } },
  }
  const own = [curd]
  const worked = workOut(formula([part("dough", "500 g | flour\n200 g | water\n100 g | lemon curd")]), { own })
  expect(worked.wholeHydration).toEqual(exactly(0.46))
  expect(worked.cannot).toEqual([])
})

test("self-raising flour brings salt, and no flour brings water", () => {
  const worked = figures([part("dough", "500 g | self-raising flour\n300 g | water")])
  expect(worked.wholeHydration).toEqual(exactly(0.6))
  expect(worked.wholeSalt!.low).toBeCloseTo(0.0298, 3)
})

test("the protein is that of the mixed flours, and not given while one is unknown", () => {
  const mixed = figures([part("dough", "300 g | bread flour\n100 g | wholemeal flour\n50 g | ripe starter")])
  expect(mixed.flourProtein).toEqual(exactly((3 * 11.98 + 13.21) / 400))
  expect(figures([part("dough", "300 g | bread flour\n100 g | manitoba flour")]).flourProtein).toBeUndefined()
})

describe("a part is reckoned on the flour that is fresh in it", () => {
  const worked = figures([
    part("levain", "20 g | ripe starter\n100 g | flour\n100 g | water", { goesInto: "dough", staysPercent: "20 g" }),
    part("soaker", "100 g | rye flour\n150 g | water", { goesInto: "dough" }),
    part("dough", "400 g | flour\n200 g | water\n10 g | salt"),
  ])
  const [levain, , dough] = worked.parts

  test("starter on the flour that feeds it", () => {
    expect(levain).toMatchObject({ freshFlour: exactly(100), inoculation: exactly(0.2), formulaTotal: exactly(2.2) })
    expect(levain!.lines.map(({ shareOfPart }) => shareOfPart)).toEqual([exactly(0.2), exactly(1), exactly(1)])
  })

  test("levain on the flour of the dough and its soaker", () => {
    expect(dough).toMatchObject({ freshFlour: exactly(500), inoculation: exactly(200 / 500) })
    expect(dough!.lines[2]!.shareOfPart).toEqual(exactly(0.02))
  })

  test("a mass that stays in the jar is told as a share, and made is not used", () => {
    expect(levain).toMatchObject({ made: exactly(220), used: exactly(200), stays: exactly(1 / 11) })
  })

  test("of the whole, inoculation counts levain and flour all together", () => {
    expect(worked.flour).toEqual(exactly(400 + 100 + (110 * 10) / 11))
    expect(worked.inoculation).toEqual(exactly(200 / 600))
    expect(worked.prefermented).toEqual(exactly(100 / 600))
  })
})

// 250 g of levain made and 110 g used; 882 g of flour and water mixed and 850 g used. Summed by hand.
test("two mixes of which a part is used", () => {
  const worked = figures([
    part("levain", "50 g | whole wheat flour\n50 g | white flour\n100 g | water\n50 g | ripe starter", {
      ...{ goesInto: "dough", staysPercent: "140 g" },
    }),
    part("autolyse", "550 g | white flour\n332 g | water", { goesInto: "dough", staysPercent: "32 g" }),
    part("dough", "10 g | sea salt\n30 g | water"),
  ])
  expect(worked.flour!.low).toBeCloseTo(585.05, 2)
  expect(worked.water!.low).toBeCloseTo(404.95, 2)
  expect(100 * worked.hydration!.low).toBeCloseTo(69.2, 1)
  expect(100 * worked.salt!.low).toBeCloseTo(1.71, 2)
  expect(100 * worked.prefermented!.low).toBeCloseTo(9.4, 1)
})

test.each([
  ["10 % | flour\n50 g | water", "20 g"],
  ["50 g | flour\n50 g | water", "100 g"],
])("of %j %s cannot stay in the jar", (rows, staysPercent) => {
  const worked = figures([part("levain", rows, { goesInto: "dough", staysPercent }), part("dough", "500 g | flour")])
  expect(worked.flour).toBeUndefined()
  expect(worked.cannot.join()).toMatch(/stays in the jar of levain is a mass, so/)
})

test("ranges run through to the contents and the parts", () => {
  const worked = figures([
    part("levain", "10–20 g | ripe starter\n50 g | flour\n50 g | water", { goesInto: "dough" }),
    part("dough", "450 g | flour\n200–250 g | whole milk"),
  ])
  expect(worked.parts[0]!.inoculation).toEqual(range(0.2, 0.4))
  expect(worked.parts[0]!.made).toEqual(range(110, 120))
  expect(worked.wholeHydration!.low).toBeCloseTo((55 + 176.26) / 505, 9)
})

test("what goes on top is weighed and stands outside the dough", () => {
  const finishing = lines("1 | egg\n15 g | sesame\n1 % | flour for dusting")
  const worked = figures([part("dough", "500 g | flour\n300 g | water")], { finishing })
  expect(worked.dough).toEqual(exactly(800))
  expect(worked.finishing.map(({ g }) => g)).toEqual([exactly(50), exactly(15), exactly(5)])
})

test("the wording that was chosen is read in place of what was typed", () => {
  const dough = part("dough", "500 g | flour\n24 oz | water")
  expect(figures([dough]).hydration).toBeUndefined()
  dough.lines[1]!.readAs = "24 oz by weight"
  expect(figures([dough]).hydration!.low).toBeCloseTo(1.361, 3)
})

test.each([
  ["± 5 g", range(845, 855)],
  ["2 %", range(833, 867)],
  ["", undefined],
])("a piece of 850 g may be off by %j", (pieceTolerance, allowedG) => {
  const worked = figures([part("dough", "1000 g | flour\n700 g | water")], { pieces: "2", pieceTolerance })
  expect(worked.pieces).toEqual({ count: 2, eachG: exactly(850), allowedG })
})

test("a tolerance that cannot be read is asked about", () => {
  const worked = figures([part("dough", "1000 g | flour")], { pieces: "2", pieceTolerance: "roughly" })
  expect(worked.cannot.join()).toMatch(/how far a piece may be off/)
})

test("every figure says what it is of", () => {
  const { parts, finishing, pieces, leftOut, questions, cannot, ...whole } = figures([part("dough", "500 g | flour")])
  const { key, lines, problem, ...ofPart } = parts[0]!
  expect(Object.keys(bases).sort()).toEqual(Object.keys(whole).sort())
  expect(Object.keys(basesInPart).sort()).toEqual(Object.keys(ofPart).sort())
})

test("dusting flour that stands among the lines brings no water", () => {
  const worked = figures([part("dough", "500 g | flour\n300 g | water\n50 g | flour for dusting")])
  expect(worked).toMatchObject({ flour: exactly(500), wholeHydration: exactly(0.6), cannot: [] })
})
