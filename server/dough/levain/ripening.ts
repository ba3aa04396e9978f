import type { Share } from "../amounts.ts"
import {
  type Dough,
  type DoughPrior,
  doughsAround,
  fitDough,
  hoursSlopes,
  hoursToRise,
  usualPrior,
} from "../fermentation/dough-fit.ts"
import { type Culture, rate } from "../fermentation/growth.ts"
import { type Leaven, shareToMake } from "../fermentation/leaven.ts"
import { gasForRise } from "../fermentation/rise.ts"
import { usualLevainJar } from "../fermentation/sourdough-rise.ts"

/** A time with its 80 % range, in hours: of a usual starter, of a lively and of a tired one. */
export type Hours = { hours: number; low: number; high: number }

/** A levain that nobody said more of is ripe when it has doubled: common practice, no published source. */
export const doubled = 1

/**
 * The reference hours after which a levain has gained `rise` in its jar, `share` of its flour coming from ripe starter.
 * Our own model (see levainGas) with what is usually believed of a starter. Throws RangeError for a share outside 0..1
 * or a rise that is not above 0.
 */
export function hoursToRipe(share: Share, rise: number): Hours {
  return ripening({ culture: "sourdough", share }, rise, jarPrior(rise))
}

/** The same at a steady temperature, °C; undefined where nothing grows. Throws RangeError outside −5..60 °C. */
export function hoursAt(atC: number, reference: Hours, culture: Culture = "sourdough"): Hours | undefined {
  const perHour = rate(atC, culture)
  if (!(perHour > 0)) return undefined
  const { hours, low, high } = reference
  return { hours: hours / perHour, low: low / perHour, high: high / perHour }
}

/**
 * The share of its flour from ripe starter with which a usual levain is ripe after so many reference hours; above 1 where
 * nothing but starter would be. Throws RangeError for hours that are not above 0.
 */
export function shareRipeAfter(hours: number, rise: number): Share {
  if (!(hours > 0)) throw new RangeError(`a levain needs time to ripen, not ${hours} h`)
  return shareToMake("sourdough", gasForRise(rise, usualLevainJar)!, hours)
}

/**
 * The reference hours after which a preferment with this share of instant yeast on its flour has gained `rise`; undefined
 * where that is longer than our model of baker's yeast holds, in which the yeast does not grow (see yeastGas): 0.5 % has
 * nearly twice the cells after 6 h. Throws RangeError like hoursToRipe.
 */
export function yeastedHoursToRipe(share: Share, rise: number): Hours | undefined {
  const ripe = ripening({ culture: "baker's yeast", share }, rise, usualPrior("baker's yeast", rise))
  return ripe.hours <= longestYeastedH ? ripe : undefined
}
// 1.67 % has no more cells after 2 h and a quarter more after 4 h (a laboratory report after Pyler).
const longestYeastedH = 4

function ripening(leaven: Leaven, rise: number, prior: DoughPrior): Hours {
  if (!(rise > 0)) throw new RangeError(`what is ripe has risen, not by ${rise}`)
  const fitted = fitDough(leaven, [], prior)
  const { low, high } = doughsAround(fitted, hoursSlopes(leaven, fitted.dough, rise))
  const hoursOf = (dough: Dough) => Math.max(0, hoursToRise(leaven, dough, rise)!)
  return { hours: hoursOf(fitted.dough), low: hoursOf(low.dough), high: hoursOf(high.dough) }
}

/** What is believed of a levain in its jar, which holds its gas until it falls. */
export const jarPrior = (rise: number): DoughPrior => ({
  ...usualPrior("sourdough", rise),
  mostRise: usualLevainJar.mostRise,
})

/** One row: a feeding by its flour from ripe starter, and how long it takes at each temperature. */
export type RipeningRow = { share: Share; at: (Hours | undefined)[] }

/** How long levains take to be ripe: feedings, by their shares, at steady temperatures, °C. Throws like hoursToRipe. */
export function ripeningTable(shares: Share[], temperaturesC: number[], rise: number): RipeningRow[] {
  return shares.map((share) => {
    const reference = hoursToRipe(share, rise)
    return { share, at: temperaturesC.map((atC) => hoursAt(atC, reference)) }
  })
}
