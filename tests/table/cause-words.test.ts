import { expect, test } from "vitest"
import { sayTo } from "../../server/accounts/say.ts"
import type { Causes } from "../../server/dough/causes/bake-causes.ts"
import { causesIn } from "../../server/table/cause-words.ts"

type Told = Extract<Causes, { enough: true }>
const say = sayTo({ temperatureUnit: "C", massUnit: "g", zone: "UTC" })
const inF = sayTo({ temperatureUnit: "F", massUnit: "oz", zone: "UTC" })
const share = (key: Told["shares"][number]["key"], min: number) => ({
  ...{ key, min, lowMin: min - 13, highMin: min + 13, percent: undefined },
})
const causes = (changes: Partial<Told>): Told => ({
  ...{ enough: true, leadMin: 40, leadLowMin: 10, leadHighMin: 70, shares: [], leftAtPlan: [], differed: { min: 0 } },
  ...changes,
})

test("a lead is told with what it came from, in the reader's own degrees", () => {
  const warm = causes({ shares: [share("temperature", 28), share("time", 12)], differed: { min: 10, c: 2.4 } })

  expect(causesIn(warm, say)).toEqual([
    "40 min further on than planned.",
    "28 min of the lead came from a dough 2.4 °C warmer (15 min to 41 min).",
    "12 min of the lead came from 10 min more before the oven (1 min the other way to 25 min).",
  ])
  expect(causesIn(warm, inF)[1]).toContain("a dough 4.3 °F warmer")
})

test("what pulled the other way is told as such, and what is too small not at all", () => {
  const cold = causes({
    leadMin: -60,
    shares: [share("temperature", -90), share("activity", 30), share("time", 2)],
    differed: { min: 2, c: -3, activity: 1.31 },
  })

  expect(causesIn(cold, say)).toEqual([
    "1 h behind plan.",
    "1 h 30 min of the delay came from a dough 3.0 °C colder (1 h 17 min to 1 h 43 min).",
    "A leaven 31 % livelier than planned brought it on by 30 min (17 min to 43 min).",
  ])
})

test("less levain, and yeast in its place, are told by what there was", () => {
  const planned = { culture: "sourdough", share: 0.125 } as const
  const less = { planned, actual: { culture: "sourdough", share: 0.06 } } as const
  const yeast = { planned, actual: { culture: "baker's yeast", share: 0.004 } } as const
  const told = (leaven: Told["differed"]["leaven"]) =>
    causesIn(causes({ shares: [share("leaven", 40)], differed: { min: 0, leaven } }), say)[1]

  expect(told(less)).toContain("less levain, 6 % of the flour in place of 12.5 %")
  expect(told(yeast)).toContain("yeast in place of levain")
})

test("what nobody could know is said, once for each reason", () => {
  const why = "The formula does not say what raises this dough."
  const left = causes({
    leadMin: 2,
    leftAtPlan: [
      { key: "temperature", why: "Nobody measured dough or room." },
      { key: "leaven", why },
      { key: "activity", why },
    ],
  })

  expect(causesIn(left, say)).toEqual([
    "On plan.",
    "Temperature is taken as planned: nobody measured dough or room.",
    "How much leaven and how lively the leaven was are taken as planned: the formula does not say what raises this dough.",
  ])
  expect(causesIn({ enough: false, why: "It was given up." }, say)).toEqual(["It was given up."])
})
