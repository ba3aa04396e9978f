import { sampleStandardDeviation, wilcoxonRankSum } from "simple-statistics"
import { expect, test } from "vitest"
import type { Point } from "../../server/dough/statistics/answer.ts"
import { hodgesLehmann, hodgesLehmannShift } from "../../server/dough/statistics/hodges-lehmann.ts"
import { averageRanks, spearman } from "../../server/dough/statistics/spearman.ts"
import {
  median,
  medianAbsoluteDeviation,
  modifiedZ,
  outlierZ,
  quantile,
  robustSigma,
  sigmaPerMad,
} from "../../server/dough/statistics/spread.ts"
import { studentTails } from "../../server/dough/statistics/student-t.ts"
import { theilSen } from "../../server/dough/statistics/theil-sen.ts"
import { told } from "../dough/statistics/values.ts"

type Source = { tolerance: number; source: string; seen: "primary" | "secondary" | "memory"; url?: string }
type Case = Source & { what: string; ours: () => number[]; expected: number[] }

const points = ({ x, y }: { x: number[]; y: number[] }): Point[] => x.map((one, i) => ({ x: one, y: y[i]! }))

const masking = [2.1, 2.6, 2.4, 2.5, 2.3, 2.1, 2.3, 2.6, 8.2, 8.3]
const television = {
  x: [106, 86, 100, 101, 99, 103, 97, 113, 112, 110],
  y: [7, 0, 27, 50, 28, 29, 20, 12, 6, 17],
}
const statpsych = {
  x: [67, 28, 30, 28, 52, 40, 25, 37, 44, 10, 14, 20, 28, 40, 51],
  y: [21, 4, 9, 12, 35, 18, 10, 22, 24, 1, 6, 8, 13, 16, 19],
}
const sen = { x: [1, 2, 3, 4, 10, 12, 18], y: [9, 15, 19, 20, 45, 55, 78] }
const react = {
  x: [1.94, 1.94, 2.92, 2.92, 2.92, 2.92, 3.27, 3.27, 3.27, 3.27, 3.7, 3.7, 3.74],
  y: [3.27, 3.27, 3.27, 3.7, 3.7, 3.74],
}
const depression = {
  before: [1.83, 0.5, 1.62, 2.48, 1.68, 1.88, 1.55, 3.06, 1.3],
  after: [0.878, 0.647, 0.598, 2.05, 1.06, 1.29, 1.06, 3.14, 1.29],
}

const rHelp: Source = {
  tolerance: 1e-12,
  source: "R, help page of stats::mad",
  seen: "primary",
  url: "https://search.r-project.org/R/refmans/stats/html/mad.html",
}
const iglewicz: Source = {
  tolerance: 0.001,
  source: "Iglewicz & Hoaglin 1993, How to Detect and Handle Outliers; scores by R 4.2.2",
  seen: "memory",
}
const spearmanExample: Source = {
  tolerance: 1e-6,
  source: "worked example of Spearman's coefficient, Wikipedia, as copied by LiquiSearch",
  seen: "primary",
  url: "http://www.liquisearch.com/spearmans_rank_correlation_coefficient/example",
}

