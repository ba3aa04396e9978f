import type { Share } from "../amounts.ts"

/**
 * The rise to stop bulk at before a cold retard, at a dough temperature in °C, 0.5 for +50 %: a warm dough goes on
 * longer in the fridge. Undefined outside 18–27 °C, where nobody told one. A start to edit: hobby bakers' practice, not
 * science, from a public lecture's table (+100 % at 65 °F, +75 at 70, +50 at 75, +30 at 80; seen as quoted), and the
 * line that was put through it there, 240 − 7.83·T, good to 4 points.
 */
export function bulkRiseTarget(doughC: number): Share | undefined {
  return doughC >= 18 && doughC <= 27 ? (240 - 7.83 * doughC) / 100 : undefined
}

/** How far a sour or levain has come, by its acid. */
export type Ripeness = "young" | "ripe" | "past ripe" | "over-mature"

/**
 * Ripe at pH 3.9–4.1, over-mature at 3.8 and below (rec.food.sourdough FAQ no. 47). Above 4.1 is young and between 3.8
 * and 3.9 past ripe in our own words.
 */
export function ripenessByPh(ph: number): Ripeness {
  if (ph > ripeSour.ph.high) return "young"
  if (ph >= ripeSour.ph.low) return "ripe"
  return ph > overMatureSour.ph ? "past ripe" : "over-mature"
}

/**
 * By titratable acid, ml of 0.1 N NaOH that bring 15 g in 100 ml of water to pH 6.6: ripe at 13–15, over-mature from 18
 * on (rec.food.sourdough FAQ no. 47, which gives 18–22).
 */
export function ripenessByTta(ml: number): Ripeness {
  if (ml < ripeSour.ttaMl.low) return "young"
  if (ml <= ripeSour.ttaMl.high) return "ripe"
  return ml < overMatureSour.ttaMl ? "past ripe" : "over-mature"
}

const ripeSour = { ph: { low: 3.9, high: 4.1 }, ttaMl: { low: 13, high: 15 } }
const overMatureSour = { ph: 3.8, ttaMl: 18 }

/** A refrigerator for retarding, °C (Culinary Institute of America, Baking and Pastry, 3rd edition 2015). */
export const usualRetardC = 4
