import { expect, test } from "vitest"
import { shoppingOf } from "../../server/dough/bill/shopping.ts"
import { workOut } from "../../server/dough/formula/formula.ts"
import { scaleTo } from "../../server/dough/formula/scaling.ts"
import { formula, part } from "../dough/formula/writing.ts"

/**
 * The Fresh Loaf, print 33417, an account of a village-hall course for up to twelve: "1.32 kg of a 2:1 water-to-flour starter +
 * 440 g flour, 1,760 g in all, shared out at about 170 g". Seen second hand, in our notes of the account. How many shared and
 * what was lost is not told: ten shares of 170 g would leave 60 g, 3.4 %.
 */
const told = { starterG: 1320, flourG: 440, allG: 1760, shareG: 170 }

const ofAll = formula([
  part("starter", "440 g | flour\n880 g | water", { goesInto: "leaven" }),
  part("leaven", "440 g | flour"),
])

test("the leaven of a village-hall class is reckoned as its teacher did by hand", () => {
  const { parts, dough, hydration } = workOut(ofAll)
  expect(parts[0]!.made).toEqual({ low: told.starterG, high: told.starterG })
  expect(dough).toEqual({ low: told.allG, high: told.allG })
  expect(hydration!.low).toBeCloseTo(1, 12)
})

test("from one student's share, ten students and what a bowl keeps, the class's amounts come out again", () => {
  const one = formula([
    part("starter", "42.5 g | flour\n85 g | water", { goesInto: "leaven" }),
    part("leaven", "42.5 g | flour"),
  ])
  expect(workOut(one).dough!.low).toBe(told.shareG)
  const all = scaleTo(one, { by: "class", people: 10, loss: 60 / told.allG })
  if ("cannot" in all) throw new Error(all.cannot)
  expect(all.figures.dough!.low).toBeCloseTo(told.allG, 9)
  expect(all.figures.parts[0]!.made!.low).toBeCloseTo(told.starterG, 9)
  const { buy, water } = shoppingOf(one, all.figures)
  expect(buy.map(({ name, g }) => [name, Math.round(g!.high)])).toEqual([["flour", 2 * told.flourG]])
  expect(water!.g!.high).toBeCloseTo(880, 9)
})
