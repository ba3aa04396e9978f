import { expect, test } from "vitest"
import { workOut } from "../../server/dough/formula/formula.ts"
import { bringIn } from "../../server/exchange/bring-in.ts"

function brought(text: string) {
  const result = bringIn(text, { measures: "us" })
  if ("problem" in result) throw new Error(result.problem)
  return result
}

/** A line as somebody pastes it, among others. */
function pasted(line: string) {
  const { content, came } = brought(
    `Some bread\n\nIngredients\n500 g bread flour\n${line}\n\nMethod\nBake 40 min at 230 °C`,
  )
  const figures = workOut(content, { measures: "us" })
  return {
    came: came.parts[0]?.[1],
    line: content.parts[0]?.lines[1],
    figures: figures.parts[0]?.lines[1],
    whole: figures,
  }
}

const jsonLine = (line: string) =>
  JSON.stringify({ "@type": "Recipe", name: "Some bread", recipeIngredient: ["500 g bread flour", line] })

/** Amounts as people wrote them, each of which some program has read wrongly. What is sure is weighed, the rest asked. */
test.each([
  ["1–1/2 tsp salt", { low: 9, high: 9 }],
  ["9 oz warm milk, plus extra", "fluid ounces"],
  ["1.2 cup flour", "1/2"],
  ["1 1/2 sticks butter", { low: 169, high: 171 }],
  ["3 eggs, 2 beaten first and 1 later", { low: 150, high: 150 }],
  ["12 fluid ounces water", { low: 340, high: 360 }],
  ["1 1/4 ounces milk powder", { low: 35, high: 36 }],
  ["375 g / 13 oz strong white flour", { low: 375, high: 375 }],
  ["2 good pinches salt", { low: 0.5, high: 2 }],
  ["1 pound plus 1/4 cup butter", { low: 500, high: 520 }],
  ["5-1/2 to 6 C flour", { low: 650, high: 760 }],
  ["2 pkg. yeast", { low: 14, high: 14.5 }],
  ["25 g fresh, or 12.5 g active dry, or 8.3 g instant yeast", { low: 12.5, high: 12.5 }],
  ["1/4 cup brown sugar + 1 Tbsp", { low: 60, high: 80 }],
  ["303-340 g (1 cup + 2 tbsp to 1 1/2 cups) water", { low: 303, high: 340 }],
  ["1 lb flour to 10 fl oz water", "more than one thing"],
  ["at least 10 cups flour", { low: 1200, high: 1260 }],
  ["804 g + 100 g water", "was some added later"],
  ["450 g levain made, 278 g used", "used"],
  ["salt 2%, of the whole dough", "whole dough"],
])("%s is weighed or asked about, pasted or in recipe data", (line, expected) => {
  const data = brought(jsonLine(line)).content.parts[0]?.lines[1]
  const { came, line: read, figures } = pasted(line)
  expect(came).toBe(line)
  expect(data).toEqual(read)
  if (typeof expected === "string") {
    expect(figures?.problem ?? figures?.quantity.kind).toContain(expected)
    expect(figures?.g).toBeUndefined()
  } else {
    expect(figures?.g?.low).toBeGreaterThanOrEqual(expected.low)
    expect(figures?.g?.high).toBeLessThanOrEqual(expected.high)
  }
})

/** Steps as people wrote them. Minutes where they are sure, else a question. */
test.each([
  ["Bulk 4 to 5 hours until doubled", { kind: "bulk", lowMin: 240, highMin: 300, cue: "doubled" }, ["temperature"]],
  ["Let rise overnight", { kind: "bulk", highMin: 0 }, ["“overnight” is no length", "temperature"]],
  ["Let rise until doubled", { highMin: 0, cue: "doubled" }, ["until doubled", "temperature"]],
  ["Rest overnight (8–12 h)", { kind: "rest", lowMin: 480, highMin: 720 }, []],
  ["40minSalt, 4hrs.(28-30°c)", { highMin: 0 }, ["What kind", "40min and 4hrs"]],
  ["5:10-9:10 (0:10-4:10) bulk", { kind: "bulk", highMin: 0 }, ["Times of day", "temperature"]],
  ["Bulk as the first bake plus 30", { kind: "bulk", highMin: 0 }, ["How long", "temperature"]],
  ["Bulk, then fridge, then bulk", { kind: "bulk", highMin: 0 }, ["How long", "temperature"]],
  ["Proof 2 h in the oven warmed to 40-50", { lowMin: 120 }, ["no unit"]],
  ["Rest 1 hour in a room of 23 °C and 75 °F", { kind: "rest", lowMin: 60 }, ["do not agree"]],
  ["Proof for 2 h at 75 °F (24 °C)", { lowMin: 120 }, []],
  ["Bake at 350 degrees for 40 min", { kind: "bake", lowMin: 40 }, ["°C or °F"]],
  [
    "Bake with the lid on for 20 min, then lid off for 25 min",
    { kind: "bake", highMin: 0 },
    ["45 min, if one follows"],
  ],
  ["Bulk to 170% of the initial volume, about 4 h at 25 °C", { kind: "bulk", lowMin: 240, referenceC: 25 }, []],
])("step: %s", (step, expected, asks) => {
  const { content, came } = brought(
    `Some bread\n\nIngredients\n500 g bread flour\n\nMethod\n1. Mix everything for 10 min.\n2. ${step}`,
  )
  const at = content.stages.length - 1
  expect(content.stages[at]).toMatchObject(expected)
  expect(content.stages[at]!.tip).toContain(step)
  expect(came.stages[at]!.asks).toHaveLength(asks.length)
  for (const [index, words] of asks.entries()) expect(came.stages[at]!.asks[index]).toContain(words)
})

test("headings make parts: a levain goes into the dough, a filling stands outside of it", () => {
  const { content } = brought(
    "Cinnamon buns\nFor the levain:\n50 g starter\n100 g flour\n\nFinal dough\n500 g bread flour\nLevain\n10 g salt\n\nFilling\n100 g sugar\n",
  )
  const [levain, dough] = content.parts
  expect(content.parts.map(({ name }) => name)).toEqual(["Levain", "Final dough"])
  expect(levain!.goesInto).toBe(dough!.key)
  expect(dough!.lines.map(({ ingredient }) => ingredient)).toEqual(["bread flour", "Levain", "salt"])
  expect(content.finishing).toMatchObject([{ quantity: "100 g", ingredient: "sugar", note: "filling" }])
  expect(workOut(content).parts[1]!.lines[1]!.problem).toContain("goes into this part as a whole already")
})
