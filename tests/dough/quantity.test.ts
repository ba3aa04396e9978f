import { expect, test } from "vitest"
import { type Quantity, readQuantity } from "../../server/dough/quantity/old.ts"

const mass = (low: number, high = low): Quantity => ({
  kind: "mass",
  g: { low: expect.closeTo(low, 9), high: expect.closeTo(high, 9) },
})
const percent = (low: number, high = low): Quantity => ({
  kind: "percent",
  share: { low: expect.closeTo(low, 12), high: expect.closeTo(high, 12) },
})
const why = (text: string) => {
  const quantity = readQuantity(text)
  return quantity.kind === "unread" ? quantity.why : quantity
}

test.each([
  ["468 g", 468],
  ["468", 468],
  ["100.5g", 100.5],
  ["250 Grams", 250],
  ["2,5 kg", 2500],
  ["0,125 kg", 125],
  ["1.250 kg", 1250],
  ["3 kilos", 3000],
  ["1 200 g", 1200],
  ["1\u2009200 g", 1200],
  ["1 200 300", 1_200_300],
  ["about 500 g", 500],
  ["ca. 20g", 20],
  ["~ 20 g", 20],
])("%s is %d g", (text, g) => {
  expect(readQuantity(text)).toEqual(mass(g))
})

test.each([
  ["1 oz", 28.349523125],
  ["1 lb", 453.59237],
  ["2 lbs.", 907.18474],
  ["1 lb 4 oz", 453.59237 + 4 * 28.349523125],
  ["1 lb, 4 oz", 453.59237 + 4 * 28.349523125],
  ["1/2 oz", 14.1747615625],
  ["1 1/2 lb", 680.388555],
  ["1½ pounds", 680.388555],
  ["½ lb", 226.796185],
])("%s is avoirdupois", (text, g) => {
  expect(readQuantity(text)).toEqual(mass(g))
})

test.each(["60–90 g", "60-90 g", "60 — 90 g", "60 to 90 g", "60 g-90 g", "60 g–90", "60 - 90", "about 60–90 g"])(
  "%s is a range",
  (text) => {
    expect(readQuantity(text)).toEqual(mass(60, 90))
  },
)

test("the ends of a range may have units of their own", () => {
  expect(readQuantity("900 g – 1 kg")).toEqual(mass(900, 1000))
  expect(readQuantity("1 lb 4 oz - 1 lb 8 oz")).toEqual(mass(566.9904625, 680.388555))
})

test("percentages are shares of the flour", () => {
  expect(readQuantity("2 %")).toEqual(percent(0.02))
  expect(readQuantity("65–70%")).toEqual(percent(0.65, 0.7))
  expect(readQuantity("2,2 percent of the flour")).toEqual(percent(0.022))
})

test("nothing typed is blank, not zero", () => {
  expect(readQuantity("  ")).toEqual({ kind: "blank" })
  expect(readQuantity("0 g")).toEqual(mass(0))
})

test.each(["2 eggs", "1 cup", "1 1/2 tbsp", "8 fl oz", "a pinch", "60-", "1e5 g", "plenty"])(
  "%s is left unread with what to write instead",
  (text) => {
    expect(why(text)).toBe("Volumes and counts are not read yet; give grams, kilograms, ounces, pounds or % of flour.")
  },
)

test.each(["1,000 g", "1,250 kg", "1.000 g"])("%s could be meant in two ways, so it is asked about", (text) => {
  expect(why(text)).toMatch(/^Is ".*" 1(000|250) or 1(\.25)?\?/)
})

test.each([
  ["-5 g", /negative/],
  ["−5 g", /negative/],
  ["1/0 oz", /0 below the line/],
  ["90–60 g", /backwards/],
  ["1-1/2 lb", /backwards.*1 1\/2 without a dash/],
  ["1/2", /1\/2 of what\?/],
  ["5 %–10 g", /same kind of unit/],
  ["1 lb 4", /amount with its unit/],
  ["10-20-30 g", /one range/],
  ["5000 %", /1000 %/],
  ["9".repeat(40), /ten tonnes/],
  ["9".repeat(100_000), /too long/],
])("%s is refused with the reason", (text, reason) => {
  expect(why(text)).toMatch(reason)
})
