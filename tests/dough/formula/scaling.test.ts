import fc from "fast-check"
import { describe, expect, test } from "vitest"
import { type Figures, workOut } from "../../../server/dough/formula/formula.ts"
import {
  bakeLossOf,
  beforeLoss,
  scaleFactor,
  scaleTo,
  starterNeeded,
  type Wish,
} from "../../../server/dough/formula/scaling.ts"
import type { WrittenFormula } from "../../../server/dough/formula/written.ts"
import { exactly, formula, lines, part, range } from "./writing.ts"

const tin = { outline: "rectangle", topMm: [210, 110], bottomMm: [200, 100], heightMm: 70 } as const
const bigTin = { outline: "rectangle", topMm: [420, 110], bottomMm: [400, 100], heightMm: 70 } as const

const loaf = (more: Partial<WrittenFormula> = {}) =>
  formula(
    [
      part("levain", "20 g | ripe starter\n90 g | flour\n90 g | water", { goesInto: "dough", staysPercent: "10 %" }),
      part("dough", "410 g | flour\n240 g | water\n2 % | salt"),
    ],
    { pieces: "1", ...more },
  )
const inPercent = () => formula([part("dough", "100 % | flour\n70 % | water\n2 % | salt\n3 % | ripe starter")])

function scaled(written: WrittenFormula, wish: Wish) {
  const result = scaleTo(written, wish)
  if ("cannot" in result) throw new Error(result.cannot)
  return result
}
const doughOf = (wish: Wish, written = loaf()) => scaled(written, wish).figures.dough

const shares = (figures: Figures) => [
  ...figures.parts.flatMap(({ lines }) => lines.map(({ share }) => share!.low)),
  ...[figures.hydration, figures.wholeHydration, figures.salt, figures.prefermented].map((share) => share!.low),
]

describe("a loaf of which everything is known", () => {
  const before = workOut(loaf())

  test.each<[string, Wish, number]>([
    ["2 kg of dough", { by: "dough", doughG: 2000 }, 2000],
    ["three pieces of 850 g", { by: "pieces", count: 3, eachG: 850 }, 2550],
    ["two loaves of 800 g, 12 % lost", { by: "baked pieces", count: 2, bakedG: 800, loss: 0.12 }, 1600 / 0.88],
    ["four times", { by: "times", times: 4 }, 4 * before.dough!.low],
    ["nine people, 3 % lost", { by: "class", people: 9, loss: 0.03 }, (9 / 0.97) * before.dough!.low],
    [
      "a tin twice as long",
      { by: "pan in place of another", from: tin, to: bigTin, compare: "volume" },
      2 * before.dough!.low,
    ],
    ["its base", { by: "pan in place of another", from: tin, to: bigTin, compare: "area" }, 2 * before.dough!.low],
  ])("brought to %s", (_, wish, doughG) => {
    expect(doughOf(wish)).toEqual(exactly(doughG))
  })

  test("brought to its flour, with every mass as made", () => {
    const { figures } = scaled(loaf(), { by: "flour", flourG: 2 * before.flour!.low })
    expect(figures.flour).toEqual(exactly(1000))
    expect(figures.parts[0]).toMatchObject({ made: exactly(400), used: exactly(360) })
    expect(figures.parts[0]!.lines.map(({ g }) => g)).toEqual([exactly(40), exactly(180), exactly(180)])
  })

  test("and a tin filled so far", () => {
    const filled: Wish = {
      by: "pan",
      count: 2,
      pan: { ...tin, bottomMm: [210, 110] },
      filling: { full: 0.5, mlPerG: 1.1 },
    }
    expect(doughOf(filled)).toEqual(exactly((2 * 0.5 * 21 * 11 * 7) / 1.1))
  })
})

test("however it is scaled, its percentages stay, and grams written out anew give them again", () => {
  const flours = fc.record({ flour: fc.integer({ min: 50, max: 5000 }), rye: fc.integer({ min: 0, max: 500 }) })
  const amounts = fc.record({
    ...{ water: fc.double({ min: 0.3, max: 1, noNaN: true }), salt: fc.double({ min: 0, max: 0.03, noNaN: true }) },
    ...{ stays: fc.integer({ min: 0, max: 60 }), starter: fc.integer({ min: 1, max: 200 }) },
  })
  fc.assert(
    fc.property(flours, amounts, fc.integer({ min: 100, max: 100_000 }), ({ flour, rye }, amount, doughG) => {
      const { water, salt, stays, starter } = amount
      const written = formula([
        part("levain", `${starter} g | ripe starter\n${starter} g | flour\n${starter} g | water`, {
          ...{ goesInto: "dough", staysPercent: String(stays) },
        }),
        part(
          "dough",
          `${flour} g | flour\n${rye} g | rye flour\n${(flour * water).toFixed(2)} g | water\n${(100 * salt).toFixed(4)} % | salt`,
        ),
      ])
      const { figures } = scaled(written, { by: "dough", doughG })
      const rewritten = {
        ...written,
        parts: written.parts.map((each, i) => ({
          ...each,
          lines: each.lines.map((line, j) => ({
            ...line,
            quantity: `${figures.parts[i]!.lines[j]!.g!.low.toFixed(9)} g`,
          })),
        })),
      }
      const [original, again] = [shares(workOut(written)), workOut(rewritten)]
      expect(again.dough!.low).toBeCloseTo(doughG, 5)
      for (const [i, share] of shares(again).entries()) expect(share).toBeCloseTo(original[i]!, 7)
      const intoDough = again.parts[1]!.lines.reduce((sum, { g }) => sum + g!.low, again.parts[0]!.used!.low)
      expect(intoDough).toBeCloseTo(again.dough!.low, 5)
    }),
    { numRuns: 25 },
  )
})

