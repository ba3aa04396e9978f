import type { Share } from "../amounts.ts"
import { onePercent, usualYeastDough, yeastGas } from "./bakers-yeast.ts"
import { type Culture, culturePerHour, referenceC } from "./growth.ts"
import type { Keeping } from "./rise.ts"
import { fullness, growthToGas, levainGas, levainShareFor, usualSourdough } from "./sourdough-rise.ts"

/**
 * What raises a dough, and its share of all the flour: for a levain its own flour's (the prefermented flour), for
 * baker's yeast that of instant yeast (see `asInstant`).
 */
export type Leaven = { culture: Culture; share: Share }

/** How a dough with this leaven usually behaves; each says where it comes from. */
export const usualKeeping: Record<Culture, Keeping> = { sourdough: usualSourdough, "baker's yeast": usualYeastDough }

/**
 * Gas made in so many reference hours, in the culture's own unit. Throws RangeError for a share outside 0..1 or hours
 * below 0.
 */
export const gasMade = ({ culture, share }: Leaven, hours: number): number =>
  culture === "sourdough" ? levainGas(share, hours * growthInHour) : yeastGas(share, hours)

/**
 * The reference hours after which so much gas is made, the inverse of gasMade. Throws RangeError like it, and for gas
 * below 0.
 */
export const hoursToGas = ({ culture, share }: Leaven, gas: number): number =>
  culture === "sourdough" ? growthToGas(share, gas) / growthInHour : gas / yeastGas(share, 1)

/**
 * What a leaven has grown into after so many reference hours: the start that makes the gas from there on. From a volume
 * that is taken as 0 later than the leaven met the flour, a dough rises by this.
 */
export const leavenAfter = (leaven: Leaven, hours: number): Leaven =>
  leaven.culture === "sourdough" ? { ...leaven, share: fullness(leaven.share, hours * growthInHour) } : leaven

/** Gas made per reference hour after so many of them. */
export const gasPerHour = ({ culture, share }: Leaven, hours: number): number =>
  culture === "sourdough" ? fullness(share, hours * growthInHour) * growthInHour : yeastGas(share, 1)

/**
 * The share of leaven that makes so much gas in so many reference hours, above 0; more than 1 means that none is
 * enough.
 */
export const shareToMake = (culture: Culture, gas: number, hours: number): Share =>
  culture === "sourdough" ? levainShareFor(gas, hours * growthInHour) : (gas / hours) * onePercent

const growthInHour = culturePerHour(referenceC)
