import { expect, test } from "vitest"
import { boilingPointC, gasExpansion, pressureKPa, yeastToLeaveOut } from "../../../server/dough/heat/altitude.ts"
import { diffusivityM2PerS, evensOutHours } from "../../../server/dough/heat/conduction.ts"
import { bakedInsideC } from "../../../server/dough/heat/inside.ts"

test("at sea level nothing changes", () => {
  expect(pressureKPa(0)).toBe(101.325)
  expect(gasExpansion(0)).toBe(1)
  expect(yeastToLeaveOut(0)).toEqual({ low: 0, high: 0 })
})

test("a loaf is never asked to be hotter inside than water boils there", () => {
  for (const altitudeM of [0, 1500, 3000, 4500]) {
    const { low, high } = bakedInsideC({ enriched: false, altitudeM })
    expect(high).toBeLessThan(boilingPointC(altitudeM))
    expect(low).toBeLessThan(high)
  }
})

test("below sea level no yeast is left out", () => {
  expect(yeastToLeaveOut(-300)).toEqual({ low: 0, high: 0 })
})

test("altitudes without a kitchen, and doughs without mass, are refused", () => {
  for (const altitudeM of [-600, 12_000, Number.NaN]) expect(() => pressureKPa(altitudeM)).toThrow(RangeError)
  expect(() => diffusivityM2PerS(1)).toThrow(RangeError)
  expect(() => evensOutHours({ massG: 0, gasShare: 0 })).toThrow(RangeError)
})
