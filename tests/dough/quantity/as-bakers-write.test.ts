import { describe, expect, test } from "vitest"
import { readQuantity } from "../../../server/dough/quantity/read.ts"
import { readTemperature } from "../../../server/dough/readings.ts"
import {
  asked,
  assumptions,
  breadFlour,
  brownSugar,
  butter,
  choices,
  dryMilk,
  dryYeast,
  eggs,
  grams,
  honey,
  instantYeast,
  mass,
  milk,
  of,
  oliveOil,
  percent,
  salt,
  sugar,
  thing,
  water,
} from "./pantry.ts"

/** Ways of writing that were met in public recipes, class handouts and baking diaries. */
describe("a dash inside a fraction", () => {
  test.each([
    ["1–1/2 tsp", 9],
    ["1-1/2 tsp", 9],
    ["1 - ½ tsp", 9],
    ["1–½ tsp", 9],
  ])("%s is one and a half, unless it is chosen to be a range", (text, g) => {
    expect(grams(text, of(salt))).toBe(g)
    expect(assumptions(readQuantity(text, of(salt)))?.[0]).toMatch(/is read as 1 1\/2\.$/)
    expect(choices(readQuantity(text, of(salt)))).toContain("1/2 to 1 tsp")
  })

  test("before a range belongs to its lower end, and C is cups", () => {
    expect(readQuantity("5-1/2 to 6 C", of(breadFlour))).toEqual(mass(5.5 * 137, 6 * 137))
    expect(readQuantity("1/2-3/4 C", of(breadFlour))).toEqual(mass(137 / 2, (137 * 3) / 4))
  })

  test("is no cup when the number is a temperature's", () => {
    expect(asked(readQuantity("25 C", of(water)))).toBe("Is 25 C that many cups, or a temperature?")
    expect(grams(choices(readQuantity("25 C", of(water)))[0]!, of(water))).toBeCloseTo(25 * 236.5882365, 9)
  })
})

describe("ounces", () => {
  test.each(["9 oz", "9 oz warm milk, plus extra", "9 ounces"])("%s of a liquid: weight or volume?", (text) => {
    const quantity = readQuantity(text, of(milk))
    expect(asked(quantity)).toBe("Are these ounces of whole milk a weight, or fluid ounces?")
    expect(quantity).toMatchObject({
      choices: [{ label: "ounces by weight: 255 g" }, { label: "fluid ounces: 275 g" }],
    })
  })

  test.each([
    ["12 fluid ounces", of(water), 12 * 29.5735295625],
    ["1 1/4 ounces", of(dryMilk), 1.25 * 28.349523125],
    ["1/2 ounce", of(dryYeast), 28.349523125 / 2],
    ["9 oz by weight", of(milk), 9 * 28.349523125],
    ["9 oz (weight)", of(milk), 9 * 28.349523125],
    ["8 oz by volume", of(milk), 244],
    ["1 lb 4 oz", of(milk), 20 * 28.349523125],
    ["8 oz", of(butter), 8 * 28.349523125],
  ])("%s are plain", (text, about, g) => {
    expect(grams(text, about)).toBeCloseTo(g, 9)
  })

  test.each([of(honey), of(oliveOil), { name: "orange juice" }, { name: "water" }])(
    "of %j are asked about",
    (about) => {
      expect(asked(readQuantity("8 oz", about))).toMatch(/^Are these ounces/)
    },
  )

  test("at both ends of a range are asked about once", () => {
    expect(choices(readQuantity("8 oz to 9 oz", of(milk)))).toEqual([
      "8 oz by weight to 9 oz by weight",
      "8 fl oz to 9 fl oz",
    ])
  })
})

