import { levenbergMarquardt } from "ml-levenberg-marquardt"
import { refrigeratedLoafTauHours } from "./newton.ts"

/** Hours since any fixed moment, and the dough's temperature then. */
export type TimedReading = { hours: number; doughC: number }

/**
 * `startC` is the temperature at hour 0 and `scatterC` how far the readings lie from the curve. "too few": fewer moments
 * than the three that it takes to know an error. "not toward": the readings do not move toward the surroundings, or by no
 * more than their own scatter.
 */
export type FittedTau =
  | { kind: "fitted"; tauHours: number; standardErrorHours: number; startC: number; scatterC: number }
  | { kind: "too few"; moments: number; needed: number }
  | { kind: "not toward" }

const neededMoments = 3
// A kitchen thermometer shows tenths and is read by eye: no readings are better than this. Our own limit, °C.
const leastScatterC = 0.1

/**
 * The time constant of a dough that moves toward surroundings of `surroundingsC`, from its logged readings: least squares
 * of Newton's law with the start and the rate free. The standard error is the usual one of a nonlinear fit, from the
 * Jacobian and the scatter (n − 2 degrees of freedom; G. A. F. Seber & C. J. Wild, Nonlinear Regression, section 2.1.2,
 * from memory, not checked against the page). Throws RangeError for a reading that is no number.
 */
export function fitTau(readings: TimedReading[], surroundingsC: number): FittedTau {
  if (![surroundingsC, ...readings.flatMap(Object.values)].every(Number.isFinite))
    throw new RangeError("readings and surroundings must be numbers")
  const moments = new Set(readings.map(({ hours }) => hours)).size
  if (moments < neededMoments) return { kind: "too few", moments, needed: neededMoments }

  const [startC, perHour] = leastSquares(readings, surroundingsC)
  const scatterC = Math.max(leastScatterC, scatter(readings, surroundingsC, startC, perHour))
  const errorPerHour = scatterC * rateLeverage(readings, surroundingsC, startC, perHour)
  if (!(perHour > clearlyMoving * errorPerHour)) return { kind: "not toward" }
  return { kind: "fitted", tauHours: 1 / perHour, standardErrorHours: errorPerHour / perHour ** 2, startC, scatterC }
}
// two standard errors, about 95 % of a normal distribution
const clearlyMoving = 2

const modelC = (hours: number, surroundingsC: number, startC: number, perHour: number) =>
  surroundingsC + (startC - surroundingsC) * Math.exp(-perHour * hours)

/** The start, °C, and the rate, 1/h, in that order; a rate below 0 moves away from the surroundings. */
function leastSquares(readings: TimedReading[], surroundingsC: number): [number, number] {
  const x = readings.map(({ hours }) => hours)
  const y = readings.map(({ doughC }) => doughC)
  const { parameterValues } = levenbergMarquardt(
    { x, y },
    ([startC, perHour]) =>
      (hours) =>
        modelC(hours, surroundingsC, startC!, perHour!),
    {
      initialValues: [y[0]!, 1 / refrigeratedLoafTauHours],
      jacobianFunction:
        ([startC, perHour]) =>
        (hours) =>
          slopes(hours, surroundingsC, startC!, perHour!),
      errorTolerance: 1e-12,
      improvementThreshold: 0,
      maxIterations: 200,
    },
  )
  return [parameterValues[0]!, parameterValues[1]!]
}

/** How the model moves with the start and with the rate. */
function slopes(hours: number, surroundingsC: number, startC: number, perHour: number): [number, number] {
  const left = Math.exp(-perHour * hours)
  return [left, -hours * (startC - surroundingsC) * left]
}

function scatter(readings: TimedReading[], surroundingsC: number, startC: number, perHour: number) {
  const squares = readings.map(({ hours, doughC }) => (doughC - modelC(hours, surroundingsC, startC, perHour)) ** 2)
  return Math.sqrt(squares.reduce((sum, one) => sum + one, 0) / (readings.length - 2))
}

/** The standard error of the rate for a scatter of 1 °C: the root of its place in (JᵀJ)⁻¹. */
function rateLeverage(readings: TimedReading[], surroundingsC: number, startC: number, perHour: number) {
  const rows = readings.map(({ hours }) => slopes(hours, surroundingsC, startC, perHour))
  const product = (i: 0 | 1, j: 0 | 1) => rows.reduce((sum, row) => sum + row[i] * row[j], 0)
  return Math.sqrt(product(0, 0) / (product(0, 0) * product(1, 1) - product(0, 1) ** 2))
}
