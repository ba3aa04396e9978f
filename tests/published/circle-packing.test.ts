import { describe, expect, test } from "vitest"
import { fitInRectangle, fitInRound, type Layout } from "../../server/dough/formula/packing.ts"

/** Radius of the smallest known circle that holds n = 1, 2, … circles of radius 1. */
const inCircle = {
  source: "Kravitz 1967, Math. Mag. 40:65; Graham, Lubachevsky, Nurmela & Östergård 1998, Discrete Math. 181:139",
  seen: "memory",
  ratios: [
    ...[1, 2, 2.1547, 2.4142, 2.7013, 3, 3, 3.3048, 3.6131, 3.813],
    ...[3.9238, 4.0296, 4.2361, 4.3284, 4.5214, 4.6154, 4.792, 4.8637, 4.8637, 5.1223],
  ],
}
/** Radius of n = 1, 2, … equal circles, the largest known to fit in a square of side 1. */
const inSquare = {
  source: "circles in a unit square, best known radii, as tabled by Specht",
  seen: "memory",
  radii: [
    ...[0.5, 0.292893, 0.254333, 0.25, 0.207107, 0.187681, 0.174458, 0.170541, 0.166667, 0.148204],
    ...[0.142399, 0.139959, 0.133994, 0.129332, 0.127167, 0.125, 0.117197, 0.115521, 0.112265, 0.111382],
  ],
}

// The tables are rounded to their last digit: a size up or down by this is surely on one side of the true one.
const digit = 0.0001

describe("in a round pan", () => {
  const cases = inCircle.ratios.map((ratio, i) => ({ ...inCircle, n: i + 1, ratio }))

  test.each(cases)(
    "$n pieces need $ratio times their size, and we lay out all but one at least: $source ($seen)",
    ({ n, ratio }) => {
      const layout = fitInRound(100 * (ratio + digit), 100, 0)
      expect(layout.count).toBeGreaterThanOrEqual(n - 1)
      expect(layout.count).toBeLessThanOrEqual(inCircle.ratios.filter((one) => one <= ratio + 2 * digit).length)
      expectToFit(layout, 100)
      for (const { x, y } of layout.spots)
        expect(Math.hypot(x, y)).toBeLessThanOrEqual((100 * (ratio + digit) - 100) / 2 + 1e-6)
    },
  )

  test.each(cases)("never more than the best known below $ratio: $source ($seen)", ({ ratio }) => {
    const best = inCircle.ratios.filter((one) => one <= ratio - digit).length
    expect(fitInRound(100 * (ratio - digit), 100, 0).count).toBeLessThanOrEqual(best)
  })
})

describe("in a square pan", () => {
  // There the best layouts known are in no rows at all.
  const withoutRows = [8, 15]
  const cases = inSquare.radii.map((radius, i) => ({ ...inSquare, n: i + 1, radius }))

  test.each(cases)("$n pieces of radius $radius, and we lay out nearly all: $source ($seen)", ({ n, radius }) => {
    const across = 2000 * (radius - 1e-6)
    const layout = fitInRectangle(1000, 1000, across, 0)
    expect(layout.count).toBeGreaterThanOrEqual(n - (withoutRows.includes(n) ? 2 : 1))
    expect(layout.count).toBeLessThanOrEqual(inSquare.radii.filter((one) => one >= radius - 2e-6).length)
    expectToFit(layout, across)
    for (const { x, y } of layout.spots)
      expect(Math.max(Math.abs(x), Math.abs(y))).toBeLessThanOrEqual((1000 - across) / 2 + 1e-6)
  })

  test.each(cases)("never more than the best known above $radius: $source ($seen)", ({ radius }) => {
    const best = inSquare.radii.filter((one) => one >= radius + 1e-6).length
    expect(fitInRectangle(1000, 1000, 2000 * (radius + 1e-6), 0).count).toBeLessThanOrEqual(best)
  })
})

function expectToFit({ spots }: Layout, across: number) {
  for (const [i, one] of spots.entries())
    for (const other of spots.slice(i + 1))
      expect(Math.hypot(one.x - other.x, one.y - other.y)).toBeGreaterThanOrEqual(across - 1e-6)
}