describe("one amount told twice", () => {
  test.each([
    ["375 g / 13 oz", 375, "13 oz", "369 g"],
    ["175 g / 6 oz", 175, "6 oz", "170 g"],
    ["15 g / 1/2 oz", 15, "1/2 oz", "14.2 g"],
    ["6 oz (175 g)", 175, "6 oz", "170 g"],
    ["60 g = 2 oz", 60, "2 oz", "56.7 g"],
  ])("%s: the metric weight counts, and what the other would be is said", (text, g, other, otherG) => {
    const quantity = readQuantity(text, of(breadFlour))
    expect(quantity).toEqual(mass(g))
    expect(assumptions(quantity)?.[0]).toContain(`“${other}” would be ${otherG}`)
    expect(choices(quantity)).toContain(other)
  })

  test("weights more than a tenth apart are asked about", () => {
    expect(asked(readQuantity("200 g / 4 oz"))).toBe("“200 g” and “4 oz” do not agree. Which is it?")
    expect(choices(readQuantity("200 g / 4 oz"))).toEqual(["200 g", "4 oz"])
  })

  test.each([
    ["3 1/2 cups (460 g)", 460, "131 g a cup"],
    ["4 cups (500 g)", 500, "125 g a cup"],
    ["500 g, 4 cups", 500, "125 g a cup"],
    ["2 sticks (8 oz)", 226.796185, "113 g a stick"],
  ])("%s: the weight counts, and says what each comes to", (text, g, each) => {
    expect(grams(text, { name: "something" })).toBeCloseTo(g, 9)
    expect(assumptions(readQuantity(text, { name: "something" }))?.[0]).toContain(each)
  })

  test("a volume far from the weight beside it is asked about", () => {
    expect(choices(readQuantity("1 cup (500 g)", of(breadFlour)))).toEqual(["500 g", "1 cup"])
  })

  test("ranges can be told twice", () => {
    const quantity = readQuantity("303-340 g (1 cup + 2 tbsp to 1 1/2 cups)", of(water))
    expect(quantity).toEqual(mass(303, 340))
    expect(choices(quantity)).toEqual(["1 cup + 2 tbsp to 1 1/2 cups"])
    expect(readQuantity("1 cup + 2 tbsp to 1 1/2 cups", of(water))).toEqual(
      mass(1.125 * 236.5882365, 1.5 * 236.5882365),
    )
  })

  test("millilitres count before cups, and every part of a sum may be told twice", () => {
    expect(grams("1 cup (240 ml)", { name: "water" })).toBe(240)
    expect(grams("1 cup (120 g) plus 2 tbsp (15 g)", of(breadFlour))).toBe(135)
    expect(grams("1 cup plus 2 tbsp (135 g)", of(breadFlour))).toBe(135)
  })

  test.each([
    ["2 cups (9 oz/255 g)", breadFlour, 255],
    ["8 tbsp (1 stick; 4 oz)", butter, 113.3980925],
    ["¼ oz (7 g) packet", dryYeast, 7],
    ["2¼ tsp (one ¼-oz packet)", dryYeast, 7.08738078125],
    ["455 g | 3 1/3 cups | 100 %", breadFlour, 455],
  ])("%s is told in every way the wrapper has", (text, ingredient, g) => {
    expect(grams(text, of(ingredient))).toBeCloseTo(g, 9)
  })

  test("a can's size is worth a question where its ounces are", () => {
    const can = thing("evaporated milk", "liquid", "cup 252; can 369")
    expect(choices(readQuantity("1 can (12 oz)", of(can)))).toEqual(["1 can (12 oz by weight)", "1 can (12 fl oz)"])
  })

  test("what agrees needs no word", () => {
    expect(assumptions(readQuantity("500 g (300 g + 200 g)"))).toEqual([])
    expect(grams("3 eggs (2 beaten first and 1 later)")).toBe(150)
    expect(grams("3 eggs, 2 beaten first and 1 later", of(eggs))).toBe(150)
  })

  test("a percentage beside it is kept apart", () => {
    expect(readQuantity("110 g (15.9 %)")).toMatchObject({ g: { low: 110 }, printed: { low: 0.159, high: 0.159 } })
    expect(readQuantity("15.9 % / 110 g")).toMatchObject({ g: { low: 110 }, printed: { low: 0.159, high: 0.159 } })
    expect(readQuantity("0.7% = 1 tbsp", of(honey))).toMatchObject({
      g: { low: 21 },
      printed: { low: 0.007, high: 0.007 },
    })
  })

  test("numbers with nothing but slashes between them are no amount", () => {
    expect(readQuantity("12/10/2024").kind).toBe("asks")
  })
})

describe("alternatives", () => {
  const told = "25 g fresh, or 12.5 g active dry, or 8.3 g instant yeast"

  test("are one of them, not a sum: that of the ingredient's own name, else the first", () => {
    expect(grams(told, of(instantYeast))).toBe(8.3)
    expect(grams(told, { name: "active dry yeast" })).toBe(12.5)
    expect(grams(told, { name: "yeast" })).toBe(25)
    expect(assumptions(readQuantity(told, { name: "yeast" }))).toEqual([
      "One of the alternatives counts: “25 g fresh”.",
    ])
    expect(choices(readQuantity(told, { name: "yeast" }))).toEqual(["12.5 g", "8.3 g"])
    expect(grams("25 g fresh (or 8 g instant)", { name: "yeast" })).toBe(25)
  })

  test("of the very same thing that are not the same amount are asked about", () => {
    const quantity = readQuantity("2 tbsp yeast or two packets", of(dryYeast))
    expect(asked(quantity)).toBe("The alternatives are not the same amount. Which one is it?")
    expect(choices(quantity)).toEqual(["2 tbsp", "two packets"])
  })

  test("by weight come before others of the same thing", () => {
    expect(grams("1 cup or 240 g", of(milk))).toBe(240)
  })

  test("with one unit between them are a range", () => {
    expect(readQuantity("1 or 2 tbsp", of(honey))).toEqual(mass(21, 42))
  })
})

