import { max, mean, median, min, sampleStandardDeviation } from "simple-statistics"
import type { Range } from "../amounts.ts"

/**
 * How evenly a dough was divided. `sdG` is the standard deviation, undefined for fewer than three pieces; `outside` has
 * the place in the list of each piece beyond what was allowed. `says` is a caution in words where there is one.
 */
export type PieceSpread = {
  count: number
  meanG: number
  medianG: number
  lowestG: number
  highestG: number
  sdG?: number
  outside: number[]
  says?: string
}

// Below this many, one odd piece decides the figures. Our own limit.
const fewPieces = 5
// A scale shows what was allowed to within a rounding of the arithmetic.
const hair = 1e-9

/**
 * The spread of the masses that pieces really had, in grams. Throws RangeError for no pieces, or one that weighs nothing or
 * is no number.
 */
export function spreadOf(massesG: number[], allowedG?: Range): PieceSpread {
  if (!massesG.length) throw new RangeError("there are no pieces")
  for (const g of massesG) if (!(g > 0 && Number.isFinite(g))) throw new RangeError(`${g} g is not the mass of a piece`)
  const count = massesG.length
  const isOutside = (g: number) => allowedG !== undefined && (g < allowedG.low - hair || g > allowedG.high + hair)
  return {
    count,
    meanG: mean(massesG),
    medianG: median(massesG),
    lowestG: min(massesG),
    highestG: max(massesG),
    sdG: count < 3 ? undefined : sampleStandardDeviation(massesG),
    outside: massesG.flatMap((g, index) => (isOutside(g) ? [index] : [])),
    says:
      count < fewPieces
        ? `Only ${count} ${count === 1 ? "piece was" : "pieces were"} weighed: too few to say how evenly you divide.`
        : undefined,
  }
}
