import { expect, test } from "vitest"
import { wilsonRange } from "../../server/dough/statistics/wilson.ts"

// Newcombe 1998, Stat Med 17:857–872, Table I, method 3 (score, no continuity correction). Secondary: the table as it is
// quoted in the tests of a public repository; the paper's opening is at https://studylib.net/doc/7960426
test.each([
  [81, 263, 0.2553, 0.3662],
  [15, 148, 0.0624, 0.1605],
  [0, 20, 0, 0.1611],
  [1, 29, 0.0061, 0.1718],
])("Newcombe 1998, Table I: %i of %i lies between %f and %f", (times, of, low, high) => {
  const range = wilsonRange(times, of)
  expect(range.low).toBeCloseTo(low, 4)
  expect(range.high).toBeCloseTo(high, 4)
})

test("the range stays within 0 and 1, and is turned round when what happened is", () => {
  for (const [times, of] of [
    [0, 1],
    [3, 7],
    [12, 12],
  ] as const) {
    const [one, other] = [wilsonRange(times, of), wilsonRange(of - times, of)]
    expect(one.low).toBeGreaterThanOrEqual(0)
    expect(one.high).toBeLessThanOrEqual(1)
    expect(one.low).toBeCloseTo(1 - other.high, 12)
  }
})

test.each([
  [1, 0],
  [-1, 5],
  [6, 5],
  [1.5, 5],
])("%f of %f cannot be", (times, of) => {
  expect(() => wilsonRange(times, of)).toThrow(RangeError)
})
