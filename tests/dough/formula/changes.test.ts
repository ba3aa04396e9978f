import fc from "fast-check"
import { describe, expect, test } from "vitest"
import { applyChanges, type Change } from "../../../server/dough/formula/changes.ts"
import { type Figures, workOut } from "../../../server/dough/formula/formula.ts"
import type { WrittenFormula } from "../../../server/dough/formula/written.ts"
import { exactly, formula, part, range } from "./writing.ts"

const typed = (quantity: string, g: number | null = null) => ({ quantity, g })
const change = (kind: Change["kind"], more: Partial<Change>): Change => ({
  ...{ kind, partKey: "", ingredient: "", instead: "", out: typed(""), in: typed("") },
  ...more,
})
const leftOut = (ingredient: string, out = "", partKey = "dough") =>
  change("left-out", { partKey, ingredient, out: typed(out) })
const added = (quantity: string, instead: string, partKey = "") =>
  change("added", { partKey, instead, in: typed(quantity) })
const swapped = (ingredient: string, instead: string, amounts: { out?: string; in?: string } = {}, partKey = "dough") =>
  change("swapped", { partKey, ingredient, instead, out: typed(amounts.out ?? ""), in: typed(amounts.in ?? "") })

/** 1 000 g flour of which 10 % ferments first, 70 % water, 2 % salt; some of the levain stays in its jar. */
const loaf = () =>
  formula([
    part("levain", "20 g | ripe starter\n100 g | bread flour\n100 g | water", { goesInto: "dough" }),
    part("soaker", "50 g | oats\n80 g | water", { goesInto: "dough" }),
    part("dough", "740 g | bread flour\n150 g | wholemeal flour\n590 g | water\n2 % | salt"),
  ])

const made = (of: WrittenFormula, ...changes: Change[]) => workOut(applyChanges(of, changes).formula)
const problems = (of: WrittenFormula, ...changes: Change[]) => applyChanges(of, changes).problems
const low = ({ dough, flour, water }: Figures) => ({ dough: dough!.low, flour: flour!.low, water: water!.low })

describe("what came out and went in is all that the dough gains or loses", () => {
  test.each<[string, Change, { dough: number; flour: number; water: number }]>([
    ["salt left out", leftOut("salt"), { dough: -20, flour: 0, water: 0 }],
    ["water held back", leftOut("water", "90 g"), { dough: -90, flour: 0, water: -90 }],
    ["rescue flour", added("40 g", "bread flour"), { dough: 40, flour: 40, water: 0 }],
    ["water by the spoon", added("2 tbsp", "water"), { dough: 2 * 14.7868, flour: 0, water: 2 * 14.7868 }],
    ["one flour for another", swapped("wholemeal flour", "rye flour"), { dough: 0, flour: 0, water: 0 }],
    ["more of the other", swapped("wholemeal flour", "rye flour", { in: "180 g" }), { dough: 30, flour: 30, water: 0 }],
    ["a part of a line", swapped("bread flour", "spelt flour", { out: "40 g" }), { dough: 0, flour: 0, water: 0 }],
    ["a whole part", leftOut("", "", "soaker"), { dough: -130, flour: 0, water: -80 }],
    ["half of a part", leftOut("", "65 g", "soaker"), { dough: -65, flour: 0, water: -40 }],
    [
      "levain for yeast",
      swapped("", "instant yeast", { in: "4 g" }, "levain"),
      { dough: -216, flour: -110, water: -110 },
    ],
  ])("%s", (_what, one, gained) => {
    const [before, after] = [low(made(loaf())), low(made(loaf(), one))]
    expect(problems(loaf(), one)).toEqual([])
    for (const of of ["dough", "flour", "water"] as const) expect(after[of] - before[of]).toBeCloseTo(gained[of], 3)
  })
})

test("what is given in percent keeps its grams when flour is added", () => {
  const after = made(loaf(), added("100 g", "bread flour"))
  expect(after.parts[2]!.lines[3]!.g).toEqual(exactly(20))
  expect(after.salt).toEqual(exactly(20 / 1100))
  expect(after.hydration).toEqual(exactly((590 + 100 + 10 + 80) / 1100))
})

test("pieces of a wanted mass keep the scale they gave", () => {
  const rolls = formula([part("dough", "100 % | flour\n60 % | water")], { pieces: "10", pieceMass: "80 g" })
  const after = made(rolls, added("50 g", "water"))
  expect(after.dough).toEqual(exactly(850))
  expect(after.pieces).toMatchObject({ count: 10, eachG: exactly(85) })
})

test("an amount in percent is of the formula's flour", () => {
  expect(applyChanges(loaf(), [added("1 %", "salt")]).effects).toEqual([{ in: { unit: "g", ...exactly(10) } }])
})

test("a range that something is taken of stays one", () => {
  const dough = formula([part("dough", "500 g | flour\n300–330 g | water")])
  expect(made(dough, leftOut("water", "20 g")).water).toEqual(range(280, 310))
  expect(made(dough, leftOut("water", "320 g")).water).toEqual(range(0, 10))
})

test("lines with the same name in a part are one amount", () => {
  const dough = formula([part("dough", "500 g | flour\n300 g | water\n50 g | Water")])
  expect(made(dough, leftOut("water", "320 g")).water).toEqual(exactly(30))
  expect(made(dough, leftOut("water")).water).toEqual(exactly(0))
})

