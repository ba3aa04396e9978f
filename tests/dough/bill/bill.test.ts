import fc from "fast-check"
import { expect, test } from "vitest"
import { billOf } from "../../../server/dough/bill/bill.ts"
import { fedOtherwise } from "../../../server/dough/bill/fed-levain.ts"
import { workOut } from "../../../server/dough/formula/formula.ts"
import { onScale, type Scale, stepG } from "../../../server/dough/formula/weighing.ts"
import type { WrittenFormula } from "../../../server/dough/formula/written.ts"
import type { Stage } from "../../../server/dough/schedule.ts"
import { formula, lines, part } from "../formula/writing.ts"
import { anyFormula, loaf } from "./writing.ts"

const stage = (name: string, kind: Stage["kind"] = "rest"): Stage => ({
  ...{ key: name, kind, name, lowMin: 10, highMin: 10, drivenByTemperature: false, handsOnMin: 0, cue: "", tip: "" },
})
const day = [
  stage("Feed the levain, soak the oats", "mix"),
  stage("Levain ripens"),
  stage("Mix the dough", "mix"),
  stage("Bulk", "bulk"),
  stage("Divide and shape", "shape"),
  stage("Bake", "bake"),
]
const billFor = (written: WrittenFormula, stages?: Stage[]) => billOf(written, workOut(written), stages)
const orderOf = (written: WrittenFormula, stages?: Stage[]) =>
  billFor(written, stages).parts.map(({ written, need }) => [written.key, need.stage ?? need.before ?? "?"])

test("parts come in the order in which they are made, with the stage in which each is weighed", () => {
  expect(orderOf(loaf(), day)).toEqual([
    ["levain", "Feed the levain, soak the oats"],
    ["soaker", "Feed the levain, soak the oats"],
    ["dough", "Mix the dough"],
  ])
  expect(billFor(loaf(), day).finishingFrom).toBe("Divide and shape")
})

test("of two parts the one whose stage comes first is first, however they are written", () => {
  const stages = [stage("Start the soaker the day before", "mix"), ...day.slice(1)]
  expect(orderOf(loaf(), [stages[0]!, stage("Build the leaven", "mix"), ...day.slice(1)]).map(([key]) => key)).toEqual([
    "soaker",
    "levain",
    "dough",
  ])
})

test("a part without a stage of its own is wanted before the one it goes into", () => {
  expect(orderOf(loaf(), [stage("Mix, with the levain and the soaker", "mix"), stage("Bake", "bake")])).toEqual([
    ["levain", "Mix, with the levain and the soaker"],
    ["soaker", "Mix, with the levain and the soaker"],
    ["dough", "Mix, with the levain and the soaker"],
  ])
  expect(billFor(loaf(), [stage("Mix, with the levain", "mix")]).parts[0]!.need).toEqual({
    part: 1,
    before: "Mix, with the levain",
  })
})

test("parts in a circle, parts that lead nowhere and no stages at all lose nothing", () => {
  const circle = formula([
    part("a", "100 g | flour", { goesInto: "b" }),
    part("b", "100 g | flour", { goesInto: "a" }),
    part("c", "100 g | flour", { goesInto: "z" }),
    part("d", "100 g | flour"),
  ])
  for (const stages of [undefined, [], day])
    expect(
      orderOf(circle, stages)
        .map(([key]) => key)
        .toSorted(),
    ).toEqual(["a", "b", "c", "d"])
})

test("water given as a range is what goes in now and what is held back", () => {
  const [dough] = billFor(loaf()).parts
  expect(dough!.lines[2]).toMatchObject({ g: { low: 335, high: 365 }, held: { nowG: 335, laterG: 30 } })
  const other = formula([part("d", "500–520 g | flour\n70 % | water\n10–20 g | oil")])
  expect(billFor(other).parts[0]!.lines.map(({ held }) => held)).toEqual([undefined, undefined, undefined])
  const milk = formula([
    { ...part("d", "500 g | flour"), lines: [{ ...lines("200–240 g | milk")[0]!, note: "hold the last back" }] },
  ])
  expect(billFor(milk).parts[0]!.lines[0]!.held).toEqual({ nowG: 200, laterG: 40 })
})

