import { median } from "simple-statistics"
import type { Range } from "../amounts.ts"
import { type Answer, enough, type Point, tooFewPoints } from "../statistics/answer.ts"
import { spearman } from "../statistics/spearman.ts"
import { theilSen } from "../statistics/theil-sen.ts"
import { fewestBakes, tooFewOf } from "./limits.ts"

/**
 * A robust line through what bakes took and how warm they were: `at` gives it at an x, `limitsAt` what its slope's 95 % limits
 * leave open there, turned about the middle x; no limits where there are too few points for them. `rho` says how surely the
 * one goes with the other (Spearman), and `p` the chance of it.
 */
export type RobustLine = {
  slope: number
  intercept: number
  limits: Answer<Range>
  rho: Answer<{ rho: number; p: number }>
  at(x: number): number
  limitsAt(x: number): Range | undefined
}

/**
 * The line of theilSen through at least five points. Not enough to say with fewer, or when all x are equal. Throws RangeError
 * for a coordinate that is not finite.
 */
export function lineThrough(points: Point[]): Answer<RobustLine> {
  const few = tooFewPoints(points)
  if (few || points.length < fewestBakes) return tooFewOf(points.length, fewestBakes, "such bakes")
  const line = theilSen(points)
  if (!line.enough) return line
  const { slope, intercept, limits } = line.value
  const at = (x: number) => intercept + slope * x
  const middle = median(points.map(({ x }) => x))
  const limitsAt = (x: number) => {
    if (!limits.enough) return undefined
    const ends = [limits.value.low, limits.value.high].map((one) => at(middle) + one * (x - middle))
    return { low: Math.min(...ends), high: Math.max(...ends) }
  }
  return enough({ slope, intercept, limits, rho: spearman(points), at, limitsAt })
}
