import { describe, expect, test } from "vitest"
import { readQuantity } from "../../../server/dough/quantity/read.ts"
import {
  asked,
  assumptions,
  banana,
  breadFlour,
  brownSugar,
  butter,
  choices,
  dryYeast,
  eggs,
  freshYeast,
  grams,
  honey,
  icingSugar,
  instantYeast,
  milk,
  of,
  oliveOil,
  salt,
  sugar,
  thing,
  water,
  wholeWheat,
} from "./pantry.ts"

describe("a volume", () => {
  test.each([
    ["1 cup", 137],
    ["1 1/2 cups", 205.5],
    ["1½ C", 205.5],
    ["half a cup", 68.5],
    ["a quarter of a cup", 34.25],
    ["two thirds cup", (137 * 2) / 3],
    ["three-quarters cup", 102.75],
    ["one and a half cups", 205.5],
    ["a cup and a half", 205.5],
    ["1 and 1/2 cups", 205.5],
    ["2 cups + 1 tbsp", 274 + 137 / 16],
    ["1 cup 2 tbsp", 137 * 1.125],
    ["16 Tbsp.", 137],
    ["48 tsps", 137],
    ["8 fl. oz.", 137],
    ["1/2 pint", 137],
    ["1/4 qt", 137],
  ])("%s of bread flour is %d g", (text, g) => {
    expect(grams(text, of(breadFlour))).toBeCloseTo(g, 9)
  })

  test("says what its grams rest on, and whose measure it is", () => {
    expect(assumptions(readQuantity("1 cup", of(wholeWheat)))).toEqual([
      "1 US cup (237 ml) of whole wheat flour is taken as 120 g: USDA SR28, NDB 20080.",
    ])
    expect(assumptions(readQuantity("2 tbsp", of(wholeWheat, "metric")))).toEqual([
      "1 metric tbsp (15 ml) of whole wheat flour is taken as 7.6 g, from 120 g a US cup: USDA SR28, NDB 20080.",
    ])
  })

  test.each([
    ["us", 137],
    ["us-label", (137 * 240) / 236.5882365],
    ["metric", (137 * 250) / 236.5882365],
    ["imperial", (137 * 284.130625) / 236.5882365],
  ] as const)("of a %s cup is %d g", (measures, g) => {
    expect(grams("1 cup", of(breadFlour, measures))).toBeCloseTo(g, 9)
  })

  test("of another measure than one's own can be written, or chosen", () => {
    expect(grams("1 metric cup", of(wholeWheat))).toBeCloseTo((120 * 250) / 236.5882365, 9)
    expect(grams("1 UK pint", of(water))).toBeCloseTo(568.26125, 9)
    expect(grams("2 Australian tbsp", of(water))).toBeCloseTo(40, 9)
    expect(grams("2 EL", of(water))).toBeCloseTo(30, 9)
    expect(choices(readQuantity("1 cup", of(wholeWheat)))).toEqual(["1 metric cup", "1 imperial cup"])
    expect(choices(readQuantity("1 tbsp", of(wholeWheat, "metric")))).toEqual(["1 Australian tbsp"])
    expect(choices(readQuantity("1 US cup", of(wholeWheat)))).toEqual([])
  })

  test("that a system does not have is asked about", () => {
    const pint = readQuantity("1 pint", of(milk, "metric"))
    expect(asked(pint)).toBe("Whose pint is meant? There is no metric one.")
    expect(choices(pint)).toEqual(["1 US pint", "1 imperial pint"])
  })

  test("uses the weight of the same spoon before that of a cup", () => {
    expect(grams("1 tbsp", of(honey))).toBe(21)
    expect(grams("1 tsp", of(honey))).toBeCloseTo(7, 9)
    expect(grams("1 cup", of(honey))).toBe(339)
  })

  test.each([
    ["500 ml", 500],
    ["5 dl", 500],
    ["50 cl", 500],
    ["0,5 l", 500],
    ["1/2 L", 500],
    ["500 cc", 500],
  ])("%s of water is %d g", (text, g) => {
    expect(grams(text, { name: "water" })).toBeCloseTo(g, 9)
    expect(grams(text, of(water))).toBeCloseTo(g, 9)
  })

  test("in metric units says its density by 100 ml", () => {
    expect(assumptions(readQuantity("250 ml", of(milk)))).toEqual([
      "100 ml of whole milk is taken as 103 g, from 244 g a US cup: USDA SR28, NDB 01077.",
    ])
  })

  test("that can be packed gives its range and both ends to choose from", () => {
    const flour = readQuantity("2 cups", of(breadFlour))
    expect(assumptions(flour)?.[1]).toBe("Loosely filled or packed, it weighs 115–150 g; weigh it where you can.")
    expect(choices(flour).slice(0, 2)).toEqual(["2 cups loosely packed", "2 cups packed"])
    expect(grams("2 cups loosely packed", of(breadFlour))).toBeCloseTo(230, 9)
    expect(grams("2 cups packed", of(breadFlour))).toBeCloseTo(300, 9)
  })

  test.each([
    ["1 cup packed", brownSugar, 220],
    ["1 cup, firmly packed", brownSugar, 220],
    ["1 cup unpacked", brownSugar, 145],
    ["1 cup", brownSugar, 220],
    ["1 cup sifted", icingSugar, 100],
    ["1 cup", icingSugar, 120],
    ["1 level tsp", salt, 6],
  ])("%s of what the tables know filled so", (text, ingredient, g) => {
    expect(grams(text, of(ingredient))).toBeCloseTo(g, 9)
  })

  test.each(["1 heaped tbsp", "1 scant cup", "a generous cup"])(
    "%s has no size of its own, so it is about level",
    (text) => {
      expect(readQuantity(text, of(sugar))).toMatchObject({ about: true })
      expect(assumptions(readQuantity(text, of(sugar)))?.at(-1)).toMatch(/counted as level/)
    },
  )

  test("of a thing nobody has weighed is asked for in grams", () => {
    expect(asked(readQuantity("1 cup", { name: "purple flour" }))).toBe(
      "What does 1 US cup (237 ml) of purple flour weigh? Give the amount in grams.",
    )
    expect(asked(readQuantity("1 cup", of(instantYeast)))).toMatch(/^What does 1 US cup/)
    expect(asked(readQuantity("1 cup", { name: "ice" }))).toMatch(/^What does 1 US cup/)
    expect(asked(readQuantity("1 cup", { name: "rose water" }))).toMatch(/^What does 1 US cup/)
  })

  test("T and t tell the spoon, and say so", () => {
    expect(grams("1 T", of(salt))).toBe(18)
    expect(grams("1 t.", of(salt))).toBe(6)
    expect(assumptions(readQuantity("1 T", of(salt)))?.[0]).toBe("T with a capital is read as tablespoon.")
  })
})