describe("something added", () => {
  test("in the same unit may be a rescue, so it is asked about", () => {
    const quantity = readQuantity("804 g + 100 g")
    expect(asked(quantity)).toBe("Does all of “804 g + 100 g” belong to the formula, or was some added later?")
    expect(choices(quantity)).toEqual(["904 g", "804 g"])
    expect(choices(readQuantity("+ 100 g"))).toEqual(["100 g"])
  })

  test("in another unit is one amount, and says so", () => {
    const pounds = readQuantity("1 pound plus 1/4 cup", of(butter))
    expect(pounds).toEqual(mass(453.59237 + 227 / 4))
    expect(assumptions(pounds)).toContain("“1 pound plus 1/4 cup” is counted as one amount.")
    const spoon = readQuantity("1/4 cup + 1 Tbsp", of(sugar))
    expect(spoon).toEqual(mass(50 + 12.6))
    expect(choices(spoon)).toContain("1/4 cup")
    expect(grams("400 g water, and 2 tbsp more with the salt", of(water))).toBeCloseTo(400 + 2 * 14.78676478125, 9)
  })

  test("may be taken away", () => {
    expect(grams("1 cup less 1 tbsp", of(water))).toBeCloseTo(15 * 14.78676478125, 9)
  })

  test.each([
    "500 g plus extra for dusting",
    "500 g, plus more as needed",
    "500 g (plus extra)",
    "500 g and a little more",
  ])("%s: the extra is not counted", (text) => {
    expect(grams(text, of(breadFlour))).toBe(500)
    expect(assumptions(readQuantity(text, of(breadFlour)))?.[0]).toMatch(/is not counted\.$/)
  })
})

describe("an amount that cannot be right or is not one", () => {
  test("1.2 cup is likelier a half", () => {
    const quantity = readQuantity("1.2 cup", of(breadFlour))
    expect(asked(quantity)).toBe("Is “1.2” 1/2, or 1 1/5?")
    expect(choices(quantity)).toEqual(["1/2 cup", "1 1/5 cup"])
    expect(grams("1.5 cups", of(breadFlour))).toBe(205.5)
    expect(grams("1.2 kg", of(breadFlour))).toBe(1200)
    expect(readQuantity("3.4 tsp", of(salt)).kind).toBe("asks")
  })

  test.each([
    ["1 lb flour to 10 fl oz water", { name: "flour" }, /names more than one thing/],
    ["1 lb flour to 10 fl oz water", {}, /names more than one thing/],
    ["1:5:5", {}, /a ratio/],
    ["2 parts", {}, /a ratio/],
    ["170% of the initial volume", {}, /a rise, not an amount/],
    ["inoculation 20% at 100% hydration", {}, /inoculation/],
    ["dough temp 206", {}, /temperature/],
    ["25 °C", {}, /temperature/],
    ["75 F", {}, /temperature/],
    ["2 hours", {}, /a time/],
    ["40minSalt", {}, /a count, grams or something else/],
    ["4hrs.(28-30°c)", {}, /a time/],
    ["5:10-9:10 (0:10-4:10)", {}, /a ratio/],
    ["first bake plus 30", {}, /cannot be read as an amount/],
    ["oven warmed to 40-50", {}, /cannot be read as an amount/],
    ["salt 2%, of the whole dough", { name: "salt" }, /cannot be of “the whole dough”/],
    ["110 g of 630 g", { name: "levain" }, /do not agree/],
    ["20 cm", {}, /a length/],
    ["550 g + 332 g mixed, 850 g of it used", { name: "levain" }, /“mixed”.*“used”/],
    ["450 g levain made, 278 g used", { name: "levain" }, /“made”.*“used”/],
    ["500 g per loaf", of(breadFlour), /“per”, “loaf”/],
    ["500 g twice", of(breadFlour), /“twice”/],
    ["500 g rye", of(breadFlour), /“rye”/],
    ["half the flour", of(breadFlour), /^How much is half the flour\?/],
    ["3/4 of the water", of(water), /^How much is 3\/4 of the water\?/],
    ["2 % milk", of(milk), /a kind of it, or its share of the flour/],
  ])("%s is asked about", (text, about, question) => {
    expect(asked(readQuantity(text, about))).toMatch(question)
  })

  test("two amounts made and used can be chosen between", () => {
    expect(choices(readQuantity("450 g levain made, 278 g used", { name: "levain" }))).toEqual(["450 g", "278 g"])
  })

  test.each(["2%, of the whole dough", "2 % of the dough weight", "2 % (of the whole dough)", "2 % of the water"])(
    "%s is no baker's percentage, and is not turned into one silently",
    (text) => {
      expect(asked(readQuantity(text, of(salt)))).toMatch(/^A percentage is of the flour here, and cannot be of/)
      expect(choices(readQuantity(text, of(salt)))).toEqual(["2 %"])
    },
  )

  test("half the flour can be a percentage", () => {
    expect(choices(readQuantity("half the flour", of(breadFlour)))).toEqual(["50 %"])
    expect(readQuantity("50 %")).toEqual(percent(0.5))
  })
})

