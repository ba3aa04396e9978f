import { median } from "simple-statistics"
import type { Range } from "../amounts.ts"
import { type Answer, enough, notEnough, type Point, tooFewPoints } from "./answer.ts"

/**
 * The line that a few wild points do not pull: `slope` is the median of the slopes between every two points with different
 * x, `intercept` the median of y − slope·x, `limits` the slope's 95 % limits, which four points or fewer cannot give. Not
 * enough to say when all x are equal. Throws RangeError for a coordinate that is not finite.
 *
 * Source: Theil 1950; Sen 1968, J Am Stat Assoc 63:1379, with his normal approximation and his correction for equal x.
 */
export function theilSen(points: Point[]): Answer<{ slope: number; intercept: number; limits: Answer<Range> }> {
  const few = tooFewPoints(points)
  if (few) return few
  const slopes = points.flatMap((a, i) =>
    points.slice(i + 1).flatMap((b) => (a.x === b.x ? [] : [(b.y - a.y) / (b.x - a.x)])),
  )
  if (slopes.length === 0) return notEnough("All points have the same x, so there is no slope.")
  const slope = median(slopes)
  const intercept = median(points.map(({ x, y }) => y - slope * x))
  return enough({ slope, intercept, limits: slopeLimits(slopes, points) })
}

/** The slopes as many places in from either end as Kendall's S of unrelated points stays within, 95 times in 100. */
function slopeLimits(slopes: number[], points: Point[]): Answer<Range> {
  const ties = points.map(({ x }) => points.filter((other) => other.x === x).length)
  // each of k equal x stands for its group, so that the group counts once
  const tied = ties.reduce((sum, k) => sum + kendall(k) / k, 0)
  const sd = Math.sqrt((kendall(points.length) - tied) / 18)
  const place = Math.round((slopes.length - normal95 * sd) / 2)
  if (place < 1) return notEnough("Too few points for the limits of a slope.")
  const inOrder = slopes.toSorted((a, b) => a - b)
  return enough({ low: inOrder[place - 1]!, high: inOrder[slopes.length - place]! })
}
const kendall = (count: number) => count * (count - 1) * (2 * count + 5)

/** Φ⁻¹(0.975). Abramowitz & Stegun 1964, table 26.5, from memory. */
const normal95 = 1.959963984540054
