import { expect, test } from "vitest"
import { bulkRiseTarget, ripenessByPh, ripenessByTta } from "../../../server/dough/fermentation/end-points.ts"
import {
  carbonDioxideMl,
  crumbDensity,
  crumbPorosity,
  displacedMl,
  specificVolume,
  voidFraction,
} from "../../../server/dough/fermentation/volume.ts"

test("volumes and masses that are none are refused", () => {
  expect(() => specificVolume({ volumeMl: 0, massG: 450 })).toThrow(RangeError)
  expect(() => specificVolume({ volumeMl: 900, massG: Number.NaN })).toThrow(RangeError)
  expect(() => displacedMl({ seedAloneMl: 700, seedRoundLoafMl: 700 })).toThrow(
    "what the loaf displaces must be above 0",
  )
  expect(() => carbonDioxideMl(1, -300)).toThrow(RangeError)
})

test("a dough denser than without gas, and a crumb that is no crumb, are refused", () => {
  expect(() => voidFraction(1.3)).toThrow("denser than dough without gas")
  expect(() => crumbDensity(0.99)).toThrow(RangeError)
  expect(() => crumbPorosity(1000)).toThrow(RangeError)
})

test("no bulk target is made up outside 18–27 °C", () => {
  expect([bulkRiseTarget(17), bulkRiseTarget(28), bulkRiseTarget(Number.NaN)]).toEqual([
    undefined,
    undefined,
    undefined,
  ])
})

test("a sour is young first and past ripe before it is over-mature", () => {
  expect([ripenessByPh(4.6), ripenessByPh(3.85)]).toEqual(["young", "past ripe"])
  expect([ripenessByTta(8), ripenessByTta(16.5)]).toEqual(["young", "past ripe"])
})
