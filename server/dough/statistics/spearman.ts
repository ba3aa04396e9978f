import { permutationsHeap, sampleCorrelation } from "simple-statistics"
import { type Answer, enough, notEnough, type Point, tooFewPoints } from "./answer.ts"
import { studentTails } from "./student-t.ts"

/**
 * Spearman's ρ, from −1 to 1, with average ranks for ties, and `p`: the chance of a ρ at least as far from 0 if y had
 * nothing to do with x. Up to eight points p is counted over every order of y. Beyond, it is the two-sided t approximation,
 * t = ρ·√((n − 2)/(1 − ρ²)) with n − 2 degrees of freedom, which in a handful of points would call a perfect order
 * impossible by chance; of four points it is 2 orders in 24. Not enough to say when all x or all y are equal.
 * Throws RangeError for a coordinate that is not finite.
 *
 * Source: Spearman 1904, Am J Psychol 15:72; both ways to p in Hollander & Wolfe 1999, Nonparametric Statistical Methods,
 * chapter 8, from memory, not checked against the page.
 */
export function spearman(points: Point[]): Answer<{ rho: number; p: number }> {
  const few = tooFewPoints(points)
  if (few) return few
  const x = averageRanks(points.map((point) => point.x))
  const y = averageRanks(points.map((point) => point.y))
  if (allEqual(x) || allEqual(y)) return notEnough("One side never changes, so nothing can go with it.")
  const rho = sampleCorrelation(x, y)
  return enough({ rho, p: points.length <= mostCounted ? chanceCounted(x, y) : chanceByT(rho, points.length) })
}
const allEqual = (ranks: number[]) => ranks.every((rank) => rank === ranks[0])

/** Ranks from 1, the lowest first, in the order given; equal values share the mean of the places they take up. */
export function averageRanks(values: number[]): number[] {
  return values.map((value) => {
    const below = values.filter((other) => other < value).length
    const upTo = values.filter((other) => other <= value).length
    return (below + 1 + upTo) / 2
  })
}

// 8! = 40 320 orders are counted in a few hundredths of a second; 9! would take ten times as long. Our own limit.
const mostCounted = 8

function chanceCounted(x: number[], y: number[]) {
  const unrelated = (x.length * (x.length + 1) ** 2) / 4
  const distance = (order: number[]) => Math.abs(x.reduce((sum, rank, i) => sum + rank * order[i]!, -unrelated))
  const seen = distance(y)
  const orders = permutationsHeap(y)
  // ranks are whole or half, so that these sums are exact and equal ones compare as equal
  return orders.filter((order) => distance(order) >= seen).length / orders.length
}

function chanceByT(rho: number, count: number) {
  const t = Math.abs(rho) < 1 ? rho * Math.sqrt((count - 2) / (1 - rho ** 2)) : Number.POSITIVE_INFINITY
  return studentTails(t, count - 2)
}
