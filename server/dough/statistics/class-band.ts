import { type Answer, enough, notEnough, type Point } from "./answer.ts"
import { quantile } from "./spread.ts"

/** The middle of a class's curves at one x and the quartiles around it, of `count` curves. */
export type BandPoint = { x: number; low: number; middle: number; high: number; count: number }

/** Below this many bakes a quartile is one person's bake. Our own judgement. */
export const leastForBand = 5

/**
 * Median and quartiles of several curves over x, at the multiples of `step` at which at least five of them are known. Each
 * curve counts from its first point to its last, straight between two; in any order, none is carried on beyond its ends.
 * Quartiles as `quantile` has them. Not enough to say below five curves, or where no five are known at one x. Throws
 * RangeError for a step that is not above 0, or a coordinate that is not finite.
 */
export function classBand(curves: Point[][], step: number): Answer<BandPoint[]> {
  if (!(step > 0)) throw new RangeError(`a step is above 0, not ${step}`)
  const known = curves.filter((curve) => curve.length).map((curve) => curve.toSorted((a, b) => a.x - b.x))
  if (known.length < leastForBand)
    return notEnough(
      `A middle needs at least ${leastForBand} bakes; there ${known.length === 1 ? "is" : "are"} ${known.length}.`,
    )
  const first = Math.ceil(Math.min(...known.map((curve) => curve[0]!.x)) / step)
  const last = Math.floor(Math.max(...known.map((curve) => curve.at(-1)!.x)) / step)
  const places = Array.from({ length: Math.max(0, last - first + 1) }, (_, nth) => (first + nth) * step)
  const points = places.flatMap((x) => {
    const values = known.map((curve) => valueAt(curve, x)).filter((y) => y !== undefined)
    return values.length < leastForBand ? [] : [bandAt(x, values)]
  })
  return points.length ? enough(points) : notEnough(`No ${leastForBand} bakes were measured at the same time.`)
}

function bandAt(x: number, values: number[]): BandPoint {
  const at = (share: number) => {
    const answer = quantile(values, share)
    if (!answer.enough) throw new RangeError(answer.why)
    return answer.value
  }
  return { x, low: at(0.25), middle: at(0.5), high: at(0.75), count: values.length }
}

/** Where a curve is known, its value at x. */
function valueAt(curve: Point[], x: number): number | undefined {
  const after = curve.findIndex((point) => point.x >= x - slack)
  const [to, from] = [curve[after], curve[after - 1]]
  if (!to) return undefined
  if (!from || to.x - x <= slack) return to.x - x <= slack ? to.y : undefined
  return from.y + ((to.y - from.y) * (x - from.x)) / (to.x - from.x)
}
// as a multiple of a step comes out of binary sums
const slack = 1e-9
