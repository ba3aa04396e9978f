import { levenbergMarquardt } from "ml-levenberg-marquardt"
import { linearRegression, linearRegressionLine } from "simple-statistics"
import { type Answer, enough, notEnough } from "../statistics/answer.ts"
import { inverse } from "./inverse.ts"

/**
 * A growth curve in the terms of Zwietering, Jongenburger, Rombouts & van 't Riet 1990, Appl Environ Microbiol 56:1875:
 * where it ends, its greatest slope per hour, and the hour where the tangent of that slope leaves the ground. `perHour`
 * is the speed to compare by; a logistic r is none, it goes on rising at temperatures at which the plateau already
 * falls (Gause 1932, Q Rev Biol, table 5).
 */
export type Curve = { most: number; perHour: number; lagHours: number }

/** Gompertz: A·exp(−exp(μe/A·(λ − t) + 1)); steepest at λ + A/(eμ), where it stands at A/e. Source: as Curve. */
export const gompertz = ({ most, perHour, lagHours }: Curve, hours: number): number =>
  most * Math.exp(-Math.exp(((perHour * Math.E) / most) * (lagHours - hours) + 1))

/**
 * Logistic: A/(1 + exp(4μ/A·(λ − t) + 2)), the same curve as M/(1 + (M/y0 − 1)·e^(−rt)) with M = A and r = 4μ/A.
 * Source: as Curve; the equation is from memory, and tested against published fits of the other form.
 */
export const logistic = ({ most, perHour, lagHours }: Curve, hours: number): number =>
  most / (1 + Math.exp(((4 * perHour) / most) * (lagHours - hours) + 2))

/** A reading: so many hours after the start the rise, or any other size that grows. */
export type CurveReading = { hours: number; rise: number }
type Estimate = { value: number; se: number }
/** A fitted curve, each figure with its standard error, and how far readings scatter about it (standard deviation). */
export type FittedCurve = { most: Estimate; perHour: Estimate; lagHours: Estimate; scatter: number }

/**
 * The Gompertz curve through readings by least squares: what fits a rising dough best (Romano et al. 2007, J Food Eng
 * 83:142, abstract). "Not enough" in words for fewer than five readings, or when they do not bend at both ends, so that
 * the plateau is a guess. Standard errors from the curvature at the optimum. Throws RangeError for a reading that is
 * not finite.
 */
export const fitGompertz = (readings: CurveReading[]): Answer<FittedCurve> => fitted(gompertz, readings)

/** The logistic curve through readings. As fitGompertz. */
export const fitLogistic = (readings: CurveReading[]): Answer<FittedCurve> => fitted(logistic, readings)

type Form = (curve: Curve, hours: number) => number

function fitted(form: Form, readings: CurveReading[]): Answer<FittedCurve> {
  for (const { hours, rise } of readings)
    if (!Number.isFinite(hours) || !Number.isFinite(rise)) throw new RangeError(`a rise of ${rise} after ${hours} h`)
  const times = new Set(readings.map(({ hours }) => hours)).size
  if (times < leastReadings)
    return notEnough(`Too few points: a curve needs ${leastReadings} readings, there are ${times}.`)
  // In units of the readings' own size and time, so that one step suits all three parameters.
  const size = Math.max(...readings.map(({ rise }) => rise))
  const first = Math.min(...readings.map(({ hours }) => hours))
  const span = Math.max(...readings.map(({ hours }) => hours)) - first
  if (size <= 0) return notEnough(noBend)
  const points = readings
    .map(({ hours, rise }) => ({ hours: (hours - first) / span, rise: rise / size }))
    .sort((a, b) => a.hours - b.hours)
  const found = leastSquares(form, points)
  if (!found) return notEnough(noBend)
  const [most, perHour, lagHours] = found.estimates
  return enough({
    most: scaled(most!, size),
    perHour: scaled(perHour!, size / span),
    lagHours: { value: lagHours!.value * span + first, se: lagHours!.se * span },
    scatter: found.scatter * size,
  })
}
// Three parameters, and two readings more to see how well they fit. Our own limit.
const leastReadings = 5
const noBend = "The readings do not bend yet: where they will end is anybody's guess."
const scaled = ({ value, se }: Estimate, by: number): Estimate => ({ value: value * by, se: se * by })

/** In units of the readings; undefined when they do not settle plateau and slope. */
function leastSquares(form: Form, points: CurveReading[]) {
  const curveAt = ([most, perHour, lagHours]: number[]) => {
    const curve = { most: most!, perHour: perHour!, lagHours: lagHours! }
    return (hours: number) => form(curve, hours)
  }
  const slopesAt = (parameters: number[]) => (hours: number) =>
    parameters.map((value, index) => {
      const moved = (by: number) => curveAt(parameters.with(index, value + by))(hours)
      return (moved(step) - moved(-step)) / (2 * step)
    })
  const data = { x: points.map(({ hours }) => hours), y: points.map(({ rise }) => rise) }
  const { parameterValues, parameterError } = firstGuesses(points)
    .map((initialValues) =>
      levenbergMarquardt(data, curveAt, { ...options, initialValues, jacobianFunction: slopesAt }),
    )
    .reduce((best, fit) => (fit.parameterError < best.parameterError ? fit : best))

  const scatter = Math.sqrt(parameterError / (points.length - parameterValues.length))
  const covariance = inverse(normalMatrix(data.x.map(slopesAt(parameterValues))))
  if (!covariance) return undefined
  const estimates = parameterValues.map((value, i) => ({ value, se: scatter * Math.sqrt(covariance[i]![i]!) }))
  const [most, perHour] = estimates
  const settled = most!.value < mostBeyond && perHour!.se < slopeDoubt * perHour!.value
  return settled && scatter < bendsFrom * scatterAboutLine(data) ? { estimates, scatter } : undefined
}
const step = 1e-5
const options = {
  maxIterations: 25,
  errorTolerance: 1e-20,
  minValues: [0.1, 1e-3, -10],
  maxValues: [10, 1e3, 10],
}
// The largest reading must stand at four fifths of the plateau or higher, the slope be surer than half of itself, and a
// curve fit clearly better than a straight line. Our own judgement.
const mostBeyond = 1.25
const slopeDoubt = 0.5
const bendsFrom = 0.7

function scatterAboutLine({ x, y }: { x: number[]; y: number[] }) {
  const line = linearRegressionLine(linearRegression(x.map((hours, i) => [hours, y[i]!])))
  return Math.sqrt(x.reduce((sum, hours, i) => sum + (line(hours) - y[i]!) ** 2, 0) / (x.length - 2))
}

/**
 * The largest reading as the plateau; the tangent where it grew fastest, and gentler ones in case that was an accident.
 */
function firstGuesses(points: CurveReading[]) {
  const chords = points.slice(1).flatMap((to, index) => {
    const from = points[index]!
    const middle = { hours: (from.hours + to.hours) / 2, rise: (from.rise + to.rise) / 2 }
    return to.hours > from.hours ? [{ ...middle, slope: (to.rise - from.rise) / (to.hours - from.hours) }] : []
  })
  const steepest = chords.reduce((best, chord) => (chord.slope > best.slope ? chord : best))
  return [Math.max(steepest.slope, 1), 3, 1.5].map((slope) => [1, slope, steepest.hours - steepest.rise / slope])
}

const normalMatrix = (rows: number[][]) =>
  rows[0]!.map((_, i) => rows[0]!.map((_, j) => rows.reduce((sum, row) => sum + row[i]! * row[j]!, 0)))
