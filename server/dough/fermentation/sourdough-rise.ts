import type { Share } from "../amounts.ts"
import type { Keeping } from "./rise.ts"

/**
 * A sourdough as it usually behaves: k 1.06 and A 0.8 in our own model, set so that it gives what bakers told of their
 * doughs (10 % prefermented flour at 25 °C: +30 % after 4¼ h, about +70 % after 9 h) and what is common practice (a
 * 1 : 1 : 1 levain doubles in 5–7 h at room temperature). Not measured, no published source.
 */
export const usualSourdough: Keeping = { activity: 1.06, mostRise: 0.8 }
/** The same culture as a liquid levain in its jar, which holds all its gas until it falls. Our assumption. */
export const usualLevainJar: Keeping = { ...usualSourdough, mostRise: Number.POSITIVE_INFINITY }

/**
 * Gas made since mixing, in units of a full culture: ln(1 + p·(e^θ − 1)). The levain was ripe and so full; its share p
 * of the flour is where the culture starts, from there it grows back logistically, and every cell makes gas at the
 * growth rate. `growth` is θ = ∫ μ dt over the dough's temperature. That gas follows μ is our assumption (see `rate` in
 * growth.ts). Throws RangeError for a share outside 0..1 or growth below 0.
 */
export function levainGas(levainShare: Share, growth: number): number {
  checkShare(levainShare)
  if (!(growth >= 0)) throw new RangeError(`growth must not be below 0: ${growth}`)
  return Math.log1p(levainShare * Math.expm1(growth))
}

/**
 * The growth θ after which this much gas is made: ln(1 + (e^L − 1)/p), the inverse of levainGas. Throws like it, and
 * for gas below 0.
 */
export function growthToGas(levainShare: Share, gas: number): number {
  checkShare(levainShare)
  if (!(gas >= 0)) throw new RangeError(`gas must not be below 0: ${gas}`)
  return Math.log1p(Math.expm1(gas) / levainShare)
}

/**
 * How much of a full culture the yeast is after this growth, and so the gas made per growth: p·e^θ / (1 + p·(e^θ − 1)).
 */
export const fullness = (levainShare: Share, growth: number): number =>
  levainShare / (levainShare + (1 - levainShare) * Math.exp(-growth))

/**
 * The levain's share of the flour that makes this much gas in this much growth: (e^L − 1)/(e^θ − 1). Above 1 no levain
 * is enough. Throws RangeError for growth that is not above 0.
 */
export function levainShareFor(gas: number, growth: number): Share {
  if (!(growth > 0)) throw new RangeError(`without growth no share of levain does: ${growth}`)
  return Math.expm1(gas) / Math.expm1(growth)
}

function checkShare(levainShare: Share) {
  if (!(levainShare > 0 && levainShare <= 1)) throw new RangeError(`${levainShare} is not a share of the flour above 0`)
}

/** A feeding by mass: so much ripe starter, flour and water, as "1 : 2 : 2" is said. */
export type Ratio = { starter: number; flour: number; water: number }

/**
 * The share of the flour that a feeding takes from the starter: its p. `starterHydration` is the starter's water on its
 * flour, 1 for equal parts. Throws RangeError unless starter and hydration are above 0 and flour is not below it.
 */
export function shareOfRatio({ starter, flour }: Pick<Ratio, "starter" | "flour">, starterHydration: Share): Share {
  const starterFlour = flourIn(starter, starterHydration)
  if (!(flour >= 0)) throw new RangeError(`flour must not be below 0: ${flour}`)
  return starterFlour / (starterFlour + flour)
}

/**
 * The feeding for one part of starter that gives this share of the flour and this hydration of the whole. Throws
 * RangeError like shareOfRatio, for a share outside 0..1, or when the starter alone brings more water than is wished.
 */
export function ratioOfShare(levainShare: Share, starterHydration: Share, hydration: Share): Ratio {
  checkShare(levainShare)
  const starterFlour = flourIn(1, starterHydration)
  const water = (hydration * starterFlour) / levainShare - starterFlour * starterHydration
  if (!(water >= 0)) throw new RangeError("the starter alone brings more water than is wished")
  return { starter: 1, flour: starterFlour / levainShare - starterFlour, water }
}

function flourIn(starter: number, hydration: Share) {
  if (!(starter > 0 && hydration > 0)) throw new RangeError(`${starter} parts of starter at hydration ${hydration}`)
  return starter / (1 + hydration)
}

/**
 * What of a small levain stays in its jar and on the spoon, a share of what is made. Common practice, no published
 * source.
 */
const usuallyStaysInJar: Share = 0.09

/** The levain to make, g, so that so much reaches the dough. Throws RangeError for a share outside 0 to below 1. */
export function levainToMake(usedG: number, stays: Share = usuallyStaysInJar): number {
  if (!(stays >= 0 && stays < 1)) throw new RangeError(`a share of ${stays} cannot stay in the jar`)
  return usedG / (1 - stays)
}
