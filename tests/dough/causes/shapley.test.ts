import fc from "fast-check"
import { describe, expect, test } from "vitest"
import { shapleyOf, shapleyShares } from "../../../server/dough/causes/shapley.ts"

const names = ["time", "warmth", "levain", "activity", "salt", "water", "flour", "folds"]
const sum = (values: number[]) => values.reduce((total, value) => total + value, 0)

/** Some factors, and a value for every set of them: `values[bits]`, one bit a factor. */
const gamesOf = (most: number) =>
  fc.integer({ min: 1, max: most }).chain((count) =>
    fc.record({
      factors: fc.constant(names.slice(0, count)),
      values: fc.array(fc.double({ min: -1000, max: 1000, noNaN: true }), {
        minLength: 2 ** count,
        maxLength: 2 ** count,
      }),
    }),
  )
const bitsOf = (changed: ReadonlySet<string>) => sum(names.map((name, at) => (changed.has(name) ? 1 << at : 0)))

describe("shapleyShares", () => {
  test("the shares add up to the whole difference", () => {
    fc.assert(
      fc.property(gamesOf(8), ({ factors, values }) => {
        const shares = shapleyShares(factors, (changed) => values[bitsOf(changed)]!)
        const whole = values.at(-1)! - values[0]!
        const largest = Math.max(...values.map(Math.abs))
        expect(Math.abs(sum(Object.values(shares)) - whole)).toBeLessThanOrEqual(1e-12 * largest)
      }),
    )
  })

  test("each set is asked for once", () => {
    const asked: number[] = []
    shapleyShares(names, (changed) => asked.push(bitsOf(changed)))
    expect(asked).toHaveLength(256)
    expect(new Set(asked).size).toBe(256)
  })

  test("a factor that makes no difference has exactly 0", () => {
    fc.assert(
      fc.property(gamesOf(7), ({ factors, values }) => {
        const shares = shapleyShares([...factors, "oven"], (changed) => values[bitsOf(changed)]!)
        expect(shares.oven).toBe(0)
      }),
    )
  })

  test("two factors that make the same difference share it alike, whatever the others do", () => {
    fc.assert(
      fc.property(gamesOf(6), ({ factors, values }) => {
        const shares = shapleyShares([...factors, "jar", "lid"], (changed) => {
          const both = changed.has("jar") && changed.has("lid") ? 3 : changed.has("jar") || changed.has("lid") ? 2 : 1
          return both * values[bitsOf(changed)]!
        })
        expect(shares.jar).toBeCloseTo(shares.lid!, 9)
      }),
    )
  })

  test("the shares of a sum of two games are the sums of their shares", () => {
    fc.assert(
      fc.property(gamesOf(8), ({ factors, values }) => {
        const one = (changed: ReadonlySet<string>) => values[bitsOf(changed)]!
        const other = (changed: ReadonlySet<string>) => values.at(-1 - bitsOf(changed))!
        const added = shapleyShares(factors, (changed) => one(changed) + other(changed))
        const [a, b] = [shapleyShares(factors, one), shapleyShares(factors, other)]
        for (const factor of factors) expect(added[factor]).toBeCloseTo(a[factor]! + b[factor]!, 9)
      }),
    )
  })

  test("refuses no factors, nine, one named twice, and a value that is not finite", () => {
    expect(() => shapleyShares([], () => 0)).toThrow(RangeError)
    expect(() => shapleyShares([...names, "oven"], () => 0)).toThrow("1 to 8 factors, not 9")
    expect(() => shapleyShares(["time", "time"], () => 0)).toThrow("named twice")
    expect(() => shapleyShares(["time", "salt"], (changed) => Math.log(1 - changed.size))).toThrow(
      "with time changed the value is -Infinity",
    )
  })

  test("the values themselves give the same shares as asking for them, and must be those of a whole number of factors", () => {
    fc.assert(
      fc.property(gamesOf(8), ({ factors, values }) => {
        const asked = shapleyShares(factors, (changed) => values[bitsOf(changed)]!)
        expect(shapleyOf(values)).toEqual(factors.map((factor) => asked[factor]))
      }),
    )
    expect(() => shapleyOf([1, 2, 3])).toThrow("3 values are not those of")
    expect(() => shapleyOf([1])).toThrow(RangeError)
  })
})