describe("a count", () => {
  test.each([
    ["3 eggs", {}, 150],
    ["two eggs", {}, 100],
    ["a dozen eggs", {}, 600],
    ["half a dozen", of(eggs), 300],
    ["2 dozen", of(eggs), 1200],
    ["3", of(eggs), 150],
    ["half an egg", of(eggs), 25],
    ["2 large", { name: "eggs" }, 100],
    ["2", { name: "eggs, large" }, 100],
    ["2 medium eggs", of(eggs), 88],
    ["2 eggs, extra-large", of(eggs), 112],
    ["2 jumbo eggs", {}, 126],
    ["1 small egg", {}, 38],
    ["3 egg yolks", {}, 51],
    ["3", { name: "egg yolks" }, 51],
    ["3 whites", of(eggs), 99],
    ["3", { name: "egg whites" }, 99],
    ["3", { name: "white eggs" }, 150],
    ["1 egg + 1 yolk", of(eggs), 67],
    ["2 EU M eggs", {}, 2 * 58 * 0.88],
    ["1 large free-range egg, lightly beaten", of(eggs), 50],
    ["2 eggs (size L)", {}, 2 * 68 * 0.88],
    ["2 L eggs", {}, 2 * 68 * 0.88],
    ["2 eggs, L", {}, 2 * 68 * 0.88],
    ["2 UK large eggs", {}, 2 * 68 * 0.88],
    ["2 XL eggs", of(eggs, "metric"), 2 * 78 * 0.88],
    ["2 XL eggs", of(eggs), 112],
  ])("%s weighs what the tables give without shell", (text, about, g) => {
    expect(grams(text, about)).toBeCloseTo(g, 9)
  })

  test("of eggs without a size takes the usual one where one lives, and offers the others", () => {
    expect(assumptions(readQuantity("3 eggs"))).toEqual([
      "One US large egg is taken as 50 g without its shell: USDA SR28.",
    ])
    expect(choices(readQuantity("3 eggs"))).toEqual([
      ...["3 US medium eggs", "3 US extra large eggs", "3 EU M eggs", "3 EU L eggs"],
    ])
    expect(grams("3 eggs", { measures: "metric" })).toBeCloseTo(3 * 58 * 0.88, 9)
    expect(assumptions(readQuantity("1 egg", { measures: "imperial" }))?.[0]).toMatch(/^One EU M egg is taken as 51 g/)
  })

  test("of large eggs asks no more than whose large", () => {
    expect(choices(readQuantity("2 large eggs"))).toEqual(["2 EU L eggs"])
    expect(choices(readQuantity("2 large eggs", { measures: "metric" }))).toEqual(["2 US large eggs"])
    expect(choices(readQuantity("2 eggs (size M)"))).toEqual([])
  })

  test("of eggs never counts the shell, and a weight in the shell loses it", () => {
    expect(grams("2 large eggs in shell", of(eggs))).toBe(100)
    expect(grams("120 g in shell", of(eggs))).toBeCloseTo(105.6, 9)
    expect(choices(readQuantity("120 g in shell", of(eggs)))).toEqual(["120 g"])
    expect(grams("100 g without shell", of(eggs))).toBe(100)
  })

  test("a bare number is pieces only of what is counted, and only while it is small", () => {
    expect(grams("12", of(eggs))).toBe(600)
    expect(asked(readQuantity("20", of(eggs)))).toBe("Is that 20 eggs, or grams?")
    expect(grams("100", of(eggs))).toBe(100)
    expect(grams("2", of(banana))).toBe(236)
    expect(grams("2", of(butter))).toBe(2)
  })

  test.each([
    ["1 1/2 sticks", of(butter), 169.5],
    ["half a stick", of(butter), 56.5],
    ["1 stick", { name: "unsalted butter" }, 4 * 28.349523125],
    ["2 pats", of(butter), 10],
    ["2 pkg.", of(dryYeast), 14.4],
    ["1 packet", of(instantYeast), 7],
    ["2 sachets", { name: "dried yeast" }, 14],
    ["1 envelope", { name: "instant yeast" }, 7],
    ["1 cake", of(freshYeast), 17],
    ["2 cubes of 42 g", of(freshYeast), 84],
    ["1 large banana", of(banana), 136],
  ])("%s", (text, about, g) => {
    expect(grams(text, about)).toBeCloseTo(g, 9)
  })

  test("a cube of fresh yeast weighs what it weighs in some country, so it is asked", () => {
    const cube = readQuantity("1 cube", of(freshYeast))
    expect(asked(cube)).toBe("What does one cube of fresh yeast weigh?")
    expect(choices(cube)).toEqual([17, 25, 40, 42, 50, 57].map((g) => `1 cube of ${g} g`))
  })

  test.each([
    ["2 cans", { name: "pumpkin" }, /^What does one can of pumpkin weigh\?/],
    ["1 packet", { name: "baking powder" }, /^What does one packet of baking powder weigh\?/],
    ["1 stick", of(honey), /^What does one stick of honey weigh\?/],
    ["3 carrots", {}, /^Is that a count/],
    ["3 cloves", { name: "garlic" }, /^Is that a count/],
    ["3 carrots + 100 g", { name: "carrots" }, /^Is that a count/],
    ["1 large carrot", { name: "carrot" }, /^What does one large carrot weigh\?/],
    ["100 g in shell", { name: "walnuts" }, /^What does it weigh without its shell\?/],
  ])("%s of what nobody has weighed is asked for", (text, about, question) => {
    expect(asked(readQuantity(text, about))).toMatch(question)
  })

  test.each([
    ["2 x 250 g", 500],
    ["2x250g", 500],
    ["250 g x 2", 500],
    ["1 (8-oz) package", 226.796185],
    ["2 8-oz packages", 453.59237],
    ["8-oz package", 226.796185],
    ["a 500 g bag", 500],
    ["2 cans (400 g each)", 800],
    ["2 cans, 400 g each", 800],
    ["2 packets of 7 g", 14],
    ["1 (7 g) sachet", 7],
  ])("%s is %d g in all", (text, g) => {
    expect(grams(text, { name: "cream cheese" })).toBeCloseTo(g, 9)
  })

  test("packs after a number that could be two are asked about", () => {
    expect(choices(readQuantity("2 250 g packages"))).toEqual(["2 x 250 g packages", "2250 g packages"])
    expect(choices(readQuantity("1 1/2 oz packet"))).toEqual(["1 x 1/2 oz packet", "1.5 oz packet"])
    expect(asked(readQuantity("100 g each"))).toBe("How many of “100 g” are there?")
  })
})

