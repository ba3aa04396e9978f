import { expect, test } from "vitest"
import { type Led, standApart } from "../../server/dough/class-picture/apart.ts"
import { explainedSpread } from "../../server/dough/class-picture/explained.ts"
import { lineThrough } from "../../server/dough/class-picture/line.ts"
import { betweenGroups, sharedDifference } from "../../server/dough/class-picture/shared.ts"
import { signTest } from "../../server/dough/statistics/sign-test.ts"
import { told } from "../dough/statistics/values.ts"

// The robust statistics of others, through the functions that the page of a class calls. The statistics themselves are in
// statistics.test.ts.

type Case = { what: string; ours: () => number[]; expected: number[]; tolerance: number; source: string; seen: string }

const points = ({ x, y }: { x: number[]; y: number[] }) => x.map((one, i) => ({ x: one, y: y[i]! }))
const statpsych = {
  x: [67, 28, 30, 28, 52, 40, 25, 37, 44, 10, 14, 20, 28, 40, 51],
  y: [21, 4, 9, 12, 35, 18, 10, 22, 24, 1, 6, 8, 13, 16, 19],
}
const television = {
  x: [106, 86, 100, 101, 99, 103, 97, 113, 112, 110],
  y: [7, 0, 27, 50, 28, 29, 20, 12, 6, 17],
}
const sen = { x: [1, 2, 3, 4, 10, 12, 18], y: [9, 15, 19, 20, 45, 55, 78] }
const masking = [2.1, 2.6, 2.4, 2.5, 2.3, 2.1, 2.3, 2.6, 8.2, 8.3]
const depression = [1.83, 0.5, 1.62, 2.48, 1.68, 1.88, 1.55, 3.06, 1.3].map(
  (before, i) => before - [0.878, 0.647, 0.598, 2.05, 1.06, 1.29, 1.06, 3.14, 1.29][i]!,
)
const react = {
  x: [1.94, 1.94, 2.92, 2.92, 2.92, 2.92, 3.27, 3.27, 3.27, 3.27, 3.7, 3.7, 3.74],
  y: [3.27, 3.27, 3.27, 3.7, 3.7, 3.74],
}

/** Bakes whose whole lead is time's, or so much time's and so much temperature's. */
const led = (minutes: number[], warm = minutes.map(() => 0)): Led[] =>
  minutes.map((min, at) => ({
    key: String(at + 1),
    causes: {
      ...{
        enough: true,
        leadMin: min + warm[at]!,
        leadLowMin: min,
        leadHighMin: min,
        leftAtPlan: [],
        differed: { min },
      },
      shares: [
        { key: "time", min, lowMin: min, highMin: min, percent: undefined },
        { key: "temperature", min: warm[at]!, lowMin: 0, highMin: 0, percent: undefined },
      ],
    },
  }))