const cases: Case[] = [
  {
    what: "the MAD of 1 to 9",
    ours: () => [told(medianAbsoluteDeviation([1, 2, 3, 4, 5, 6, 7, 8, 9]))],
    expected: [2],
    ...rHelp,
  },
  {
    what: "the MAD with 100 in place of 9",
    ours: () => [told(medianAbsoluteDeviation([1, 2, 3, 4, 5, 6, 7, 8, 100]))],
    expected: [2],
    ...rHelp,
  },
  {
    what: "the MAD of 1 to 9 as a standard deviation",
    ours: () => [told(robustSigma([1, 2, 3, 4, 5, 6, 7, 8, 9]))],
    expected: [2.9652],
    ...rHelp,
    tolerance: 1e-4,
  },
  {
    what: "the MAD of 1 1 2 2 4 6 9 as a standard deviation",
    ours: () => [told(robustSigma([1, 1, 2, 2, 4, 6, 9]))],
    expected: [1.48258],
    tolerance: 1e-4,
    source: "rwavelet, documentation of MAD",
    seen: "primary",
    url: "https://rdrr.io/cran/rwavelet/man/MAD.html",
  },
  { what: "standard deviations in a MAD", ours: () => [sigmaPerMad], expected: [1.4826], ...rHelp, tolerance: 5e-5 },
  {
    what: "MADs in a standard deviation",
    ours: () => [1 / sigmaPerMad],
    expected: [0.6744897501960817],
    tolerance: 1e-15,
    source: "statsmodels, documentation of robust.scale.mad",
    seen: "primary",
    url: "https://www.statsmodels.org/v0.14.1/generated/statsmodels.robust.scale.mad.html",
  },
  {
    what: "modified z, two outliers hiding each other",
    ours: () => told(modifiedZ(masking)),
    expected: [-1.574, 0.674, -0.225, 0.225, -0.674, -1.574, -0.674, 0.674, 25.856, 26.305],
    ...iglewicz,
  },
  {
    what: "the median of 10 7 4 3 2 1",
    ours: () => [told(median([10, 7, 4, 3, 2, 1]))],
    expected: [3.5],
    tolerance: 0,
    source: "NumPy, documentation of percentile",
    seen: "secondary",
    url: "https://cnblogs.com/qqhfeng/p/5343003.html",
  },
  {
    what: "the first quartile as spreadsheets have it",
    ours: () => [told(quantile([11, 21, 42, 27, 18, 29, 32, 52], 0.25))],
    expected: [20.25],
    tolerance: 1e-12,
    source: "Mescius, spreadsheet formula reference, QUARTILE.INC",
    seen: "primary",
    url: "https://developer.mescius.com/spreadjs/docs/formulareference/FormulaFunctions/statistical-functions/QUARTILE.INC",
  },
  {
    what: "ρ without ties",
    ours: () => [told(spearman(points(television))).rho],
    expected: [-0.1757576],
    ...spearmanExample,
  },
  {
    what: "the sum of squared differences of ranks",
    ours: () => {
      const [x, y] = [averageRanks(television.x), averageRanks(television.y)]
      return [x.reduce((sum, rank, i) => sum + (rank - y[i]!) ** 2, 0)]
    },
    expected: [194],
    ...spearmanExample,
    tolerance: 1e-9,
  },
  {
    what: "ρ with ties",
    ours: () => [told(spearman(points(statpsych))).rho],
    expected: [0.8699639],
    tolerance: 1e-6,
    source: "statpsych, documentation of ci.spear",
    seen: "primary",
    url: "https://search.r-project.org/CRAN/refmans/statpsych/html/ci.spear.html",
  },
  {
    what: "Theil-Sen slope and its 95 % limits, with ties",
    ours: () => {
      const { slope, limits } = told(theilSen(points(statpsych)))
      return [slope, told(limits).low, told(limits).high]
    },
    expected: [0.5, 0.3243243, 0.75],
    tolerance: 1e-6,
    source: "statpsych, documentation of ci.theil",
    seen: "primary",
    url: "https://search.r-project.org/CRAN/refmans/statpsych/html/ci.theil.html",
  },
  {
    what: "Theil-Sen slope and intercept",
    ours: () => {
      const { slope, intercept } = told(theilSen(points({ x: [0, 1, 2, 3, 4, 5], y: [6, 4, 1, 8, 7, 8] })))
      return [slope, intercept]
    },
    expected: [0.6666667, 4.5],
    tolerance: 1e-6,
    source: "R-help, November 2012, output of zyp.sen",
    seen: "primary",
    url: "https://stat.ethz.ch/pipermail/r-help/2012-November/328268.html",
  },
  {
    what: "Sen's own slope",
    ours: () => [told(theilSen(points(sen))).slope],
    expected: [4],
    tolerance: 1e-9,
    source: "Sen 1968, J Am Stat Assoc 63:1379",
    seen: "memory",
  },
  {
    what: "the limits of Sen's own slope",
    ours: () => {
      const { low, high } = told(told(theilSen(points(sen))).limits)
      return [low, high]
    },
    expected: [26 / 7, 35 / 8],
    tolerance: 1e-9,
    source: "Sen 1968, J Am Stat Assoc 63:1379, from his exact table; the normal approximation reaches the same places",
    seen: "memory",
  },
  {
    what: "Hodges-Lehmann shift, with ties",
    ours: () => [told(hodgesLehmannShift(react.x, react.y))],
    expected: [0.35],
    tolerance: 1e-9,
    source: "SAS/STAT User's Guide, NPAR1WAY, data set React (data from memory, they give the printed rank sums)",
    seen: "primary",
    url: "https://support.sas.com/documentation/cdl/en/statug/63033/HTML/default/statug_npar1way_sect023.htm",
  },
  {
    what: "Hodges-Lehmann of paired differences",
    ours: () => [told(hodgesLehmann(depression.before.map((one, i) => one - depression.after[i]!)))],
    expected: [0.46],
    tolerance: 1e-9,
    source: "Hollander & Wolfe 1973, p. 29, depression scale; estimate by R 4.2.2",
    seen: "memory",
  },
  {
    what: "Hodges-Lehmann shift",
    ours: () => [
      told(
        hodgesLehmannShift([1.15, 0.88, 0.9, 0.74, 1.21], [0.8, 0.83, 1.89, 1.04, 1.45, 1.38, 1.91, 1.64, 0.73, 1.46]),
      ),
    ],
    expected: [0.305],
    tolerance: 1e-9,
    source: "Hollander & Wolfe 1973, p. 69, permeability; estimate by R 4.2.2",
    seen: "memory",
  },
  {
    what: "Hodges-Lehmann of a membrane's permeability",
    ours: () => [told(hodgesLehmann([0.9, 1.13, 1.89, 1.14, 1.45, 1.38, 1.91, 1.64, 0.83, 1.46]))],
    expected: [1.385],
    tolerance: 1e-9,
    source: "Iowa State University, Stat 403, membrane",
    seen: "primary",
    url: "http://www.public.iastate.edu/~wrstephe/stat403/membrane/membrane.html",
  },
]

