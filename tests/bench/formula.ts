/**
 * How long the functions of a formula take on the tin loaf of the demo: three parts, twelve lines, a range, three variants.
 * Each as a ratio to parsing and printing the same formula as JSON. Run by `npm run bench`; nothing in the tests may
 * depend on time.
 */
import { tinLoaf } from "../../server/demo/tin-loaf.ts"
import { workOut } from "../../server/dough/formula/formula.ts"
import { fitInRectangle, fitInRound } from "../../server/dough/formula/packing.ts"
import { scaleTo } from "../../server/dough/formula/scaling.ts"
import { applyVariant } from "../../server/dough/formula/variants.ts"
import { dilutionFor } from "../../server/dough/formula/weighing.ts"
import { allergensOf } from "../../server/dough/ingredients/allergens.ts"
import { findIngredient } from "../../server/dough/ingredients/catalogue.ts"
import { readQuantity } from "../../server/dough/quantity/read.ts"
import { splitLine } from "../../server/dough/quantity/split-line.ts"
import { microseconds } from "./timing.ts"

const lines = tinLoaf.parts.flatMap((part) => part.lines)
const names = lines.map(({ ingredient }) => ingredient)
const flour = findIngredient("strong white flour")
const gram = { step: 1, unit: "g" as const }
const ranged = structuredClone(tinLoaf)
for (const [index, line] of ranged.parts
  .flatMap((part) => part.lines)
  .slice(0, 8)
  .entries())
  line.quantity = `${100 + index}–${120 + index} g`

const functions: Record<string, () => unknown> = {
  "the whole formula": () => workOut(tinLoaf, tinLoaf),
  "the whole formula with eight ranges": () => workOut(ranged, ranged),
  "the formula at another size": () => scaleTo(tinLoaf, { by: "pieces", count: 7, eachG: 850 }, tinLoaf),
  "the formula made another way": () => applyVariant(tinLoaf, "yeast"),
  "an amount in grams": () => readQuantity("468 g", { ingredient: flour }),
  "an amount in cups, with an extra spoon": () => readQuantity("5-1/2 to 6 C + 1 tbsp", { ingredient: flour }),
  "a pasted line": () => splitLine("3 1/2 cups (460 g) strong white bread flour, sifted"),
  "an ingredient by its name": () => findIngredient("warm organic unbleached strong white bread flour"),
  "the allergens": () => allergensOf(names),
  "a pinch of yeast on a coarse scale": () => dilutionFor(0.3, gram, 300),
  "pieces in a round pan": () => fitInRound(280, 60, 8),
  "pieces on a tray": () => fitInRectangle(400, 300, 60, 8),
}

const jsonUs = microseconds(() => JSON.parse(JSON.stringify(tinLoaf)))
console.log(`the formula through JSON: ${jsonUs.toFixed(1)} µs of processor time`)
for (const [name, run] of Object.entries(functions)) {
  const us = microseconds(run)
  console.log(`${name}: ${us.toFixed(0)} µs, ${(us / jsonUs).toFixed(1)} times JSON`)
}
