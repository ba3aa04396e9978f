import { expect, test } from "vitest"
import { readQuantity } from "../../../server/dough/quantity/read.ts"
import { splitLine } from "../../../server/dough/quantity/split-line.ts"
import { breadFlour, of } from "./pantry.ts"

test.each([
  ["1 1/2 cups bread flour, sifted", "1 1/2 cups", "bread flour", "sifted"],
  ["1½ cups (350 ml) lukewarm water", "1½ cups (350 ml)", "lukewarm water", ""],
  ["3 1/2 cups (460 g) bread flour, sifted", "3 1/2 cups (460 g)", "bread flour", "sifted"],
  ["375 g / 13 oz strong white flour", "375 g / 13 oz", "strong white flour", ""],
  ["60–90 g water, hold back", "60–90 g", "water", "hold back"],
  ["5-1/2 to 6 C flour", "5-1/2 to 6 C", "flour", ""],
  ["at least 10 cups flour", "at least 10 cups", "flour", ""],
  ["half a cup of sugar", "half a cup", "sugar", ""],
  ["1 (8-oz) package cream cheese", "1 (8-oz) package", "cream cheese", ""],
  ["1 envelope (7 g) instant yeast", "1 envelope (7 g)", "instant yeast", ""],
  ["pinch of salt", "pinch", "salt", ""],
  ["2 good pinches salt", "2 good pinches", "salt", ""],
  ["2 1/2 cups nuts and raisins", "2 1/2 cups", "nuts and raisins", ""],
  ["12 oz (340 g) butter, softened and cubed", "12 oz (340 g)", "butter", "softened and cubed"],
  ["9 oz warm milk, plus extra", "9 oz", "warm milk", "plus extra"],
  ["1 cup water at 110 degrees F", "1 cup", "water", "at 110 degrees F"],
  ["1 cup 2% milk", "1 cup", "2% milk", ""],
  ["1 cup good olive oil", "1 cup", "good olive oil", ""],
  ["350 g water (70 %)", "350 g (70 %)", "water", ""],
  ["804 g + 100 g water", "804 g + 100 g", "water", ""],
  ["1 pound plus 1/4 cup butter", "1 pound plus 1/4 cup", "butter", ""],
])("%s begins with its amount", (line, quantity, ingredient, note) => {
  expect(splitLine(line)).toEqual({ quantity, ingredient, note })
})

test.each([
  ["Bread flour 500 g", "500 g", "Bread flour", ""],
  ["flour: 500 g", "500 g", "flour", ""],
  ["Olive oil, 2 tbsp", "2 tbsp", "Olive oil", ""],
  ["Water, 350 g, 70 %", "350 g, 70 %", "Water", ""],
  ["Salt to taste", "to taste", "Salt", ""],
  ["salt, to taste", "to taste", "salt", ""],
  ["00 flour 500 g", "500 g", "00 flour", ""],
  ["T65 flour 500 g", "500 g", "T65 flour", ""],
  ["2% milk 200 g", "200 g", "2% milk", ""],
  ["salt 2%, of the whole dough", "2%, of the whole dough", "salt", ""],
])("%s ends with its amount", (line, quantity, ingredient, note) => {
  expect(splitLine(line)).toEqual({ quantity, ingredient, note })
})

test.each([
  ["2 large eggs, beaten", "2 large", "eggs", "beaten"],
  ["a dozen eggs", "a dozen", "eggs", ""],
  ["3 egg yolks", "3", "egg yolks", ""],
  ["2 eggs (100 g)", "2 (100 g)", "eggs", ""],
  ["1 egg plus 1 egg yolk, beaten", "1 egg plus 1 egg yolk", "egg", "beaten"],
  ["1 1/2 sticks butter", "1 1/2 sticks", "butter", ""],
  ["2 pkg. yeast", "2 pkg.", "yeast", ""],
  ["3 carrots", "3 carrots", "carrots", ""],
])("%s counts", (line, quantity, ingredient, note) => {
  expect(splitLine(line)).toEqual({ quantity, ingredient, note })
})

test.each([
  [
    "25 g fresh, or 12.5 g active dry, or 8.3 g instant yeast",
    "25 g fresh, or 12.5 g active dry, or 8.3 g instant yeast",
    "yeast",
  ],
  ["100 g butter or 80 g olive oil", "100 g butter or 80 g olive oil", "butter"],
  ["2 tbsp yeast or two packets", "2 tbsp yeast or two packets", "yeast"],
  ["1 lb flour to 10 fl oz water", "1 lb flour to 10 fl oz water", ""],
  ["0.7% honey = 1 tbsp", "0.7% = 1 tbsp", "honey"],
  ["450 g levain made, 278 g used", "450 g, 278 g used", "levain made"],
])("%s keeps all its amounts together", (line, quantity, ingredient) => {
  expect(splitLine(line)).toEqual({ quantity, ingredient, note: "" })
})

test("a spoon that goes in elsewhere stays with the amount, and where it goes is a note", () => {
  expect(splitLine("1/4 cup brown sugar + 1 Tbsp (the spoonful goes in the yeast water)")).toEqual({
    quantity: "1/4 cup + 1 Tbsp",
    ingredient: "brown sugar",
    note: "the spoonful goes in the yeast water",
  })
})

test.each(["- 500 g flour", "• 500 g flour", "1. 500 g flour", "2) 500 g flour", "  500 g flour  "])(
  "%j is a line of a list",
  (line) => {
    expect(splitLine(line)).toEqual({ quantity: "500 g", ingredient: "flour", note: "" })
  },
)

test.each([
  ["", { quantity: "", ingredient: "", note: "" }],
  ["water", { quantity: "", ingredient: "water", note: "" }],
  ["500", { quantity: "500", ingredient: "", note: "" }],
  ["flour for dusting", { quantity: "", ingredient: "flour", note: "for dusting" }],
  ["x".repeat(1000), { quantity: "", ingredient: "", note: "x".repeat(1000) }],
])("%j", (line, fields) => {
  expect(splitLine(line)).toEqual(fields)
})

test("what was taken apart reads as the line did", () => {
  const { quantity } = splitLine("3 1/2 cups (460 g) bread flour, sifted")
  expect(readQuantity(quantity, of(breadFlour))).toMatchObject({ kind: "mass", g: { low: 460 } })
})
