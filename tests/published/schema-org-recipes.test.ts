import { describe, expect, test } from "vitest"
import { sayTo } from "../../server/accounts/say.ts"
import { workOut } from "../../server/dough/formula/formula.ts"
import { readSteps } from "../../server/dough/text/steps.ts"
import { bringIn } from "../../server/exchange/bring-in.ts"
import { isoDuration, minutesOf } from "../../server/exchange/durations.ts"
import { stepsIn } from "../../server/exchange/instructions.ts"
import { readFormula } from "../../server/formulas/reading.ts"
import { typedOf } from "../../server/formulas/typed.ts"

/**
 * The JSON-LD example of schema.org/Recipe, unchanged: schemaorg/schemaorg, data/examples.txt, commit
 * 002d61b9e1af237655b5c72f3304a0e2cf9ddfea (primary, text read). "The Sponsors' copyrights in the schema are licensed …
 * under the Creative Commons Attribution-ShareAlike License (version 3.0)": schema.org's terms, software/site/docs/terms.html
 * at commit 084f4c3698c773a62fb5f72b671edc8e778ccbf9; the repository's software is under the Apache License 2.0.
 */
const bananaBread = `<script type="application/ld+json">
{
  "@context": "http://schema.org", 
  "@type": "Recipe", 
  "author": "John Smith", 
  "cookTime": "PT1H", 
  "datePublished": "2009-05-08", 
  "description": "This classic banana bread recipe comes\\nfrom my mom -- the walnuts add a nice texture and flavor to the banana\\nbread.", 
  "image": "bananabread.jpg", 
  "ingredients": [
    "3 or 4 ripe bananas, smashed", 
    "1 egg", 
    "3/4 cup of sugar"
  ], 
  "interactionCount": "UserComments:140", 
  "name": "Mom's World Famous Banana Bread", 
  "nutrition": {
    "@type": "NutritionInformation", 
    "calories": "240 calories", 
    "fatContent": "9 grams fat"
  }, 
  "prepTime": "PT15M", 
  "recipeInstructions": "Preheat the oven to 350 degrees. Mix in the ingredients in a bowl. Add\\nthe flour last. Pour the mixture into a loaf pan and bake for one hour.", 
  "recipeYield": "1 loaf"
}
</script>`

describe("the example of schema.org/Recipe", () => {
  const brought = bringIn(bananaBread, { measures: "us" })
  if ("problem" in brought) throw new Error(brought.problem)
  const { content, came, left } = brought

  test("comes in with every line as it came, and is asked about where it is open", () => {
    const [{ lines } = { lines: [] }] = content.parts
    expect(brought.title).toBe("Mom's World Famous Banana Bread")
    expect(came.parts).toEqual([["3 or 4 ripe bananas, smashed", "1 egg", "3/4 cup of sugar"]])
    expect(lines.map(({ quantity, ingredient, note }) => [quantity, ingredient, note])).toEqual([
      ["3 or 4", "ripe bananas", "smashed"],
      ["1", "egg", ""],
      ["3/4 cup", "sugar", ""],
    ])
    const { parts } = workOut(content, { measures: "us" })
    // a US cup of granulated sugar is 200 g (USDA SR28, 19335)
    expect(parts[0]!.lines[2]!.g).toMatchObject({ low: 150 })
    expect(parts[0]!.lines[1]!.g).toMatchObject({ low: 50 })
  })

  test("keeps its steps, asks for the unit of 350 degrees, and knows the hour in the oven", () => {
    const bake = content.stages.findIndex(({ kind }) => kind === "bake")
    expect(content.stages[bake]).toMatchObject({ lowMin: 60, highMin: 60 })
    expect(came.stages[bake]!.asks).toEqual(["“350 degrees”: °C or °F?"])
    const words = content.stages.map(({ tip }) => tip).join(" ")
    for (const step of ["Preheat the oven to 350 degrees.", "Mix in the ingredients in a bowl.", "Add the flour last."])
      expect(words).toContain(step)
  })

  test("keeps its writer, and lists the rest word for word", () => {
    expect(content.about).toContain("This classic banana bread recipe comes")
    expect(content.about).toContain("By John Smith")
    expect(content.pieces).toBe("1")
    expect(left).toContain("nutrition: 240 calories, 9 grams fat")
    expect(left).toContain("interactionCount: UserComments:140")
    expect(left).toContain("prepTime: PT15M")
  })

  test("makes a draft that the editor takes as it is", () => {
    expect(readFormula(typedOf(brought.title, content, sayTo(undefined)), "C").errors).toEqual({})
  })
})

