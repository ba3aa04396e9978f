import type { Range } from "../amounts.ts"

/**
 * Time constant of a shaped loaf in a home refrigerator, hours. About 10 h from 24–27 °C down to 4 °C in a box at
 * 2–3 °C (a public lecture on timing bulk by temperature, 2024, seen as a summary) gives 3.3–4.3 h. A start to edit: a
 * bigger dough, a lid or a basket makes it longer, a dough on a cold tray shorter.
 */
export const refrigeratedLoafTauHours = 4

/** What a large batch of fermenting dough adds by itself, °C per hour: L. Geißler, baeckerlatein.de, entry Teigtemperatur. */
export const largeBatchHeatingCPerHour: Range = { low: 1, high: 2 }

/** `tauHours` is the time constant: after it, 37 % of the difference to the surroundings is left. */
type Course = {
  startC: number
  surroundingsC: number
  tauHours: number
  /** What a fermenting dough adds by itself, °C per hour; 0 when not given, as a loaf's worth loses it while it is made. */
  selfHeatingCPerHour?: number
}

/**
 * A dough's temperature, °C, after `hours` in surroundings of another one, by Newton's law of cooling:
 * Ta + (T0 − Ta)·e^(−t/τ). Self-heating at q °C/h lifts the temperature that it tends to by q·τ.
 * Throws RangeError for a time constant that is not above 0, a negative time, or a temperature that is no number.
 */
export function towardSurroundingsC({ hours, ...course }: Course & { hours: number }): number {
  if (!(hours >= 0)) throw new RangeError(`the time must not be negative: ${hours} h`)
  const endC = tendsToC(course)
  return endC + (course.startC - endC) * Math.exp(-hours / course.tauHours)
}

/** What the dough tends to, °C: its surroundings, or above them by what it heats itself. Throws like towardSurroundingsC. */
export function tendsToC({ startC, surroundingsC, tauHours, selfHeatingCPerHour = 0 }: Course): number {
  if (!(tauHours > 0)) throw new RangeError(`the time constant must be above 0 h, not ${tauHours}`)
  const endC = surroundingsC + selfHeatingCPerHour * tauHours
  if (!Number.isFinite(endC) || !Number.isFinite(startC)) throw new RangeError("the temperatures must be numbers")
  return endC
}

/**
 * The hours until a dough is at `targetC`, 0 when it is there already; or "never", with the temperature, °C, that it
 * tends to instead, when that lies on this side of the target. Throws like towardSurroundingsC.
 */
export function hoursToReach({ targetC, ...course }: Course & { targetC: number }): Reached {
  const endC = tendsToC(course)
  const left = (targetC - endC) / (course.startC - endC)
  if (targetC === course.startC) return { kind: "reached", hours: 0 }
  return left > 0 && left < 1 ? { kind: "reached", hours: -course.tauHours * Math.log(left) } : { kind: "never", endC }
}
export type Reached = { kind: "reached"; hours: number } | { kind: "never"; endC: number }

/** One stay of a dough: on the counter, in the refrigerator, in a warm box. */
export type Stay = Omit<Course, "startC"> & { hours: number }

/**
 * The dough's temperature, °C, at the end of each stay after the other, such as into a refrigerator and out again.
 * Throws like towardSurroundingsC.
 */
export function throughStaysC(startC: number, stays: Stay[]): number[] {
  const ends: number[] = []
  for (const stay of stays) ends.push(towardSurroundingsC({ startC: ends.at(-1) ?? startC, ...stay }))
  return ends
}

/**
 * The time constant, hours, of a dough of `forG` like one of `ofG` with the time constant `tauHours`: it grows with the
 * cube root of the mass where the surface sets the pace, and with its square where the inside does. Real dough is between.
 * Our own reckoning for doughs of the same shape. Throws RangeError for what is not above 0.
 */
export function tauForMassHours({ tauHours, ofG, forG }: { tauHours: number; ofG: number; forG: number }): Range {
  if (!(tauHours > 0 && ofG > 0 && forG > 0)) throw new RangeError("masses and time constants must be above 0")
  const [bySurface, byInside] = [tauHours * (forG / ofG) ** (1 / 3), tauHours * (forG / ofG) ** (2 / 3)]
  return { low: Math.min(bySurface, byInside), high: Math.max(bySurface, byInside) }
}
