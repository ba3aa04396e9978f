import { expect, test } from "vitest"
import { durationsIn } from "../../../server/dough/text/durations.ts"
import { headingIn } from "../../../server/dough/text/headings.ts"
import { isIngredient } from "../../../server/dough/text/ingredient-lines.ts"
import { sentencesOf } from "../../../server/dough/text/lines.ts"
import { readSteps } from "../../../server/dough/text/steps.ts"
import { temperaturesIn } from "../../../server/dough/text/temperatures.ts"

test.each<[string, [number, number][]]>([
  ["for 4–5 hours", [[240, 300]]],
  ["4 h 30 to 6 hrs", [[270, 360]]],
  ["45 min to 1 hour", [[45, 60]]],
  ["1 hour and 30 minutes", [[90, 90]]],
  ["1h30 at least", [[90, 90]]],
  ["an hour and a half", [[90, 90]]],
  ["half an hour", [[30, 30]]],
  ["three quarters of an hour", [[45, 45]]],
  [
    "1 1/2 hours, or 1½ hours",
    [
      [90, 90],
      [90, 90],
    ],
  ],
  ["two days", [[2880, 2880]]],
  [
    "20 minutes covered and 25-30 mins uncovered",
    [
      [20, 20],
      [25, 30],
    ],
  ],
  ["40minSalt", [[40, 40]]],
  ["folds every 30 minutes", []],
  ["after the first 20 minutes", []],
  ["feed it 12 hours before", []],
  ["at 5:10-9:10", []],
  ["a 30-second soak of 500 g for 2 m", [[2, 2]]],
])("%j lasts %j", (words, minutes) => {
  expect(durationsIn(words).map(({ lowMin, highMin }) => [lowMin, highMin])).toEqual(minutes)
})

test.each<[string, number[], number]>([
  ["at 24 °C", [24, 24], 0],
  ["24-26C", [24, 26], 0],
  ["28-30°c", [28, 30], 0],
  ["475°F/245°C", [246.1, 246.1], 0],
  ["75 °F (24 °C)", [23.9, 23.9], 0],
  ["23 °C and 75 °F", [], 1],
  ["350 degrees", [], 1],
  ["gas mark 7", [], 1],
  ["oven at 230", [], 1],
  ["500 g for 30 min", [], 0],
])("%j is at %j °C, with %i questions", (words, range, asks) => {
  const { sure, asks: asked } = temperaturesIn(words)
  expect(sure.flatMap(({ lowC, highC }) => [lowC, highC]).map((c) => Number(c.toFixed(1)))).toEqual(range)
  expect(asked).toHaveLength(asks)
})

test.each([
  ["For the levain:", "Levain"],
  ["Levain", "Levain"],
  ["**Final dough**", "Final dough"],
  ["## Filling", "Filling"],
  ["LEVAIN (night before):", "LEVAIN (night before)"],
  ["Dry ingredients:", "Dry ingredients"],
])("%j is the heading of a part", (line, name) => {
  expect(headingIn(line)).toMatchObject({ opens: "part", name })
})

test.each(["Levain: 100 g", "Bake at 230 °C:", "Mix well.", "flour", "100 g levain"])("%j is no heading", (line) => {
  expect(headingIn(line)).toBeUndefined()
})

test.each(["500 g flour", "- 2 eggs", "Salt: 10 g", "1 tbsp. honey", "½ tsp yeast", "pinch of salt"])(
  "%j is an ingredient",
  (line) => {
    expect(isIngredient(line)).toBe(true)
  },
)

test.each(["Bake 45 minutes", "Mix 500 g flour with the water", "1 hour rest", "It makes 2 loaves.", "Levain"])(
  "%j is none",
  (line) => {
    expect(isIngredient(line)).toBe(false)
  },
)

test("a stop after an abbreviation ends no sentence", () => {
  expect(sentencesOf("Rest approx. 30 min. Add the salt (10 g). Fold.")).toEqual([
    "Rest approx. 30 min.",
    "Add the salt (10 g).",
    "Fold.",
  ])
})

test("a step with two things to do, each with its time, is two stages; heating the oven goes with the bake", () => {
  const steps = [
    "Heat the oven to 250 °C.",
    "Knead for 10 minutes, then let it rest for half an hour.",
    "Shape; let rise 2 h at 25 °C.",
    "Bake 40 min.",
    "Enjoy!",
  ]
  const stages = readSteps(steps.map((text) => ({ text, from: text })))
  expect(stages.map(({ kind, lowMin }) => [kind, lowMin])).toEqual([
    ["mix", 10],
    ["rest", 30],
    ["proof", 120],
    ["bake", 40],
  ])
  expect(stages.at(-1)!.tip).toBe("Heat the oven to 250 °C. Bake 40 min. Enjoy!")
})