/**
 * Sections of steps of directions and tips: a part of the JSON-LD example of schema.org/HowTo, schemaorg/schemaorg,
 * data/sdo-howto-examples.txt, commit 06cf5d91a649c4a096bbc3a2c7642d0ddb7e546c (primary, text read), under the same terms.
 */
test("the nested steps of schema.org/HowTo are all there, tips with the step they belong to", () => {
  const step = (position: string, ...itemListElement: object[]) => ({ "@type": "HowToStep", position, itemListElement })
  const direction = (text: string) => ({ "@type": "HowToDirection", position: "1", text })
  const tip = (text: string) => ({ "@type": "HowToTip", position: "2", text })
  const sections = [
    {
      "@type": "HowToSection",
      name: "Preparation",
      position: "1",
      itemListElement: [
        step(
          "1",
          direction("Turn on your hazard lights and set the flares."),
          tip("You're going to need space and want to be visible."),
        ),
        step(
          "2",
          direction(
            "Position your wheel wedges in front of the front tires if a rear tire is flat, or behind the rear tires if a front tire is flat",
          ),
          tip("You don't want the car to move while you're working on it."),
        ),
      ],
    },
    {
      "@type": "HowToSection",
      name: "Finishing up",
      position: "3",
      itemListElement: [
        step("2", direction("Replace the hubcap.")),
        step("3", direction("Put the equipment and the flat tire away.")),
      ],
    },
  ]
  const steps = stepsIn(sections)
  expect(steps.map(({ section = "", text, tip = "" }) => [section, text, tip])).toEqual([
    [
      "Preparation",
      "Turn on your hazard lights and set the flares.",
      "You're going to need space and want to be visible.",
    ],
    [
      "",
      "Position your wheel wedges in front of the front tires if a rear tire is flat, or behind the rear tires if a front tire is flat",
      "You don't want the car to move while you're working on it.",
    ],
    ["Finishing up", "Replace the hubcap.", ""],
    ["", "Put the equipment and the flat tire away.", ""],
  ])
  const kept = readSteps(steps).flatMap(({ name, tip }) => [name, tip])
  expect(kept.join(" ")).toContain("Finishing up")
  expect(kept.join(" ")).toContain("Put the equipment and the flat tire away.")
})

/** ISO 8601 durations: "P1DT2H30M" is 26.5 h, "PT30M" half of one (schema.org/Duration; secondary). */
test.each([
  ["P1DT2H30M", 1590],
  ["PT26H30M", 1590],
  ["PT30M", 30],
  ["PT1H", 60],
  ["PT0S", 0],
  ["P1W", 10_080],
  ["P1M", undefined],
  ["T1M33S", undefined],
  ["an hour", undefined],
])("%s are %s minutes", (duration, minutes) => {
  expect(minutesOf(duration)).toBe(minutes)
})

test("a duration comes back from its ISO 8601 form to the second", () => {
  for (const minutes of [0.5, 1, 92.5, 60, 1440, 1590, 20_160]) expect(minutesOf(isoDuration(minutes))).toBe(minutes)
  expect(isoDuration(1590)).toBe("PT26H30M")
  expect(isoDuration(92.5)).toBe("PT1H32M30S")
})
