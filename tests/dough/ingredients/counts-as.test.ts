import { expect, test } from "vitest"
import { countsAsOf } from "../../../server/dough/ingredients/catalogue.ts"
import { type CountsAs, guessCountsAs } from "../../../server/dough/ingredients/counts-as.ts"

const usual: Record<CountsAs, string[]> = {
  flour: [
    ...[
      "bread flour",
      "Strong white",
      "wholemeal",
      "Rye",
      "dark rye flour",
      "spelt",
      "semolina",
      "type 550",
      "T65",
      "00",
    ],
    ...[
      "whole wheat",
      "rice flour",
      "buckwheat flour",
      "flour for the starter",
      "sourdough bread flour",
      "sprouted spelt flour",
    ],
  ],
  water: ["water", "Warm water", "ice", "water for the levain"],
  salt: ["salt", "sea salt flakes"],
  starter: ["ripe starter", "mother", "rye starter", "sourdough", "levain"],
  leaven: ["yeast", "instant dry yeast", "fresh yeast"],
  other: [
    ...["milk", "unsalted butter", "almond flour", "coconut flour", "chickpea flour", "corn starch", "cornflour"],
    ...[
      "rye flakes",
      "wheat germ",
      "wheat berries",
      "old rye bread",
      "malt syrup",
      "diastatic malt flour",
      "vital wheat gluten",
    ],
    ...["rose water", "nutritional yeast", "icing sugar", "flour for dusting", "baking powder", "nutmeg", ""],
  ],
}

const cases = Object.entries(usual).flatMap(([countsAs, names]) => names.map((name) => [name, countsAs] as const))

test.each(cases)("%j counts as %s, guessed or found in the catalogue", (name, countsAs) => {
  expect(guessCountsAs(name)).toBe(countsAs)
  expect(countsAsOf(name)).toBe(countsAs)
})