test("the grams that were chosen count, and what was typed stays", () => {
  const milk = change("added", { instead: "milk", in: typed("9 oz", 255) })
  const { formula: with_, effects } = applyChanges(loaf(), [milk])
  expect(effects[0]!.in).toEqual({ unit: "g", low: 255, high: 255 })
  expect(with_.parts[2]!.lines.at(-1)).toMatchObject({ quantity: "9 oz", readAs: "255 g", ingredient: "milk" })
})

test("more of a part is not taken for the part itself", () => {
  const after = made(loaf(), added("50 g", "levain"))
  expect(after.flour).toEqual(exactly(1025))
  expect(after.prefermented).toEqual(exactly(135 / 1025))
})

test("what nobody knows counts as what it took the place of, and says so", () => {
  const { formula: with_, effects } = applyChanges(loaf(), [swapped("wholemeal flour", "what the mill had")])
  expect(workOut(with_).flour).toEqual(exactly(1000))
  expect(effects[0]!.note).toBe("What the mill had is not known here; it is counted as wholemeal flour was.")
})

test("salt that came later is salt again", () => {
  const after = made(loaf(), leftOut("salt"), added("20 g", "salt"))
  expect(after.salt).toEqual(made(loaf()).salt)
})

describe("what does not fit is said and not counted", () => {
  test.each<[string, Change, string]>([
    ["an ingredient that is gone", leftOut("honey"), "Honey is no longer in dough."],
    ["a part that is gone", leftOut("water", "", "poolish"), "The part with water in it is no longer there."],
    ["more than there is", leftOut("salt", "40 g"), "More salt is taken out than there is, so it is not counted."],
    ["more of a part", leftOut("", "300 g", "levain"), "More levain is taken out than there is, so it is not counted."],
    ["the dough itself", leftOut("", "", "dough"), "Dough is the dough itself; say what of it."],
    [
      "flour by eye",
      added("as it needed", "bread flour"),
      "“as it needed” of bread flour cannot be weighed: the dough, its flour and every percentage are reckoned without it.",
    ],
    [
      "some of the salt",
      leftOut("salt", "some"),
      "“some” of salt cannot be weighed: the dough and its salt are reckoned with all of it.",
    ],
  ])("%s", (_what, one, sentence) => {
    const applied = applyChanges(loaf(), [one])
    expect(applied).toMatchObject({ problems: [sentence], effects: [{ problem: sentence }] })
    expect(applied.formula).toEqual(loaf())
  })

  test("grams in a formula that gives only ratios", () => {
    const ratios = formula([part("dough", "100 % | flour\n70 % | water\n2 % | salt")])
    expect(problems(ratios, added("40 g", "flour"))[0]).toMatch(/gives no masses/)
    expect(problems(ratios, leftOut("water", "40 g"))[0]).toMatch(/gives no masses/)
    expect(made(ratios, leftOut("water", "5 %")).hydration).toEqual(exactly(0.65))
    expect(made(ratios, leftOut("salt")).salt).toEqual(exactly(0))
  })

  test("the rest is counted all the same", () => {
    const after = made(loaf(), leftOut("honey"), added("30 g", "water"))
    expect(low(after).water - low(made(loaf())).water).toBeCloseTo(30, 9)
  })
})

test("stages, ovens and words change no amount", () => {
  const of = loaf()
  const words = (["skipped", "oven", "other"] as const).map((kind) => change(kind, {}))
  expect(applyChanges(of, words)).toEqual({ formula: of, effects: [{}, {}, {}], problems: [] })
})

test("the formula that it starts from stays as it was", () => {
  const before = loaf()
  applyChanges(before, [leftOut("salt"), swapped("", "yeast", { in: "4 g" }, "levain"), added("1 %", "salt")])
  expect(before).toEqual(loaf())
})

const grams = fc.integer({ min: 1, max: 900 }).map((tenths) => tenths / 10)
const formulas = fc
  .record({ flour: grams, water: grams, salt: fc.integer({ min: 1, max: 30 }), levain: grams, stays: fc.nat(50) })
  .map(({ flour, water, salt, levain, stays }) =>
    formula([
      part("levain", `${levain} g | flour\n${levain} g | water\n1 g | ripe starter`, {
        ...{ goesInto: "dough", staysPercent: `${stays}` },
      }),
      part("dough", `${flour} g | flour\n${water} g | water\n${salt / 10} % | salt`),
    ]),
  )

const closeTo = (figures: Figures) =>
  Object.fromEntries(
    (["dough", "flour", "hydration", "salt", "prefermented"] as const).map((of) => [
      of,
      { low: expect.closeTo(figures[of]!.low, 6), high: expect.closeTo(figures[of]!.high, 6) },
    ]),
  )

describe("whatever the formula", () => {
  test("nothing changed changes nothing", () => {
    fc.assert(fc.property(formulas, (of) => applyChanges(of, []).formula === of))
  })

  test("what was added and taken out again leaves every figure as it was", () => {
    fc.assert(
      fc.property(formulas, grams, fc.constantFrom("flour", "water", "salt"), (of, g, what) => {
        const after = made(of, added(`${g} g`, what), leftOut(what, `${g} g`))
        expect(after).toMatchObject(closeTo(made(of)))
      }),
      { numRuns: 50 },
    )
  })

  test("the dough gains what is added to it", () => {
    fc.assert(
      fc.property(formulas, grams, (of, g) => {
        const [before, after] = [made(of), made(of, added(`${g} g`, "flour"))]
        expect(after.dough!.low - before.dough!.low).toBeCloseTo(g, 6)
        expect(after.hydration!.low).toBeLessThan(before.hydration!.low)
        expect(after.salt!.low).toBeLessThan(before.salt!.low)
      }),
      { numRuns: 50 },
    )
  })
})
