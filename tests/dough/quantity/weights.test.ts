import { expect, test } from "vitest"
import { readQuantity } from "../../../server/dough/quantity/read.ts"
import { asked, choices, mass, percent } from "./pantry.ts"

test.each([
  ["468 g", 468],
  ["468", 468],
  ["100.5g", 100.5],
  ["250 Grams", 250],
  ["500 G", 500],
  ["2,5 kg", 2500],
  ["0,125 kg", 125],
  ["1.250 kg", 1250],
  ["3 kilos", 3000],
  ["25 dag", 250],
  ["500 mg", 0.5],
  ["1 200 g", 1200],
  ["1\u2009200 g", 1200],
  ["1'200 g", 1200],
  ["1,200.50 g", 1200.5],
  ["1.200,50 g", 1200.5],
  ["1,234,567 g", 1_234_567],
  ["1 200 300", 1_200_300],
  ["１００ｇ", 100],
  ["500 g.", 500],
  ["(500 g)", 500],
  ["“500 g”", 500],
  ["500 g*", 500],
])("%s is %d g", (text, g) => {
  expect(readQuantity(text)).toEqual({ ...{ kind: "mass", assumptions: [], choices: [] }, g: { low: g, high: g } })
})

test.each([
  ["1 oz", 28.349523125],
  ["1 lb", 453.59237],
  ["2 lbs.", 907.18474],
  ["1 lb 4 oz", 453.59237 + 4 * 28.349523125],
  ["1 lb, 4 oz", 453.59237 + 4 * 28.349523125],
  ["1 lb and 4 oz", 453.59237 + 4 * 28.349523125],
  ["1/2 oz", 14.1747615625],
  ["1 1/2 lb", 680.388555],
  ["1½ pounds", 680.388555],
  ["½ lb", 226.796185],
  ["¼-lb", 113.3980925],
  ["a pound and a half", 680.388555],
  ["two and a half pounds", 1133.980925],
  ["half a pound", 226.796185],
])("%s is avoirdupois", (text, g) => {
  expect(readQuantity(text)).toEqual(mass(g))
})

test("a third is a third, exactly", () => {
  expect(readQuantity("1/3 kg + 2/3 g")).toEqual(mass(334))
  expect(readQuantity("⅓ kg to ⅔ kg")).toEqual(mass(1000 / 3, 2000 / 3))
})

test("# after a number is pounds, as on American shop floors, and says so", () => {
  expect(readQuantity("5#")).toMatchObject({ kind: "mass", assumptions: ["# is read as pounds."] })
})

test.each([
  ["60–90 g", 60, 90],
  ["60-90 g", 60, 90],
  ["60 — 90 g", 60, 90],
  ["60 to 90 g", 60, 90],
  ["60 g-90 g", 60, 90],
  ["60 g–90", 60, 90],
  ["60 - 90", 60, 90],
  ["60~90 g", 60, 90],
  ["60..90 g", 60, 90],
  ["between 60 and 90 g", 60, 90],
  ["from 60 to 90 g", 60, 90],
  ["900 g – 1 kg", 900, 1000],
  ["1 lb 4 oz - 1 lb 8 oz", 566.9904625, 680.388555],
  ["1 to 1 1/2 lb", 453.59237, 680.388555],
  ["1/2-3/4 lb", 226.796185, 340.1942775],
])("%s is a range", (text, low, high) => {
  expect(readQuantity(text)).toEqual(mass(low, high))
})

test.each(["about 500 g", "ca. 500g", "c. 500 g", "~ 500 g", "500-ish g", "roughly 500 g", "500 g or so", "500 g?"])(
  "%s is meant loosely",
  (text) => {
    expect(readQuantity(text)).toMatchObject({ kind: "mass", g: { low: 500, high: 500 }, about: true })
  },
)

test.each(["at least 500 g", "500 g or more", "min. 500 g", "500+ g", "≥ 500 g", "from 500 g", "over 500 g"])(
  "%s has no upper end",
  (text) => {
    expect(readQuantity(text)).toMatchObject({ kind: "mass", g: { low: 500, high: 500 }, openEnded: true })
  },
)

test.each(["up to 90 g", "at most 90 g", "90 g max", "< 90 g", "no more than 90 g"])(
  "%s has no lower end, which is asked for",
  (text) => {
    expect(asked(readQuantity(text))).toBe("From how much on?")
    expect(choices(readQuantity(text))).toEqual(["90 g", "0 to 90 g"])
  },
)

test("percentages are shares of the flour", () => {
  expect(readQuantity("2 %")).toEqual(percent(0.02))
  expect(readQuantity("65–70%")).toEqual(percent(0.65, 0.7))
  expect(readQuantity("2,2 percent of the flour")).toEqual(percent(0.022))
  expect(readQuantity("2 % of total flour weight")).toEqual(percent(0.02))
  expect(readQuantity("2 % (of flour)")).toEqual(percent(0.02))
})

test("nothing typed is blank, not zero", () => {
  expect(readQuantity("  ")).toEqual({ kind: "blank" })
  expect(readQuantity("0 g")).toEqual(mass(0))
})

test.each(["60-", "1e5 g", "plenty", "g", "%", "500 g ± 10 g", "500 g 🍞", "1 2 3"])(
  "%s is no amount, and is asked about",
  (text) => {
    expect(readQuantity(text)).toMatchObject({ kind: "asks", question: expect.stringMatching(/[.?]$/) })
  },
)

test.each(["1,000 g", "1,250 kg", "1.000 g", "1.250 ml"])(
  "%s could be meant in two ways, so it is asked about",
  (text) => {
    expect(asked(readQuantity(text, { name: "water" }))).toMatch(/^Is “.*” 1(000|250) or 1(\.25)?\?/)
    expect(choices(readQuantity(text, { name: "water" }))).toHaveLength(2)
  },
)

test.each([
  ["-5 g", /negative/],
  ["−5 g", /negative/],
  ["1/0 oz", /0 below the line/],
  ["90–60 g", /backwards/],
  ["1/2", /1\/2 of what\?/],
  ["two", /two of what\?/],
  ["5 %–10 g", /same kind of unit/],
  ["5 % + 10 g", /cannot be added up/],
  ["1 lb 4", /amount with its unit/],
  ["10-20-30 g", /one range/],
  ["500 g minus 1 kg", /More is taken away/],
  ["5000 %", /1000 %/],
  ["9".repeat(40), /ten tonnes/],
  ["9".repeat(100_000), /too long/],
])("%s is refused with the reason", (text, reason) => {
  expect(asked(readQuantity(text))).toMatch(reason)
})

test.each([
  ["-5 g", ["5 g"]],
  ["90–60 g", ["60 g to 90"]],
  ["1 lb 4", ["1 lb 4 oz"]],
  ["2 50 g", ["2 x 50 g"]],
  ["10O g", ["100 g"]],
  ["l00 g", ["100 g"]],
  ["11/2 lb", ["1 1/2 lb", "5 1/2 lb"]],
  ["375/400 g", ["375 to 400 g"]],
])("%s offers what was likely meant", (text, readAs) => {
  expect(readQuantity(text).kind).toBe("asks")
  expect(choices(readQuantity(text))).toEqual(readAs)
})