describe("a little", () => {
  test("a pinch is a sixteenth of a teaspoon, and only about", () => {
    const pinches = readQuantity("2 good pinches", of(salt))
    expect(pinches).toMatchObject({ kind: "mass", g: { low: 0.75, high: 0.75 }, about: true, choices: [] })
    expect(assumptions(pinches)).toEqual([
      "A pinch is taken as 1/16 tsp (common practice).",
      "1 US tsp (4.93 ml) of salt is taken as 6 g: USDA SR28, NDB 02047.",
    ])
    expect(grams("pinch", of(salt))).toBe(0.375)
    expect(grams("1 Prise", of(salt))).toBe(0.375)
    expect(asked(readQuantity("a pinch", { name: "cardamom" }))).toMatch(/^A pinch of cardamom has no known weight/)
  })

  test.each([
    "a handful",
    "1 knob",
    "a drizzle",
    "to taste",
    "as needed",
    "some",
    "a few",
    "a dash",
    "the rest",
    "2 glasses",
  ])("%s has no honest figure", (text) => {
    expect(asked(readQuantity(text, of(oliveOil)))).toMatch(/weight|weigh|How much/)
  })

  test("a dash or a spoon offers what could be measured", () => {
    expect(choices(readQuantity("a dash", of(salt)))).toEqual(["1/8 tsp"])
    expect(choices(readQuantity("2 spoons", of(sugar)))).toEqual(["2 tbsp", "2 tsp"])
  })

  test("a dash that was once weighed for a table is that weight", () => {
    expect(grams("1 dash", of(thing("salt", "salt", "dash 0.4")))).toBe(0.4)
  })

  test("a figure before 'to taste' counts, about", () => {
    expect(readQuantity("10 g, to taste", of(salt))).toMatchObject({ g: { low: 10, high: 10 }, about: true })
  })
})
