import fc from "fast-check"
import { Solver } from "odex"
import { describe, expect, test } from "vitest"
import { culturePerHour } from "../../../server/dough/fermentation/growth.ts"
import { gasForRise, riseFrom } from "../../../server/dough/fermentation/rise.ts"
import {
  fullness,
  growthToGas,
  levainGas,
  levainShareFor,
  ratioOfShare,
  shareOfRatio,
  usualLevainJar,
  usualSourdough,
} from "../../../server/dough/fermentation/sourdough-rise.ts"

const shares = fc.double({ min: 0.005, max: 1, noNaN: true })
const growths = fc.double({ min: 0.01, max: 12, noNaN: true })

describe("the closed forms", () => {
  test.each([
    { levainShare: 0.1, keeping: usualSourdough, doughC: (h: number) => 22 + 5 * Math.sin(h / 3) },
    { levainShare: 0.25, keeping: { activity: 1.4, mostRise: 0.6 }, doughC: (h: number) => 27 - 1.5 * h },
    { levainShare: 0.02, keeping: { activity: 0.8, mostRise: 1.2 }, doughC: (h: number) => 18 + h },
  ])("are what an integrator makes of growth, gas and keeping at a changing temperature: $levainShare", (dough) => {
    const { levainShare, keeping, doughC } = dough
    const { activity, mostRise } = keeping
    const solver = new Solver(3)
    solver.absoluteTolerance = solver.relativeTolerance = 1e-12
    const derive = (hour: number, [, cells, rise]: number[]) => {
      const perHour = culturePerHour(doughC(hour))
      const gas = perHour * cells!
      return [perHour, perHour * cells! * (1 - cells!), activity * gas * (1 - rise! / mostRise)]
    }
    const [growth, cells, rise] = solver.solve(derive, 0, [0, levainShare, 0], 9).y
    expect(fullness(levainShare, growth!)).toBeCloseTo(cells!, 9)
    expect(riseFrom(levainGas(levainShare, growth!), keeping)).toBeCloseTo(rise!, 9)
  })

  test("turn back: growth to gas, share for gas, gas for a rise", () => {
    fc.assert(
      fc.property(shares, growths, (share, growth) => {
        const gas = levainGas(share, growth)
        expect(growthToGas(share, gas) / growth).toBeCloseTo(1, 7)
        expect(levainShareFor(gas, growth) / share).toBeCloseTo(1, 7)
        const rise = riseFrom(gas, usualLevainJar)
        expect(gasForRise(rise, usualLevainJar)! / gas).toBeCloseTo(1, 9)
      }),
    )
  })

  test("give more for more levain and for more time, and never more than the dough holds", () => {
    fc.assert(
      fc.property(shares, shares, growths, growths, (a, b, c, d) => {
        const rise = (share: number, growth: number) => riseFrom(levainGas(share, growth), usualSourdough)
        expect(rise(Math.min(a, b), c)).toBeLessThanOrEqual(rise(Math.max(a, b), c))
        expect(rise(a, Math.min(c, d))).toBeLessThanOrEqual(rise(a, Math.max(c, d)))
        expect(rise(a, c)).toBeLessThanOrEqual(usualSourdough.mostRise)
      }),
    )
  })

  test("say that a rise is more than the dough can hold", () => {
    expect(gasForRise(0.8, usualSourdough)).toBeUndefined()
    expect(gasForRise(1.5, usualSourdough)).toBeUndefined()
    expect(gasForRise(1.5, usualLevainJar)).toBeCloseTo(1.5 / 1.06, 12)
  })

  test("refuse what is no levain, no growth, no rise", () => {
    for (const share of [0, -0.1, 1.1, Number.NaN]) expect(() => levainGas(share, 1)).toThrow(RangeError)
    expect(() => levainGas(0.1, -1)).toThrow(RangeError)
    expect(() => growthToGas(0.1, Number.NaN)).toThrow(RangeError)
    expect(() => levainShareFor(0.3, 0)).toThrow(RangeError)
    expect(() => riseFrom(-1, usualSourdough)).toThrow(RangeError)
    expect(() => gasForRise(-0.1, usualSourdough)).toThrow(RangeError)
  })
})

describe("a feeding ratio", () => {
  test("of 1 : 2 : 2 with a starter of equal parts is a fifth of the flour", () => {
    expect(shareOfRatio({ starter: 1, flour: 2 }, 1)).toBeCloseTo(0.2, 12)
    expect(ratioOfShare(0.2, 1, 1)).toEqual({ starter: 1, flour: 2, water: 2 })
  })

  test("of a stiff starter brings more flour", () => {
    expect(shareOfRatio({ starter: 1, flour: 2 }, 0.5)).toBeCloseTo(1 / 4, 12)
  })

  test("and its share are the same thing, and the water gives the hydration", () => {
    fc.assert(
      fc.property(shares, fc.double({ min: 0.4, max: 1.5, noNaN: true }), (share, starterHydration) => {
        const ratio = ratioOfShare(share, starterHydration, 1.5)
        expect(shareOfRatio(ratio, starterHydration)).toBeCloseTo(share, 9)
        const flour = 1 / (1 + starterHydration) + ratio.flour
        expect((ratio.water + starterHydration / (1 + starterHydration)) / flour).toBeCloseTo(1.5, 9)
      }),
    )
  })

  test("cannot make a stiff levain from mostly liquid starter", () => {
    expect(() => ratioOfShare(0.9, 1.25, 0.5)).toThrow("more water than is wished")
    expect(() => shareOfRatio({ starter: 0, flour: 1 }, 1)).toThrow(RangeError)
    expect(() => shareOfRatio({ starter: 1, flour: -1 }, 1)).toThrow(RangeError)
  })
})
