import { type CurvePoint, hoursOf, stretchesOf } from "./temperature-curve.ts"

/** Progress is told in hours at this dough temperature, an ordinary kitchen's. Our own choice. */
export const referenceC = 24

/**
 * Growth rate of the sourdough yeast (K. humilis, formerly C. milleri), 1/h, at a dough temperature in °C; 0 from 36 °C.
 * μ(T) = μopt·[(x/xo)·e^(1 − x/xo)]^b with x = Tmax − T, xo = Tmax − Topt. Throws RangeError outside −5..60 °C.
 *
 * Sources: Topt 27 °C from Gänzle, Ehmann & Hammes 1998, Appl Environ Microbiol 64:2616, abstract; Tmax 36 °C, because
 * Brandt, Hammes & Gänzle 2004 find it inhibited at 35 °C. The form is our own parametrisation; μopt 0.418 and b 3.07 are
 * fitted to rows of Gänzle's table in the rec.food.sourdough FAQ no. 37, which were written down from memory. Only ratios
 * between temperatures carry over from broth to dough.
 */
export function yeastGrowthPerHour(doughC: number): number {
  if (!(doughC >= -5 && doughC <= 60)) throw new RangeError(`a dough is between −5 and 60 °C, not ${doughC} °C`)
  if (doughC >= yeast.maxC) return 0
  const x = (yeast.maxC - doughC) / (yeast.maxC - yeast.bestC)
  return yeast.bestPerHour * (x * Math.exp(1 - x)) ** yeast.steepness
}
const yeast = { bestPerHour: 0.418, bestC: 27, maxC: 36, steepness: 3.07 }

/** How many reference hours pass in one hour at this dough temperature, in °C. Throws like yeastGrowthPerHour. */
export function rate(doughC: number): number {
  return yeastGrowthPerHour(doughC) / yeastGrowthPerHour(referenceC)
}

/**
 * ∫ rate dt over the curve, in hours at `referenceC`; beyond the curve its end values are held. Each linear piece is
 * integrated by three-point Gauss-Legendre in steps of at most 1 °C: the error is below 0.1 %, mostly far below.
 * Throws RangeError for an empty curve, an end before the start, or a temperature outside −5..60 °C.
 */
export function referenceHours(curve: CurvePoint[], startsAt: Date, endsAt: Date): number {
  return stretchesOf(curve, startsAt, endsAt).reduce((total, stretch) => {
    const { fromC, toC } = stretch
    const steps = Math.max(1, Math.ceil(Math.abs(toC - fromC)))
    const stepC = (toC - fromC) / steps
    const rates = Array.from({ length: steps }, (_, step) => meanRate(fromC + step * stepC, stepC))
    return total + (hoursOf(stretch) / steps) * rates.reduce((sum, one) => sum + one, 0)
  }, 0)
}

/** Mean rate over a linear change of `stepC`: three-point Gauss-Legendre, Abramowitz & Stegun, table 25.4. */
function meanRate(fromC: number, stepC: number) {
  const offset = Math.sqrt(3 / 5) / 2
  const at = (share: number) => rate(fromC + share * stepC)
  return (5 * at(0.5 - offset) + 8 * at(0.5) + 5 * at(0.5 + offset)) / 18
}
