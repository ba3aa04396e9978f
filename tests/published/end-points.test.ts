import { expect, test } from "vitest"
import {
  bakeLoss,
  bulkRiseTarget,
  doughForBread,
  ripenessByPh,
  ripenessByTta,
  usualBakeLoss,
  usualRetardC,
} from "../../server/dough/fermentation/end-points.ts"
import { fToC } from "../../server/dough/units.ts"

const lecture = {
  source: "a public lecture's two-factor table, January 2023, as quoted in a summary of a later one",
  seen: "secondary",
  url: "https://www.reddit.com/r/Sourdough/comments/1bgvi1a/the_bulk_fermentation_equation",
}
test.each([
  { doughF: 65, percent: 100, ...lecture },
  { doughF: 70, percent: 75, ...lecture },
  { doughF: 75, percent: 50, ...lecture },
  { doughF: 80, percent: 30, ...lecture },
])("bulk at $doughF °F before a retard stops at about +$percent %: $source ($seen)", ({ doughF, percent }) => {
  expect(Math.abs(100 * bulkRiseTarget(fToC(doughF))! - percent)).toBeLessThanOrEqual(4)
})

const faq47 = {
  source: "rec.food.sourdough FAQ no. 47",
  seen: "primary",
  url: "http://www.nyx.net/~dgreenw/howdoesonemeasurethephofso.html",
}
test.each([
  ...[3.9, 4, 4.1].map((ph) => ({ what: `pH ${ph}`, is: ripenessByPh(ph), expected: "ripe", ...faq47 })),
  ...[3.8, 3.6].map((ph) => ({ what: `pH ${ph}`, is: ripenessByPh(ph), expected: "over-mature", ...faq47 })),
  ...[13, 14, 15].map((ml) => ({ what: `${ml} ml of TTA`, is: ripenessByTta(ml), expected: "ripe", ...faq47 })),
  ...[18, 20, 22].map((ml) => ({ what: `${ml} ml of TTA`, is: ripenessByTta(ml), expected: "over-mature", ...faq47 })),
])("a sour at $what is $expected: $source ($seen)", ({ is, expected }) => {
  expect(is).toBe(expected)
})

const gisslen = {
  source: "W. Gisslen, Professional Baking, scaling",
  seen: "primary",
  url: "https://app.ckbk.com/section/prof83497c06s001ss002sss005/scaling-or-portioning-dough",
}
test.each([
  {
    what: "dough for 500 g of bread at the lower usual loss, g",
    is: doughForBread(500, usualBakeLoss.low),
    expected: 555.6,
    tolerance: 0.05,
    ...gisslen,
  },
  {
    what: "dough for 500 g of bread at the higher usual loss, g",
    is: doughForBread(500, usualBakeLoss.high),
    expected: 574.7,
    tolerance: 0.05,
    ...gisslen,
  },
  {
    what: "loss of an 84 g bun, %",
    is: 100 * bakeLoss({ doughG: 84, breadG: 75 }),
    expected: 10.7,
    tolerance: 0.1,
    source: "sourdough.com, 'Moisture loss'",
    seen: "primary",
    url: "https://sourdough.com/forum/topic/942",
  },
  {
    what: "loss of 314 g of dough, %",
    is: 100 * bakeLoss({ doughG: 314, breadG: 267 }),
    expected: 15,
    tolerance: 0.1,
    source: "sourdough.com, 'Moisture loss'",
    seen: "primary",
    url: "https://sourdough.com/forum/topic/942",
  },
  {
    what: "loss of 550 g of dough at 82 % water, %",
    is: 100 * bakeLoss({ doughG: 550, breadG: 450 }),
    expected: 18.2,
    tolerance: 0.1,
    source: "thefreshloaf.com, comment 387211",
    seen: "primary",
    url: "https://thefreshloaf.com/comment/387211",
  },
])("$what: $source ($seen)", ({ is, expected, tolerance }) => {
  expect(Math.abs(is - expected)).toBeLessThanOrEqual(tolerance)
})

test("a usual retard is as cold as a baking trade dictionary's retarder, 35–40 °F: bakingbusiness.com, entry Retarder (primary)", () => {
  expect(usualRetardC).toBeGreaterThanOrEqual(fToC(35))
  expect(usualRetardC).toBeLessThanOrEqual(fToC(40))
})
