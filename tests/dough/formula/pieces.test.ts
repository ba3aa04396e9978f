import { describe, expect, test } from "vitest"
import { fitInRectangle, fitInRound } from "../../../server/dough/formula/packing.ts"
import { spreadOf } from "../../../server/dough/formula/piece-masses.ts"
import { readTolerance } from "../../../server/dough/formula/pieces.ts"

test.each([
  ["± 5 g", { g: 5 }],
  ["+/- 5 g", { g: 5 }],
  ["+-3%", { share: 0.03 }],
  ["4", { g: 4 }],
  ["", "none given"],
  ["2–5 g", undefined],
  ["a little", undefined],
])("a tolerance of %j", (text, tolerance) => {
  expect(readTolerance(text)).toEqual(tolerance)
})

describe("the masses that pieces really had", () => {
  test("have a middle, a spread and some beyond what was allowed", () => {
    expect(spreadOf([88, 90, 91, 95, 86], { low: 87, high: 93 })).toEqual({
      ...{ count: 5, meanG: 90, medianG: 90, lowestG: 86, highestG: 95, outside: [3, 4], says: undefined },
      sdG: expect.closeTo(Math.sqrt(46 / 4), 9),
    })
  })

  test("on the limit are inside", () => {
    expect(spreadOf([0.1 + 0.2], { low: 0.3, high: 0.3 }).outside).toEqual([])
  })

  test("of a few pieces say that they are few", () => {
    expect(spreadOf([88, 90])).toMatchObject({ sdG: undefined, says: expect.stringMatching(/Only 2 pieces were/) })
    expect(spreadOf([88]).says).toMatch(/Only 1 piece was/)
  })

  test.each([[[]], [[0]], [[Number.NaN]]])("%j are refused", (masses) => {
    expect(() => spreadOf(masses)).toThrow(RangeError)
  })
})

describe("pieces in a pan", () => {
  test("keep their gap to one another, and half of it to the wall", () => {
    const { count, spots } = fitInRound(260, 60, 20)
    expect(count).toBe(7)
    for (const [i, one] of spots.entries()) {
      expect(Math.hypot(one.x, one.y) + 30).toBeLessThanOrEqual(130 - 10 + 1e-6)
      for (const other of spots.slice(i + 1))
        expect(Math.hypot(one.x - other.x, one.y - other.y)).toBeGreaterThanOrEqual(80 - 1e-6)
    }
  })

  test("lie in straight rows where those hold as many", () => {
    expect(fitInRectangle(330, 230, 80, 25).spots).toHaveLength(6)
    expect(fitInRectangle(230, 330, 80, 25).count).toBe(6)
  })

  test("stagger where that holds more", () => {
    expect(fitInRectangle(1000, 1000, 97, 0).count).toBeGreaterThan(100)
  })

  test("that are too large do not fit", () => {
    expect(fitInRound(100, 101, 0).count).toBe(0)
    expect(fitInRectangle(100, 300, 90, 20).count).toBe(0)
  })

  test("are said to spread", () => expect(fitInRound(260, 60, 20).caution).toMatch(/spread/))

  test.each([
    [0, 60, 10],
    [260, -1, 10],
    [260, 60, -1],
    [26_000, 60, 0],
  ])("%d, %d, %d are refused", (pan, piece, gap) => {
    expect(() => fitInRound(pan, piece, gap)).toThrow(RangeError)
    expect(() => fitInRectangle(pan, pan, piece, gap)).toThrow(RangeError)
  })
})
