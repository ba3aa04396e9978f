import { expect, test } from "vitest"
import { type Correction, calibrationOf, leastInAll, mostLikely } from "../../server/dough/verdict/calibration.ts"

/** The model said over with this probability, and so many times it was right and wrong. */
const over = (stated: number, right: number, wrong: number): Correction[] => {
  const said = { under: (1 - stated) / 2, well: (1 - stated) / 2, over: stated }
  const of = (call: Correction["call"], count: number) => Array.from({ length: count }, () => ({ said, call }))
  return [...of("over", right), ...of("under", wrong)]
}

test("each verdict counts by how sure it was, right when the instructor says the same", () => {
  // counted by hand: 3 of 5 at 60 %, 4 of 6 at 80 %, 9 of 10 at 92 %, 1 of 2 at 45 %
  const said = [...over(0.6, 3, 2), ...over(0.8, 4, 2), ...over(0.92, 9, 1), ...over(0.45, 1, 1)]
  const { count, right, bins } = calibrationOf(said)
  expect([count, right]).toEqual([23, 17])
  expect(bins.map((bin) => [bin.right, bin.count])).toEqual([
    [1, 2],
    [3, 5],
    [4, 6],
    [9, 10],
  ])
  expect(bins.map(({ held }) => held?.share)).toEqual([undefined, 3 / 5, 4 / 6, 9 / 10])
})

test("what they said on average stands beside how often it held", () => {
  const [, , bin] = calibrationOf([...over(0.72, 2, 0), ...over(0.8, 2, 0), ...over(0.84, 1, 1)]).bins
  expect(bin!.stated).toBeCloseTo((2 * 0.72 + 2 * 0.8 + 2 * 0.84) / 6, 12)
})

test("more sure than right, and more right than sure, are said only where the range leaves no doubt", () => {
  // Wilson, 95 %: 5 of 10 is 24–76 %, 19 of 20 is 76–99 %, 6 of 10 is 31–83 %
  const against = (corrections: Correction[]) =>
    calibrationOf(corrections).bins.flatMap(({ held }) => held?.against ?? [])
  expect(against(over(0.9, 5, 5))).toEqual(["less often"])
  expect(against(over(0.6, 19, 1))).toEqual(["more often"])
  expect(against(over(0.8, 6, 4))).toEqual(["as said"])
})

test("with few corrections there are counts, and nothing is said of them", () => {
  const { enough, bins } = calibrationOf(over(0.9, 4, 0))
  expect(enough).toBe(false)
  expect(bins.at(-1)).toMatchObject({ right: 4, count: 4 })
  expect(bins.at(-1)!.held).toBeUndefined()
  expect(calibrationOf(over(0.9, leastInAll, 0)).enough).toBe(true)
  expect(calibrationOf([])).toMatchObject({ count: 0, right: 0, enough: false })
})

test("the ends belong somewhere: a verdict of three thirds, and a certain one", () => {
  const third = { said: { under: 0.3333333, well: 0.3333333, over: 0.3333333 }, call: "under" as const }
  expect(calibrationOf([third, ...over(1, 1, 0)]).bins.map(({ count }) => count)).toEqual([1, 0, 0, 1])
  expect(mostLikely(third.said).call).toBe("under")
  expect(() => calibrationOf([{ said: { under: 0.1, well: 0.1, over: 0.1 }, call: "over" }])).toThrow(RangeError)
})
