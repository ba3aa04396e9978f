import { bends, type Culture, checkDoughC, rate, worksBetween } from "./growth.ts"
import { between, type CurvePoint, hourMs } from "./temperature-curve.ts"

/** The temperature curve does not reach to this instant, or says no temperature there. */
export class CurveGap extends RangeError {
  override name = "CurveGap"
  readonly at: Date
  constructor(at: Date) {
    super(`the dough's temperature is not known at ${told(at)}`)
    this.at = at
  }
}

/** A point of the temperature curve lies before the one that it follows, or at no time at all. */
export class CurveDisorder extends RangeError {
  override name = "CurveDisorder"
  readonly at: Date
  constructor(at: Date) {
    super(`the temperature curve goes back in time at ${told(at)}`)
    this.at = at
  }
}

const told = (at: Date) => (Number.isNaN(+at) ? "an instant that is no date" : at.toISOString())

/**
 * ∫ rate dt over a dough's temperature curve, in hours at `referenceC`: exact, to rounding, for the straight lines
 * between its points. Two points at one instant are a jump. Throws CurveGap where the curve does not reach (see
 * `heldOver`) or has no temperature, CurveDisorder where it goes back in time, RangeError for an end before the start
 * or a temperature outside −5..60 °C.
 */
export function referenceHours(
  curve: CurvePoint[],
  startsAt: Date,
  endsAt: Date,
  culture: Culture = "sourdough",
): number {
  return piecesOf(curve, startsAt, endsAt).reduce((total, piece) => total + hoursInto(piece, piece.endMs, culture), 0)
}

/** A straight piece of a temperature curve, in ms and °C; it takes some time. */
export type Piece = { startMs: number; endMs: number; fromC: number; toC: number }

/** The straight pieces of a curve from one instant to another, cut at both. Throws as referenceHours says. */
export function piecesOf(curve: CurvePoint[], startsAt: Date, endsAt: Date): Piece[] {
  checkCurve(curve, startsAt, endsAt)
  const [firstMs, lastMs] = [+startsAt, +endsAt]
  const pieces: Piece[] = []
  let from = { ms: +curve[0]!.at, c: curve[0]!.doughC }
  for (const { at, doughC } of curve) {
    const to = { ms: +at, c: doughC }
    const startMs = Math.max(from.ms, firstMs)
    const endMs = Math.min(to.ms, lastMs)
    const cAt = (ms: number) => between(from.c, to.c, (ms - from.ms) / (to.ms - from.ms))
    if (endMs > startMs) pieces.push({ startMs, endMs, fromC: cAt(startMs), toC: cAt(endMs) })
    from = to
  }
  return pieces
}

/** Reference hours from the start of a straight piece to an instant in it, in ms. */
export function hoursInto({ startMs, endMs, fromC, toC }: Piece, ms: number, culture: Culture): number {
  const doughC = between(fromC, toC, (ms - startMs) / (endMs - startMs))
  return ((ms - startMs) / hourMs) * meanRate(fromC, doughC, culture)
}

function checkCurve(curve: CurvePoint[], startsAt: Date, endsAt: Date) {
  if (!(endsAt >= startsAt)) throw new RangeError("the end lies before the start")
  const [first, last] = [curve[0], curve.at(-1)]
  if (!first || !last || startsAt < first.at) throw new CurveGap(startsAt)
  let before = first.at
  for (const { at, doughC } of curve) {
    if (!(at >= before)) throw new CurveDisorder(at)
    if (!Number.isFinite(doughC)) throw new CurveGap(at)
    checkDoughC(doughC)
    before = at
  }
  if (endsAt > last.at) throw new CurveGap(endsAt)
}

/**
 * The mean rate while a dough goes steadily from one temperature to another, °C. Five-point Gauss-Legendre (Abramowitz
 * & Stegun 1964, 25.4.30, from memory) in steps that end where the rate bends and shorten toward the culture's upper
 * end, where it is not smooth; so it is as exact as the arithmetic. Throws RangeError outside −5..60 °C.
 */
export function meanRate(fromC: number, toC: number, culture: Culture = "sourdough"): number {
  const [lowC, highC] = [Math.min(fromC, toC), Math.max(fromC, toC)]
  if (highC - lowC < 1e-7) return rate(lowC, culture)
  checkDoughC(lowC)
  checkDoughC(highC)
  const { minC, maxC } = worksBetween[culture]
  const endC = Math.min(highC, maxC)
  let area = 0
  for (let c = Math.max(lowC, minC), toC = c; c < endC; c = toC) {
    const bendC = bends[culture].find((one) => one > c) ?? maxC
    toC = Math.min(endC, bendC, c + Math.min(mostStepC, Math.max((maxC - c) / 3, leastStepC)))
    area += (toC - c) * gaussMean(c, toC - c, culture)
  }
  return area / (highC - lowC)
}
const mostStepC = 2.5
const leastStepC = 1e-3

function gaussMean(c: number, stepC: number, culture: Culture) {
  let mean = 0
  for (const { at, weight } of nodes) mean += weight * rate(c + at * stepC, culture)
  return mean
}

const inner = Math.sqrt(5 - 2 * Math.sqrt(10 / 7)) / 6
const outer = Math.sqrt(5 + 2 * Math.sqrt(10 / 7)) / 6
const innerWeight = (322 + 13 * Math.sqrt(70)) / 1800
const outerWeight = (322 - 13 * Math.sqrt(70)) / 1800
const nodes = [
  { at: 0.5, weight: 64 / 225 },
  { at: 0.5 - inner, weight: innerWeight },
  { at: 0.5 + inner, weight: innerWeight },
  { at: 0.5 - outer, weight: outerWeight },
  { at: 0.5 + outer, weight: outerWeight },
]
