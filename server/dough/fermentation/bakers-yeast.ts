import type { Share } from "../amounts.ts"
import type { Keeping } from "./rise.ts"

/** How baker's yeast is sold. */
export type Yeast = "instant" | "active dry" | "fresh"

/**
 * The instant yeast that does as much as this share of yeast on flour. One of fresh yeast is 0.4 of active dry or 0.33
 * of instant (a professional baking book, section "Yeast conversions: fresh to dry", read on app.ckbk.com).
 */
export const asInstant = (share: Share, yeast: Yeast): Share => (share * 0.33) / forOneFresh[yeast]
const forOneFresh: Record<Yeast, number> = { fresh: 1, "active dry": 0.4, instant: 0.33 }

/**
 * A dough with baker's yeast as it usually behaves. `activity` 0.73 lets 1 % instant yeast double a dough in about 1½ h
 * at 25 °C (common practice: 1–2 h at 24–27 °C, no published source). It can gain 3 times its volume: our assumption,
 * as pup loaves are moulded at 145 cc and proofed to 515 (an excerpt of a baking paper on 100 g of flour, +255 %).
 */
export const usualYeastDough: Keeping = { activity: 0.73, mostRise: 3 }

/**
 * Gas made in so many reference hours, in units of what 1 % instant yeast on flour makes in one: proportional to the
 * yeast (Marek & Bushuk 1967, Cereal Chem 44:300, abstract: more yeast, more gas; that it is in proportion is our
 * assumption). The yeast is not taken to grow: 1.67 % at 27 °C has no more cells after 2 h, a quarter more after 4 h (a
 * laboratory report after Pyler). 0.5 % had 88 % more in 6 h, so for a long rise with little yeast this is too slow.
 * Nor does the sugar run out. Throws RangeError for a share outside 0..1 or hours below 0.
 */
export function yeastGas(instantShare: Share, referenceHours: number): number {
  if (!(instantShare > 0 && instantShare <= 1)) throw new RangeError(`${instantShare} is not a share of yeast above 0`)
  if (!(referenceHours >= 0)) throw new RangeError(`hours must not be below 0: ${referenceHours}`)
  return (instantShare / onePercent) * referenceHours
}
/** The share of instant yeast that makes one unit of gas in a reference hour. */
export const onePercent: Share = 0.01
