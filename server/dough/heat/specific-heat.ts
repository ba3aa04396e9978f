import type { Composition } from "../ingredients/ingredient.ts"

/**
 * Specific heats at kitchen temperatures, kJ/(kg K): C. J. Geankoplis, Transport Processes and Separation Process
 * Principles, 4th ed., App. A.4-1 (flour of 12–13.5 % water 1.80–1.88, butter 2.30, eggs 3.18, milk 3.85, water 4.185).
 * The printed egg is low for its 75 % of water; where the composition is known, specificHeatOf is better.
 */
export const specificHeats = { water: 4.185, flour: 1.84, butter: 2.3, egg: 3.18, milk: 3.85 }

/**
 * Of an ingredient from its composition, kJ/(kg K): each of water, fat, salt and the other dry matter with its own.
 * undefined when its water is not known, because water decides, or when what is known adds up to more than 100 g.
 *
 * Fat 1.98 and salt 0.87 are from memory (Choi & Okos 1986 for fat; tables of physical constants for sodium chloride),
 * not checked against the page. Dry matter 1.50 is what flour's 1.84 leaves for it; with these the printed values for
 * butter and milk come out within 0.05, bread within 0.1. The simpler rule 4.19p + 0.84(1 − p) (R. L. Earle, Unit
 * Operations in Food Processing, App. 7) makes flour 30 % too low.
 */
export function specificHeatOf({ water, fat = 0, salt = 0 }: Composition): number | undefined {
  if (water === undefined) return undefined
  const dry = 100 - water - fat - salt
  if (!(water >= 0 && fat >= 0 && salt >= 0 && dry >= -mostRoundingG)) return undefined
  return (specificHeats.water * water + fatHeat * fat + saltHeat * salt + dryHeat * Math.max(0, dry)) / 100
}
const fatHeat = 1.98
const saltHeat = 0.87
const dryHeat = 1.5
// what rounded shares of a food table may add up to beyond 100 g
const mostRoundingG = 1

/** What is mixed, and how warm: `mass` in grams or in any other unit that is the same for all. */
export type Heated = { mass: number; kJPerKgK: number }

/** Of things mixed together, by mass: kJ/(kg K). Throws RangeError when there is nothing. */
export function specificHeatOfMix(things: Heated[]): number {
  const mass = things.reduce((total, thing) => total + thing.mass, 0)
  if (!(mass > 0)) throw new RangeError("nothing has no specific heat")
  return things.reduce((total, thing) => total + thing.mass * thing.kJPerKgK, 0) / mass
}