const cases: Case[] = [
  {
    what: "the line through time and temperature, with its limits",
    ours: () => {
      const { slope, limits } = told(lineThrough(points(statpsych)))
      return [slope, told(limits).low, told(limits).high]
    },
    expected: [0.5, 0.3243243, 0.75],
    tolerance: 1e-6,
    source: "statpsych, documentation of ci.theil",
    seen: "primary",
  },
  {
    what: "the line's slope and where it begins",
    ours: () => {
      const line = told(lineThrough(points({ x: [0, 1, 2, 3, 4, 5], y: [6, 4, 1, 8, 7, 8] })))
      return [line.slope, line.intercept, line.at(0), line.at(3)]
    },
    expected: [0.6666667, 4.5, 4.5, 6.5],
    tolerance: 1e-6,
    source: "R-help, November 2012, output of zyp.sen",
    seen: "primary",
  },
  {
    what: "the line of Sen's own example, and its limits",
    ours: () => {
      const { slope, limits } = told(lineThrough(points(sen)))
      return [slope, told(limits).low, told(limits).high]
    },
    expected: [4, 26 / 7, 35 / 8],
    tolerance: 1e-9,
    source: "Sen 1968, J Am Stat Assoc 63:1379",
    seen: "memory",
  },
  {
    what: "how surely time goes with temperature, with ties and without",
    ours: () => [statpsych, television].map((data) => told(told(lineThrough(points(data))).rho).rho),
    expected: [0.8699639, -0.1757576],
    tolerance: 1e-6,
    source: "statpsych, ci.spear; Wikipedia, Spearman's coefficient, as copied by LiquiSearch",
    seen: "primary",
  },
  {
    what: "the two bakes that stand apart and hide each other",
    ours: () => told(standApart(led(masking))).apart.map(({ z }) => z),
    expected: [26.305, 25.856],
    tolerance: 0.001,
    source: "Iglewicz & Hoaglin 1993, How to Detect and Handle Outliers; scores by R 4.2.2",
    seen: "memory",
  },
  {
    what: "what a class has in common, and its limits",
    ours: () => {
      const { middle, limits } = told(sharedDifference(depression))
      return [middle, limits.low, limits.high]
    },
    expected: [0.46, 0.01, 0.786],
    tolerance: 1e-9,
    source: "Hollander & Wolfe 1973, p. 29, depression scale; estimate and limits by R 4.2.2, wilcox.test",
    seen: "memory",
  },
  {
    what: "one flour against another",
    ours: () => [told(betweenGroups(react.x, react.y))],
    expected: [0.35],
    tolerance: 1e-9,
    source: "SAS/STAT User's Guide, NPAR1WAY, data set React",
    seen: "primary",
  },
  {
    what: "seven of eight on one side, one tail and two",
    ours: () => {
      const { p } = signTest([1, 1, 1, 1, 1, 1, 1, -1])
      return [p / 2, p]
    },
    expected: [0.03516, 0.0703],
    tolerance: 5e-5,
    source: "D. M. Lane, HyperStat, sign test (its two-tailed 0.0732 is a slip: twice 0.03516 is 0.0703)",
    seen: "primary",
  },
  {
    what: "ten above and two below",
    ours: () => [signTest([...Array(10).fill(1), -1, -1]).p],
    expected: [(2 * 79) / 4096],
    tolerance: 1e-12,
    source: "R. B. Darlington, The sign test from exact numbers of combinations",
    seen: "primary",
  },
]

test.each(cases)("$what: $source ($seen)", ({ ours, expected, tolerance }) => {
  const values = ours()
  expect(values).toHaveLength(expected.length)
  values.forEach((value, i) => {
    expect(Math.abs(value - expected[i]!)).toBeLessThanOrEqual(tolerance)
  })
})

test.each([
  [6, 0],
  [8, 0],
  [9, 1],
  [11, 1],
  [12, 2],
  [15, 3],
  [20, 5],
  [25, 7],
])(
  "of %d values %d on the other side is the most that counts at 5 %%, two tails: table A-7, Triola, Elementary Statistics (primary)",
  (count, most) => {
    const p = (other: number) => signTest([...Array(count - other).fill(1), ...Array(other).fill(-1)]).p
    expect(p(most)).toBeLessThanOrEqual(0.05)
    expect(p(most + 1)).toBeGreaterThan(0.05)
  },
)

/** The rule is ρ·sd(factor)/sd(total), which is the covariance with the total over its variance. */
test("the shares of a spread are those of S. P. Jenkins's ineqfac, after Shorrocks 1982 (primary)", () => {
  const [time, warm] = [
    [10, 40, -20, 5, 60, -15, 15, 0, 25],
    [5, -10, 30, 20, -15, 5, 10, 40, -5],
  ]
  const bakes = led(time!, warm).map((bake) => ({ ...bake, flour: "strong white flour" }))
  const { parts } = told(explainedSpread(bakes))
  const total = time!.map((min, at) => min + warm![at]!)
  const sd = (values: number[]) => {
    const mean = values.reduce((sum, one) => sum + one, 0) / values.length
    return Math.sqrt(values.reduce((sum, one) => sum + (one - mean) ** 2, 0) / (values.length - 1))
  }
  const rho = (a: number[], b: number[]) => {
    const sumOf = a.map((one, at) => one + b[at]!)
    return (sd(sumOf) ** 2 - sd(a) ** 2 - sd(b) ** 2) / (2 * sd(a) * sd(b))
  }
  for (const [key, values] of [
    ["time", time!],
    ["temperature", warm!],
  ] as const) {
    const { share } = parts.find((part) => part.key === key)!
    expect(share).toBeCloseTo((rho(values, total) * sd(values)) / sd(total), 9)
  }
  expect(parts.reduce((sum, { share }) => sum + share, 0)).toBeCloseTo(1, 12)
})
