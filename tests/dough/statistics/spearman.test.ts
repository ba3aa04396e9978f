import fc from "fast-check"
import { jStat } from "jstat"
import { expect, test } from "vitest"
import { averageRanks, spearman } from "../../../server/dough/statistics/spearman.ts"
import { studentTails } from "../../../server/dough/statistics/student-t.ts"
import { points, told, values } from "./values.ts"

test("equal values share the mean of their ranks", () => {
  expect(averageRanks([30, 10, 20, 20])).toEqual([4, 1, 2.5, 2.5])
})

test("ranks agree with another library's, and always add up to n(n + 1)/2", () => {
  fc.assert(
    fc.property(values, (all) => {
      const ranks = averageRanks(all)
      expect(ranks).toEqual(jStat.rank(all))
      expect(ranks.reduce((sum, rank) => sum + rank, 0)).toBe((all.length * (all.length + 1)) / 2)
    }),
  )
})

test("ρ agrees with another library's, ties and all, and only the order of the values counts", () => {
  fc.assert(
    fc.property(points, (all) => {
      const answer = spearman(all)
      fc.pre(answer.enough)
      const [x, y] = [all.map((point) => point.x), all.map((point) => point.y)]
      expect(told(answer).rho).toBeCloseTo(jStat.spearmancoeff(x, y), 9)
      expect(spearman(all.map((point) => ({ x: Math.exp(point.x), y: point.y ** 3 })))).toEqual(answer)
    }),
    { numRuns: 40 },
  )
})

test("turning y over turns ρ over and leaves its chance", () => {
  fc.assert(
    fc.property(points, (all) => {
      const answer = spearman(all)
      fc.pre(answer.enough)
      const turned = told(spearman(all.map(({ x, y }) => ({ x, y: -y }))))
      expect(turned.rho).toBeCloseTo(-told(answer).rho, 9)
      expect(turned.p).toBeCloseTo(told(answer).p, 9)
    }),
    { numRuns: 40 },
  )
})

test("four bakes in perfect order happen by chance twice in 24", () => {
  const { rho, p } = told(spearman([1, 2, 3, 4].map((x) => ({ x, y: 10 * x }))))
  expect(rho).toBeCloseTo(1, 12)
  expect(p).toBe(2 / 24)
})

test("nine in perfect order are beyond chance by the t approximation, without a division by nothing", () => {
  expect(told(spearman(Array.from({ length: 9 }, (_, x) => ({ x, y: x })))).p).toBeCloseTo(0, 9)
})

test("two points, or a side that never changes, are not enough", () => {
  expect(
    spearman([
      { x: 1, y: 1 },
      { x: 2, y: 2 },
    ]),
  ).toMatchObject({ enough: false, why: expect.stringMatching(/3 points/) })
  expect(spearman([1, 2, 3].map((y) => ({ x: 5, y })))).toMatchObject({
    enough: false,
    why: expect.stringMatching(/never changes/),
  })
  expect(() => spearman([{ x: 1, y: Number.NaN }])).toThrow(RangeError)
})

test("Student's t agrees with another library's", () => {
  fc.assert(
    fc.property(fc.double({ min: -30, max: 30, noNaN: true }), fc.integer({ min: 1, max: 60 }), (t, freedom) => {
      expect(studentTails(t, freedom)).toBeCloseTo(2 * jStat.studentt.cdf(-Math.abs(t), freedom), 7)
    }),
  )
  expect(() => studentTails(1, 0)).toThrow(RangeError)
  expect(() => studentTails(Number.NaN, 3)).toThrow(RangeError)
})
