import fc from "fast-check"
import type { WrittenFormula } from "../../../server/dough/formula/written.ts"
import { formula, lines, part } from "../formula/writing.ts"

/** A loaf with a levain of which some stays in its jar, a soaker, water that is held back, and a wash. */
export const loaf = (more: Partial<WrittenFormula> = {}) =>
  formula(
    [
      part("dough", "655 g | strong white flour\n165 g | wholemeal flour\n335–365 g | water\n18 g | salt"),
      part("levain", "30 g | ripe starter\n90 g | bread flour\n20 g | wholemeal flour\n110 g | water", {
        ...{ goesInto: "dough", staysPercent: "6" },
      }),
      part("soaker", "110 g | rolled oats\n190 g | water\n45 g | honey", { goesInto: "dough" }),
    ],
    { finishing: lines("1 | egg\n4 tbsp | rolled oats"), pieces: "2", ...more },
  )

/** Any such formula: a levain and perhaps a soaker, what stays in their jars, in grams, percent and pieces. */
export const anyFormula = fc
  .record({
    ...{ flour: fc.integer({ min: 200, max: 3000 }), water: fc.integer({ min: 55, max: 90 }) },
    ...{ held: fc.integer({ min: 0, max: 40 }), salt: fc.double({ min: 0.5, max: 3, noNaN: true }) },
    ...{ levain: fc.integer({ min: 40, max: 400 }), stays: fc.integer({ min: 0, max: 20 }) },
    ...{ oats: fc.integer({ min: 0, max: 200 }), eggs: fc.integer({ min: 0, max: 6 }), ahead: fc.boolean() },
  })
  .map(({ flour, water, held, salt, levain, stays, oats, eggs, ahead }) => {
    const parts = [
      part("levain", `${levain} g | bread flour\n${levain} g | water\n${levain / 5} g | ripe starter`, {
        ...{ goesInto: "dough", staysPercent: String(stays) },
      }),
      part("soaker", `${oats} g | rolled oats\n${oats} g | water\n20 g | strong white flour`, { goesInto: "dough" }),
      part(
        "dough",
        `${flour} g | strong white flour\n${water}–${water + held} % | water\n${salt.toFixed(2)} % | salt\n${eggs} | eggs`,
      ),
    ]
    return formula(ahead ? parts : parts.toReversed(), {
      finishing: lines("1 | egg\n2 tbsp | rolled oats"),
      pieces: "3",
    })
  })
