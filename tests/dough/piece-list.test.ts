import { expect, test } from "vitest"
import { readPieceMasses } from "../../server/dough/piece-list.ts"

test.each([
  ["92, 88, 95 g 90", [92, 88, 95, 90]],
  ["92 88\n95\r\n90", [92, 88, 95, 90]],
  ["92;88 ; 95g, 90 grams", [92, 88, 95, 90]],
  ["92,88,95,101", [92, 88, 95, 101]],
  ["92,5 88.5 .1kg", [92.5, 88.5, 100]],
  ["900", [900]],
])("%j in grams is %j", (text, expected) => {
  expect(readPieceMasses(text, "g")).toEqual({ value: expected })
})

test.each([
  ["3.25 3.5", [92.1359501, 99.2233309]],
  ["1 lb 2 oz, 1 lb", [510.2914163, 453.59237]],
  ["1lb 2.5oz 18 oz", [524.4661778, 510.2914163]],
  ["95 g 90", [95, 90]],
])("%j of somebody who weighs in ounces", (text, expected) => {
  const read = readPieceMasses(text, "oz")
  const masses = "value" in read ? read.value : []
  expect(masses).toHaveLength(expected.length)
  masses.forEach((g, i) => {
    expect(g).toBeCloseTo(expected[i]!, 6)
  })
})

test.each([
  ["", "Give the mass of each piece"],
  [" , ;", "Give the mass of each piece"],
  ["92 ninety", "92 ninety: give the mass of one piece"],
  ["92, about 88", "about: give the mass of one piece"],
  ["88-95", "88-95: give the mass of one piece"],
  ["92 -88", "-88: give the mass of one piece"],
  ["92 −88", "-88: give the mass of one piece"],
  ["92 constructor", "92 constructor: give the mass"],
  ["1.2 kg, 1 210 g", "1: that is too little"],
  ["0 92", "0: that is too little"],
  ["92 g 9 kg 95000 g", "95000 g: that is too much"],
  ["92 g 3.2 oz 90", "90: is that g or oz?"],
  ["92,88", "Is 92,88 one piece or several?"],
  ["92,5,88,5", "Is 92,5,88,5 one piece or several?"],
  ["1,250 g", "Is 1,250 one piece or several?"],
])("%j is refused in words", (text, words) => {
  expect(readPieceMasses(text, "g")).toEqual({ error: expect.stringContaining(words) })
})

test("two hundred pieces are read, one more is refused", () => {
  const pieces = (count: number) => readPieceMasses(Array(count).fill("90").join(", "), "g")
  expect(pieces(200)).toEqual({ value: Array(200).fill(90) })
  expect(pieces(201)).toEqual({ error: "That is 201 pieces; up to 200 are kept." })
})
