import fc from "fast-check"
import { betweenBakes, type Course, differsAtAll } from "../../../server/dough/causes/between-bakes.ts"
import { gasMade } from "../../../server/dough/fermentation/leaven.ts"
import { expect, test } from "../../test.ts"

const levain = (share: number) => ({ culture: "sourdough" as const, share })
const course = (bulk: number, pace: number, share = 0.1, activity = 1): Course => ({
  stretches: { bulk: { min: bulk, pace }, proof: { min: 120, pace: 1 } },
  leaven: levain(share),
  activity,
})

test("one thing that changed carries the whole difference", () => {
  const { hours, shares } = betweenBakes(course(300, 1), course(360, 1))
  expect(hours).toBeCloseTo(1, 12)
  expect(shares).toEqual({ bulk: expect.closeTo(1, 12) })
})

test("a longer and warmer bulk is shared out by the mean of both orders", () => {
  // by hand: 5 h at 1 is 5, 6 h at 1 is 6, 5 h at 1.2 is 6, 6 h at 1.2 is 7.2; time (1 + 1.2)/2, temperature likewise
  const { hours, shares } = betweenBakes(course(300, 1), course(360, 1.2))
  expect(hours).toBeCloseTo(2.2, 12)
  expect(shares.bulk).toBeCloseTo(1.1, 12)
  expect(shares.temperature).toBeCloseTo(1.1, 12)
})

test("more levain is told as the hours the earlier dough would have taken to make as much gas", () => {
  const { hours } = betweenBakes(course(300, 1), course(300, 1, 0.2))
  expect(gasMade(levain(0.1), 7 + hours)).toBeCloseTo(gasMade(levain(0.2), 7), 12)
})

test("a wait that only one of them had goes at its own pace, whoever's temperatures are asked for", () => {
  const then = course(300, 1)
  const now: Course = { ...then, stretches: { ...then.stretches, wait: { min: 60, pace: 0.9 } } }
  expect(betweenBakes(then, now).shares).toEqual({ wait: expect.closeTo(0.9, 12) })
})

test("without a temperature of one of them, temperature makes no difference", () => {
  const now: Course = { stretches: { bulk: { min: 330 }, proof: { min: 120 } } }
  const { shares } = betweenBakes({ stretches: course(300, 1.1).stretches }, now)
  expect(Object.keys(shares)).toEqual(["bulk"])
})

test("two kinds of leaven are not held against each other", () => {
  const yeasted: Course = { ...course(360, 1), leaven: { culture: "baker's yeast", share: 0.01 } }
  expect(Object.keys(betweenBakes(course(300, 1), yeasted).shares)).toEqual(["bulk"])
})

test("nothing that differs cannot be shared out", () => {
  expect(differsAtAll(course(300, 1), course(300, 1))).toBe(false)
  expect(() => betweenBakes(course(300, 1), course(300, 1))).toThrow(RangeError)
  expect(() => betweenBakes(course(300, 1), course(-5, 1))).toThrow(RangeError)
})

test("the shares add up to the whole, whatever changed", () => {
  const min = fc.double({ min: 0, max: 900, noNaN: true })
  const pace = fc.double({ min: 0.05, max: 1.5, noNaN: true })
  const any = fc
    .record({
      ...{ bulk: min, shape: min, proof: min, wait: min, bulkPace: pace, proofPace: pace },
      ...{
        share: fc.double({ min: 0.01, max: 0.4, noNaN: true }),
        activity: fc.double({ min: 0.5, max: 2, noNaN: true }),
      },
    })
    .map(
      ({ bulk, shape, proof, wait, bulkPace, proofPace, share, activity }): Course => ({
        stretches: {
          ...{ bulk: { min: bulk, pace: bulkPace }, shape: { min: shape, pace: bulkPace } },
          ...{ proof: { min: proof, pace: proofPace }, wait: { min: wait, pace: proofPace } },
        },
        ...{ leaven: levain(share), activity },
      }),
    )
  fc.assert(
    fc.property(any, any, (then, now) => {
      fc.pre(differsAtAll(then, now))
      const { hours, shares } = betweenBakes(then, now)
      expect(Object.values(shares).reduce((sum, share) => sum + share, 0)).toBeCloseTo(hours, 8)
    }),
  )
})