describe("remarks", () => {
  test.each([
    ["60–90 g water, hold back", mass(60, 90)],
    ["60–90 g (hold back some)", mass(60, 90)],
    ["90 g at 30 °C", mass(90)],
    ["90 g (85 °F)", mass(90)],
    ["90 g for the levain", mass(90)],
    ["90 g, divided", mass(90)],
    ["90 g, boiled, to pour over", mass(90)],
    ["90 g or as needed", mass(90)],
    ["90 g!", mass(90)],
    ["90 g…", mass(90)],
    ["90 g warm water", mass(90)],
    ["90 g of the water", mass(90)],
  ])("%s are no part of the amount", (text, expected) => {
    expect(readQuantity(text, of(water))).toEqual(expected)
  })

  test("that say more than how warm or how cut it is are shown", () => {
    expect(assumptions(readQuantity("90 g, hold back", of(water)))).toEqual(["“hold back” is taken as a note."])
    expect(assumptions(readQuantity("90 g at 30 °C", of(water)))).toEqual(["“30 °C” is taken as a note."])
    expect(assumptions(readQuantity("90 g, melted", of(butter)))).toEqual([])
  })

  test("may tell which milk or levain it is", () => {
    expect(grams("1 cup 2% milk", { ...of(milk), name: "milk" })).toBe(244)
    expect(grams("100 g levain (100% hydration)", { name: "levain" })).toBe(100)
  })

  test("name the thing where no ingredient does", () => {
    expect(grams("1 cup water")).toBeCloseTo(236.5882365, 9)
    expect(asked(readQuantity("1 cup flour"))).toContain("of flour weigh?")
  })

  test("at least so many cups", () => {
    expect(readQuantity("at least 10 cups", of(breadFlour))).toMatchObject({ g: { low: 1370 }, openEnded: true })
  })
})

test("a choice reads without the question it answers, also where two things were doubtful", () => {
  const doubtful = readQuantity("1.2 cup or 9 oz", of(milk))
  expect(doubtful.kind).toBe("asks")
  for (const readAs of choices(doubtful)) expect(readQuantity(readAs, of(milk)).kind).toBe("mass")
  expect(choices(doubtful).length).toBeGreaterThan(1)
})

test("own names may hold what a pattern would stumble over", () => {
  const own = thing("seed mix (a+b) [*", "inclusion", "s(coop 30")
  expect(grams("2 g", of(own))).toBe(2)
  expect(grams("2", of(own))).toBe(2)
})

test("packed brown sugar is the usual one", () => {
  expect(grams("1 cup", of(brownSugar))).toBe(220)
})

/** Readings of a thermometer are no amounts: the field they are typed into asks for itself. */
describe("a temperature typed into its field", () => {
  test.each([
    ["206", "C", "Is that 20.6 °C?"],
    ["75", "C", "Is that 75 °F?"],
    ["40-50", "C", "as a number"],
    ["28-30°c", "C", "as a number"],
  ] as const)("%s in °%s is asked about", (text, unit, question) => {
    expect(readTemperature(text, unit, "dough")).toEqual({ error: expect.stringContaining(question) })
  })

  test("23 °C and 75 °F differ by one degree, and stay apart", () => {
    const [c, f] = [readTemperature("23 °C", "F", "room"), readTemperature("75 °F", "C", "room")]
    expect(c).toEqual({ value: 23 })
    expect("value" in f && f.value - 23).toBeCloseTo(0.89, 2)
  })
})
