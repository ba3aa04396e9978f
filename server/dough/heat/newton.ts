/**
 * Time constant of a shaped loaf in a home refrigerator, hours. About 10 h from 24–27 °C down to 4 °C in a box at
 * 2–3 °C (a public lecture on timing bulk by temperature, 2024, seen as a summary) gives 3.3–4.3 h. A start to edit: a
 * bigger dough, a lid or a basket makes it longer, a dough on a cold tray shorter.
 */
export const refrigeratedLoafTauHours = 4

/** `tauHours` is the time constant: after it, 37 % of the difference to the surroundings is left. */
type Course = {
  startC: number
  surroundingsC: number
  tauHours: number
  /**
   * What a fermenting dough adds by itself, °C per hour; 0 when not given. For large batches 1–2 °C/h
   * (L. Geißler, baeckerlatein.de, entry Teigtemperatur); a loaf's worth loses it as fast as it is made.
   */
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
