import { describe, expect, test } from "vitest"
import { culturePerHour, rate } from "../../../server/dough/fermentation/growth.ts"
import { gasMade, hoursToGas, type Leaven, usualKeeping } from "../../../server/dough/fermentation/leaven.ts"
import { referenceHours } from "../../../server/dough/fermentation/reference-hours.ts"
import { gasForRise, riseFrom } from "../../../server/dough/fermentation/rise.ts"
import {
  growthToGas,
  levainGas,
  levainToMake,
  shareOfRatio,
  usualLevainJar,
  usualSourdough,
} from "../../../server/dough/fermentation/sourdough-rise.ts"
import { movingToward } from "../../../server/dough/fermentation/temperature-curve.ts"

const inside = (value: number, low: number, high: number) => {
  expect(value).toBeGreaterThanOrEqual(low)
  expect(value).toBeLessThanOrEqual(high)
}

const jarDoubles = (parts: number, roomC: number) =>
  growthToGas(shareOfRatio({ starter: 1, flour: parts }, 1), gasForRise(1, usualLevainJar)!) / culturePerHour(roomC)
const doughRise = (levainShare: number, doughC: number, hours: number) =>
  riseFrom(levainGas(levainShare, hours * culturePerHour(doughC)), usualSourdough)

describe("common practice, no published source: with its usual values the model gives", () => {
  test.each([21, 22, 23])("a 1 : 1 : 1 levain that doubles in 5–7 h at a room's %d °C", (roomC) => {
    inside(jarDoubles(1, roomC), 5, 7)
  })

  test("a 1 : 5 : 5 levain that doubles overnight, in 9½–12 h at 21–22 °C", () => {
    inside(jarDoubles(5, 21), 9.5, 12)
    inside(jarDoubles(5, 22), 9.5, 12)
  })

  test("a quicker levain for a higher share of starter, and for a warmer place", () => {
    expect(jarDoubles(1, 22)).toBeLessThan(jarDoubles(2, 22))
    expect(jarDoubles(2, 22)).toBeLessThan(jarDoubles(5, 22))
    expect(jarDoubles(2, 26)).toBeLessThan(jarDoubles(2, 22))
    expect(jarDoubles(2, 22)).toBeLessThan(jarDoubles(2, 19))
  })

  test("a small levain of which about 9 % stays in its jar: 100 g to use are made of about 110", () => {
    inside(levainToMake(100), 108, 112)
    expect(() => levainToMake(100, 1)).toThrow(RangeError)
  })

  test("shaped pieces ready, risen by two fifths, after 1½–2 h in a proofer at 28 °C (82 °F), bulk done at 25 °C to +50 %", () => {
    const leaven: Leaven = { culture: "sourdough", share: 0.2 }
    const bulkGas = gasForRise(0.5, usualSourdough)!
    const proofGas = gasForRise(0.4, usualSourdough)!
    const hours = (hoursToGas(leaven, bulkGas + proofGas) - hoursToGas(leaven, bulkGas)) / rate(28)
    inside(hours, 1.5, 2)
  })

  test("a dough with 1 % instant yeast that doubles in 1–2 h at 24–27 °C", () => {
    const leaven: Leaven = { culture: "baker's yeast", share: 0.01 }
    const gas = gasForRise(1, usualKeeping["baker's yeast"])!
    for (const doughC of [24, 25, 26, 27]) inside(hoursToGas(leaven, gas) / rate(doughC, "baker's yeast"), 1, 2)
  })

  test("pieces with 0.8 % instant yeast doubled after 1½–2 h in a proofer at 28 °C (82 °F), in at 25 °C", () => {
    const leaven: Leaven = { culture: "baker's yeast", share: 0.008 }
    const needed = hoursToGas(leaven, gasForRise(1, usualKeeping["baker's yeast"])!)
    inside(hoursInBox({ startC: 25, boxC: 28, tauHours: 1, needed }), 1.5, 2)
  })
})

function hoursInBox({ startC, boxC, tauHours, needed }: Record<"startC" | "boxC" | "tauHours" | "needed", number>) {
  const startsAt = new Date(0)
  const curve = movingToward(
    { at: startsAt, doughC: startC },
    { surroundingsC: boxC, tauHours },
    new Date(24 * 3_600_000),
  )
  const minute = Array.from({ length: 24 * 60 }, (_, index) => index).find(
    (minutes) => referenceHours(curve, startsAt, new Date(minutes * 60_000), "baker's yeast") >= needed,
  )
  return minute! / 60
}

describe("what bakers told of their own doughs, no published source: the model gives", () => {
  test("about +30 % after 4¼ h and +70 % after 9 h at 25 °C with 10 % prefermented flour", () => {
    inside(doughRise(0.1, 25, 4.25), 0.29, 0.31)
    inside(doughRise(0.1, 25, 9), 0.66, 0.72)
  })

  test("+30 to +50 % after 6 h at 29 °C with 10 %", () => {
    inside(doughRise(0.1, 29, 6), 0.3, 0.5)
  })

  test("a little more than +15 %, called a little short, after 3½ h at 25.4 °C with 9 %", () => {
    inside(doughRise(0.09, 25.4, 3.5), 0.15, 0.25)
  })
})

test("gas of a sourdough made at the trade's 10 % more per °C would overshoot what was told at 29 °C", () => {
  const gas = levainGas(0.1, 6 * culturePerHour(29)) * (1.1 ** 4 / (culturePerHour(29) / culturePerHour(25)))
  expect(riseFrom(gas, usualSourdough)).toBeGreaterThan(0.5)
})

test("gas counts from mixing: none at the start", () => {
  expect(gasMade({ culture: "sourdough", share: 0.2 }, 0)).toBe(0)
})