test("what cannot be weighed stays in its place with its question", () => {
  const asked = formula([part("dough", "500 g | flour\n | water\nsome | seeds\n2 % | salt")])
  expect(
    billFor(asked).parts[0]!.lines.map(({ written, g, asks }) => [written.ingredient, g?.low, Boolean(asks)]),
  ).toEqual([
    ["flour", 500, false],
    ["water", undefined, true],
    ["seeds", undefined, true],
    ["salt", 10, false],
  ])
  const ratios = formula([part("dough", "100 % | flour\n70 % | water")])
  expect(billFor(ratios).parts[0]!.lines[0]!.asks).toContain("a share of the flour")
})

const scales: Scale[] = [...[0.1, 1, 2, 5].map((step): Scale => ({ step, unit: "g" })), { step: 0.125, unit: "oz" }]

test("what the bill asks for adds up to the dough, and what stays in jars, within the scale's rounding", () => {
  fc.assert(
    fc.property(anyFormula, fc.constantFrom(...scales), (written, scale) => {
      const figures = workOut(written)
      const bill = billOf(written, figures, day)
      const shown = bill.parts.flatMap(({ lines }) =>
        lines.flatMap(({ g, held }) => (held ? [held.nowG, held.laterG] : [g!.high])),
      )
      const asked = shown.reduce((sum, g) => sum + onScale(g, scale), 0)
      const stays = figures.parts.reduce(
        (sum, { made, used }, at) => sum + (written.parts[at]!.goesInto ? made!.high - used!.high : 0),
        0,
      )
      const slack = (shown.length * stepG(scale)) / 2 + 1e-6
      expect(Math.abs(asked - stays - figures.dough!.high)).toBeLessThanOrEqual(slack)
    }),
    { numRuns: 100 },
  )
})

test("nothing of a formula is lost, whatever its stages", () => {
  fc.assert(
    fc.property(anyFormula, fc.shuffledSubarray(day), (written, stages) => {
      const bill = billFor(written, stages)
      const key = (part: string, ingredient: string) => `${part}/${ingredient}`
      const listed = bill.parts.flatMap(({ written, lines }) =>
        lines.map((line) => key(written.key, line.written.ingredient)),
      )
      expect(listed.toSorted()).toEqual(
        written.parts.flatMap(({ key: of, lines }) => lines.map(({ ingredient }) => key(of, ingredient))).toSorted(),
      )
      expect(bill.finishing.length).toBe(written.finishing.length)
      for (const [at, { brought }] of bill.parts.entries())
        for (const { written: child } of brought)
          expect(bill.parts.findIndex(({ written }) => written.key === child.key)).toBeLessThan(at)
    }),
    { numRuns: 60 },
  )
})

test("a levain fed otherwise is as much as before, its flours in their proportion, and the dough stays", () => {
  const figures = workOut(loaf())
  const fed = workOut(fedOtherwise(loaf(), figures, { starter: 1, flour: 5, water: 5 })!)
  expect(fed.parts[1]!.made!.low).toBeCloseTo(250, 6)
  const [starter, white, brown, water] = fed.parts[1]!.lines.map(({ g }) => g!.low)
  expect(starter! * 5).toBeCloseTo(water!, 6)
  expect(white! / brown!).toBeCloseTo(90 / 20, 6)
  expect(white! + brown!).toBeCloseTo(water!, 6)
  expect(fed.dough!.high).toBeCloseTo(figures.dough!.high, 6)
  expect(fed.parts[0]!.lines[3]!.g!.low).toBe(18)
})

test("a formula without a levain, or with a range in it, is left as it is", () => {
  const fed = { starter: 1, flour: 2, water: 2 }
  const yeasted = formula([part("dough", "500 g | flour\n3 g | yeast")])
  const ranged = formula([
    part("levain", "20–30 g | starter\n50 g | flour\n50 g | water", { goesInto: "dough" }),
    part("dough", "500 g | flour"),
  ])
  for (const one of [yeasted, ranged]) expect(fedOtherwise(one, workOut(one), fed)).toBeUndefined()
})
