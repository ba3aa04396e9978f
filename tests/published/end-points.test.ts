import { expect, test } from "vitest"
import {
  bulkRiseTarget,
  ripenessByPh,
  ripenessByTta,
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

test("a usual retard is as cold as a baking trade dictionary's retarder, 35–40 °F: bakingbusiness.com, entry Retarder (primary)", () => {
  expect(usualRetardC).toBeGreaterThanOrEqual(fToC(35))
  expect(usualRetardC).toBeLessThanOrEqual(fToC(40))
})
