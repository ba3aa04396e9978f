import type { Range, Share } from "../amounts.ts"

/**
 * Air pressure, kPa, at an altitude in metres: 101.325·(1 − 2.25577e-5·h)^5.25588, the standard atmosphere
 * (ISO 2533:1975; the constants from memory, not checked against the page). Throws RangeError outside −500..11 000 m.
 */
export function pressureKPa(altitudeM: number): number {
  if (!(altitudeM >= -500 && altitudeM <= 11_000)) throw new RangeError(`no kitchen is at ${altitudeM} m`)
  return seaLevelKPa * (1 - 2.25577e-5 * altitudeM) ** 5.25588
}
const seaLevelKPa = 101.325

/**
 * The temperature, °C, at which water boils at an altitude in metres, so that no crumb gets hotter: Antoine's equation,
 * log10(p/mmHg) = 8.07131 − 1730.63/(233.426 + T), the usual constants for 1–100 °C (from memory, not checked against
 * the page). Throws like pressureKPa.
 */
export function boilingPointC(altitudeM: number): number {
  const mmHg = pressureKPa(altitudeM) * (760 / seaLevelKPa)
  return 1730.63 / (8.07131 - Math.log10(mmHg)) - 233.426
}

/** How many times the volume of sea level the same gas takes up at an altitude in metres (Boyle). Throws like pressureKPa. */
export const gasExpansion = (altitudeM: number) => seaLevelKPa / pressureKPa(altitudeM)

/**
 * The share of the yeast to leave out at an altitude in metres: from what keeps the gas's volume the same, to a quarter
 * at 6000 ft (Colorado extension, answer 329463) and in proportion elsewhere. 0 at sea level and below.
 * Throws like pressureKPa.
 */
export function yeastToLeaveOut(altitudeM: number): Range<Share> {
  const forTheGas = Math.max(0, 1 - 1 / gasExpansion(altitudeM))
  return { low: forTheGas, high: Math.max(forTheGas, (0.25 * altitudeM) / (6000 * 0.3048)) }
}
