import fc from "fast-check"
import { expect, test } from "vitest"
import { type Percent, type Share, toPercent, toShare } from "../../server/dough/amounts.ts"
import { bakeLossOf, beforeLoss } from "../../server/dough/formula/scaling.ts"

test("a share told in percent and read again is the same share", () => {
  fc.assert(
    fc.property(fc.double({ min: 0, max: 10, noNaN: true }), (share) => {
      expect(toShare(toPercent(share))).toBeCloseTo(share, 14)
    }),
  )
})

test("a percentage does not pass for a share", () => {
  const loss: Percent = toPercent(0.12)
  const share: Share = toShare(loss)
  // @ts-expect-error: 12 is no share of a dough that could be lost
  expect(() => beforeLoss(880, loss)).toThrow(RangeError)
  // @ts-expect-error: nor is a share a percentage
  const told: Percent = bakeLossOf(1000, 880)
  expect(told).toBeCloseTo(share, 12)
})