test.each(cases)("$what: $source ($seen)", ({ ours, expected, tolerance }) => {
  const values = ours()
  expect(values).toHaveLength(expected.length)
  values.forEach((value, i) => {
    expect(Math.abs(value - expected[i]!)).toBeLessThanOrEqual(tolerance)
  })
})

test("the React data give the rank sums 110.5 and 79.5 printed beside the shift: SAS/STAT User's Guide (primary)", () => {
  expect([wilcoxonRankSum(react.x, react.y), wilcoxonRankSum(react.y, react.x)]).toEqual([110.5, 79.5])
})

test("modified z finds both hidden outliers, where |z| > 3 finds none: Iglewicz & Hoaglin 1993 (memory)", () => {
  const out = told(modifiedZ(masking)).filter((z) => Math.abs(z) > outlierZ)
  expect(out).toHaveLength(2)
  const mean = masking.reduce((sum, one) => sum + one, 0) / masking.length
  const z = masking.map((one) => (one - mean) / sampleStandardDeviation(masking))
  expect(Math.max(...z)).toBeCloseTo(1.91, 2)
})

/** The page works its own ρ and n into 0.686; its formula, t = ρ·√((n − 2)/(1 − ρ²)) with 8 degrees of freedom, gives 0.627. */
test("the P of the television example is 0.627, not the 0.686 printed: Wikipedia, as copied (published error)", () => {
  const { p } = told(spearman(points(television)))
  expect(p).toBeCloseTo(0.627, 3)
  expect(Math.abs(p - 0.686)).toBeGreaterThan(0.05)
})

/** Of the orders of y, one whose ρ is the critical value and one with the next lower ρ that so many points can have. */
test.each([
  { critical: 0.886, at: [1, 2, 4, 3, 6, 5], below: [1, 2, 3, 5, 6, 4] },
  { critical: 0.786, at: [1, 2, 3, 5, 6, 7, 4], below: [1, 2, 3, 5, 7, 6, 4] },
  { critical: 0.738, at: [1, 2, 3, 5, 6, 8, 7, 4], below: [1, 2, 3, 5, 8, 7, 4, 6] },
])(
  "$at.length points need a ρ of $critical for P ≤ 5 %: tables to Fisher, van Belle et al., Biostatistics (primary)",
  ({ critical, at, below }) => {
    const inOrder = (order: number[]) => told(spearman(order.map((y, x) => ({ x, y }))))
    expect(inOrder(at).rho).toBeCloseTo(critical, 3)
    expect(inOrder(at).p).toBeLessThanOrEqual(0.05)
    expect(inOrder(below).p).toBeGreaterThan(0.05)
  },
)

test.each([
  [1, 12.706],
  [2, 4.303],
  [5, 2.571],
  [8, 2.306],
  [10, 2.228],
  [30, 2.042],
])(
  "t with %d degrees of freedom lies beyond %d one time in twenty: Fisher 1925, table of t (secondary)",
  (freedom, t) => {
    expect(studentTails(t, freedom)).toBeCloseTo(0.05, 4)
  },
)
