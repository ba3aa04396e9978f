import fc from "fast-check"
import { expect, test } from "vitest"
import { atHand } from "../../../server/dough/bill/at-hand.ts"
import { purchaseOf, sensibly } from "../../../server/dough/bill/buying.ts"
import { shoppingOf } from "../../../server/dough/bill/shopping.ts"
import { thingOf } from "../../../server/dough/bill/things.ts"
import { workOut } from "../../../server/dough/formula/formula.ts"
import { scaleTo, type Wish } from "../../../server/dough/formula/scaling.ts"
import type { WrittenFormula } from "../../../server/dough/formula/written.ts"
import { gramsPerOunce, gramsPerPound } from "../../../server/dough/quantity/measures.ts"
import { formula, lines, part } from "../formula/writing.ts"
import { anyFormula, loaf } from "./writing.ts"

const grams = { unit: "g" } as const
const listFor = (written: WrittenFormula) => shoppingOf(written, workOut(written))
function scaledList(written: WrittenFormula, wish: Wish) {
  const scaled = scaleTo(written, wish)
  if ("cannot" in scaled) throw new Error(scaled.cannot)
  return shoppingOf(written, scaled.figures)
}
const dough = (rows: string, finishing = "") =>
  formula([part("dough", rows)], { finishing: finishing ? lines(finishing) : [] })
const named = (written: WrittenFormula) => listFor(written).buy.map(({ name, g }) => [name, g?.high])
const bought = (rows: string, finishing = "") =>
  listFor(dough(rows, finishing)).buy.map((thing) => {
    const purchase = purchaseOf(thing, grams)
    return purchase?.of === "pieces"
      ? `${purchase.count} ${purchase.unit}`
      : purchase && `${Number(purchase.g.toFixed(6))} g`
  })

test("one thing is added up over parts and finishing, whatever it is called there", () => {
  expect(named(loaf())).toEqual([
    ["bread flour", 745],
    ["wholemeal flour", 185],
    ["salt", 18],
    ["rolled oats", expect.closeTo(110 + 4 * 5.07, 0)],
    ["honey", 45],
    ["egg", expect.closeTo(50, 0)],
  ])
})

test("water is left out but counted, and ripe starter is to be had, not bought", () => {
  const { water, ready } = listFor(loaf())
  expect(water!.g).toEqual({ low: 635, high: 665 })
  expect(ready.map(({ name, g }) => [name, g!.high])).toEqual([["ripe starter", 30]])
})

test.for([
  ["strong white flour", "Bread flour", true],
  ["plain flour", "strong white flour", false],
  ["melted unsalted butter", "butter", true],
  ["egg yolks", "eggs", true],
  ["cinnamon", "rosemary", false], // one slug of the catalogue, two things in a shop
  ["ground cinnamon", "cinnamon", true],
  ["Mill Lane flour", "mill lane flour", true],
  ["Mill Lane flour", "Ferry Road flour", false],
] as const)("%s and %s are one thing: %s", ([one, other, same]) => {
  expect(thingOf(one) === thingOf(other)).toBe(same)
})

test("a thing without a name, or without an amount, stays on the list", () => {
  const { buy } = listFor(dough("500 g | flour\n10 g | \nsome | seeds\n20 g | seeds"))
  expect(buy.map(({ name, g }) => [name, g?.high])).toEqual([
    ["flour", 500],
    ["Something without a name", 10],
    ["seeds", 20],
  ])
  expect(buy[2]!.fors.map(({ asks }) => Boolean(asks))).toEqual([true, false])
})

test("eggs are bought whole, one for its yolk and another's white", () => {
  expect(bought("500 g | flour\n2 | eggs", "1 | egg yolk")[1]).toBe("3 egg")
  expect(bought("500 g | flour\n2 | egg yolks\n1 | egg white")[1]).toBe("2 egg")
  expect(bought("500 g | flour\n110 g | egg")[1]).toBe("3 egg")
  expect(bought("500 g | flour\n104 g | egg")[1]).toBe("2 egg")
})

test("what is written in packets is bought in packets, and else by mass", () => {
  expect(bought("500 g | flour\n1 packet | instant yeast")[1]).toBe("1 packet")
  expect(bought("500 g | flour\n1 stick | butter\n20 g | butter")[1]).toBe("140 g")
  expect(bought("500 g | flour\n2 cans of 400 g | pumpkin puree")[1]).toBe("2 can")
  const thrice = scaledList(dough("500 g | flour\n1 packet | instant yeast"), { by: "times", times: 3 })
  expect(purchaseOf(thrice.buy[1]!, grams)).toMatchObject({ unit: "packet", count: 3 })
})

test("a mass is rounded up to what one would ask for, and never down", () => {
  expect([3.2, 18, 47, 103, 745, 755, 8940].map((g) => sensibly(g, "g"))).toEqual([4, 18, 50, 110, 750, 800, 9000])
  expect(sensibly(745, "oz") / gramsPerPound).toBeCloseTo(1.75, 9)
  expect(sensibly(50, "oz") / gramsPerOunce).toBeCloseTo(1.875, 9)
  fc.assert(
    fc.property(
      fc.double({ min: 0.05, max: 50_000, noNaN: true }),
      fc.constantFrom("g" as const, "oz" as const),
      (g, unit) => {
        expect(sensibly(g, unit)).toBeGreaterThanOrEqual(g * (1 - 1e-9))
        // from a spoonful on, never a quarter more
        if (g > 20) expect(sensibly(g, unit)).toBeLessThan(g * 1.25)
      },
    ),
  )
})

test("the list is the sum over parts and finishing, and for n people n times as much and the losses", () => {
  const wish = fc.record({
    people: fc.integer({ min: 1, max: 40 }),
    loss: fc.double({ min: 0, max: 0.4, noNaN: true }),
  })
  fc.assert(
    fc.property(anyFormula, wish, (written, { people, loss }) => {
      const { parts, finishing } = workOut(written)
      const all = [...parts.flatMap(({ lines }) => lines), ...finishing]
      const one = listFor(written)
      const sum = [...one.buy, ...one.ready, one.water!].reduce((g, thing) => g + thing.g!.high, 0)
      expect(sum).toBeCloseTo(
        all.reduce((g, line) => g + line.g!.high, 0),
        6,
      )
      const many = scaledList(written, { by: "class", people, loss })
      expect(many.buy.map(({ id }) => id)).toEqual(one.buy.map(({ id }) => id))
      for (const [at, thing] of many.buy.entries())
        expect(thing.g!.high * (1 - loss)).toBeCloseTo(people * one.buy[at]!.g!.high, 6)
    }),
    { numRuns: 60 },
  )
})

test("flours that somebody said they have are found in their words", () => {
  const { buy } = listFor(
    dough(
      "500 g | strong white flour\n200 g | wholemeal flour\n100 g | wholemeal spelt flour\n50 g | Mill Lane flour\n10 g | salt",
    ),
  )
  const has = (told: string) => {
    const ids = atHand(told, buy)
    return buy.filter(({ id }) => ids.has(id)).map(({ name }) => name)
  }
  expect(has("strong white, 2 kg wholemeal spelt")).toEqual(["strong white flour", "wholemeal spelt flour"])
  expect(has("Wholemeal; rye")).toEqual(["wholemeal flour"])
  expect(has("a bag of Mill Lane and bread flour")).toEqual(["strong white flour", "Mill Lane flour"])
  expect(has("")).toEqual([])
  expect(has("00, semolina")).toEqual([])
})