describe("ranges", () => {
  const held = formula([part("dough", "500 g | flour\n300–350 g | water\n10 g | salt")])

  test("stay ranges, with the middle of the dough brought to the wish, and that is said", () => {
    const { figures, says } = scaled(held, { by: "dough", doughG: 1670 })
    expect(figures.dough).toEqual(range(1620, 1720))
    expect(figures.parts[0]!.lines[1]!.g).toEqual(range(600, 700))
    expect(says).toEqual([
      "The formula has a range in it, and its middle was brought to this size: the dough will weigh 1620–1720 g.",
    ])
  })
})

test("the factor is that of the middle, and there is none without a mass", () => {
  expect(scaleFactor({ by: "dough", doughG: 1000 }, { dough: { low: 450, high: 550 } })).toBe(2)
  expect(scaleFactor({ by: "flour", flourG: 1000 }, { dough: { low: 450, high: 550 } })).toBeUndefined()
})

describe("a formula in percent", () => {
  test("takes its masses from the wish", () => {
    expect(doughOf({ by: "dough", doughG: 875 }, inPercent())).toEqual(exactly(875))
    expect(scaled(inPercent(), { by: "flour", flourG: 1015 }).figures.flour).toEqual(exactly(1015))
  })

  test("cannot be taken several times", () => {
    expect(scaleTo(inPercent(), { by: "class", people: 5, loss: 0 })).toEqual({
      cannot: "Nothing gives the formula a mass yet that could be taken several times.",
    })
  })
})

test("a dough with an amount missing can still be brought to its flour, not to its mass", () => {
  const open = formula([part("dough", "500 g | flour\nsome | water")])
  expect(scaled(open, { by: "flour", flourG: 1000 }).figures.parts[0]!.lines[0]!.g).toEqual(exactly(1000))
  expect(scaleTo(open, { by: "dough", doughG: 1000 })).toEqual({
    cannot: "The mass of its dough is not known, so it cannot be brought to another.",
  })
})

describe("pieces", () => {
  const twoPieces = loaf({ pieces: "2", pieceTolerance: "3 %" })

  test("are those of the wish, with what they may be off", () => {
    expect(scaled(twoPieces, { by: "pieces", count: 6, eachG: 100 }).figures.pieces).toEqual({
      ...{ count: 6, eachG: exactly(100), allowedG: range(97, 103) },
    })
  })

  test("are as many as before where a size is wished, and as large where it is made several times", () => {
    expect(scaled(twoPieces, { by: "dough", doughG: 1000 }).figures.pieces).toMatchObject({
      count: 2,
      eachG: exactly(500),
    })
    const each = workOut(twoPieces).pieces!.eachG
    expect(scaled(twoPieces, { by: "times", times: 3 }).figures.pieces).toMatchObject({ count: 6, eachG: each })
    expect(scaled(twoPieces, { by: "class", people: 4, loss: 0.1 }).figures.pieces).toMatchObject({
      count: 8,
      eachG: each,
    })
  })
})

test("what goes on top grows with the dough", () => {
  const topped = loaf({ finishing: lines("10 g | sesame") })
  expect(scaled(topped, { by: "times", times: 3 }).figures.finishing[0]!.g).toEqual(exactly(30))
})

test("starter for a class is that of everybody, with what stays in their jars", () => {
  const { figures } = scaled(loaf(), { by: "class", people: 12, loss: 0.04 })
  expect(starterNeeded(figures)).toEqual(exactly((20 * 12) / 0.96))
  expect(starterNeeded(workOut(formula([part("dough", "some | starter")])))).toBeUndefined()
})

// A village-hall course: 1 320 g of starter and 440 g of flour, given out at about 170 g.
test("1 760 g of starter go round ten people at 170 g with 3 % left in the jar", () => {
  expect(beforeLoss(10 * 170, 0.03)).toBeLessThan(1760)
  expect(beforeLoss(10 * 170, 0.04)).toBeGreaterThan(1760)
})

test.each<Wish>([
  { by: "dough", doughG: 0 },
  { by: "flour", flourG: Number.NaN },
  { by: "pieces", count: -1, eachG: 100 },
  { by: "baked pieces", count: 1, bakedG: 100, loss: 1 },
  { by: "class", people: 3, loss: -0.1 },
])("%j is refused", (wish) => {
  expect(() => scaleTo(loaf(), wish)).toThrow(RangeError)
})

test("bread heavier than its dough, and a loss of everything, are refused", () => {
  expect(() => bakeLossOf(400, 410)).toThrow(RangeError)
  expect(() => beforeLoss(500, 1)).toThrow(RangeError)
})
