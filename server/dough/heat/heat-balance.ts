import type { Share } from "../amounts.ts"
import { type Heated, specificHeats } from "./specific-heat.ts"

/** What goes into a dough beside its water, with the temperature it has. */
export type Addition = Heated & { name: string; tempC: number }

/**
 * What is mixed: masses in grams, or in any other unit that is the same for all. `riseC` is how much kneading warms the
 * dough, below 0 where the bowl takes more than kneading gives.
 */
export type Mix = { waterMass: number; additions: Addition[]; riseC: number }

/**
 * The temperature, °C, that the water must have for the dough to leave the mixer at `doughC`: from
 * Σ m·c·(dough − rise − T) = 0 over the water and all else. It may come out below 0 °C, which only ice can do.
 * Throws RangeError when there is no water, or a mass or temperature is no number.
 */
export function neededWaterC({ waterMass, additions, riseC }: Mix, doughC: number): number {
  const mixedC = doughC - riseC
  const fromOthers = additions.reduce((sum, one) => sum + heatOf(one) * (mixedC - one.tempC), 0)
  return checked(mixedC + fromOthers / waterHeat(waterMass))
}

/** The temperature, °C, at which the dough leaves the mixer with water at `waterC`. Throws like neededWaterC. */
export function mixedDoughC({ waterMass, additions, riseC }: Mix, waterC: number): number {
  const brought = additions.reduce((sum, one) => sum + heatOf(one) * one.tempC, waterHeat(waterMass) * waterC)
  return checked(brought / heatOfMix({ waterMass, additions }) + riseC)
}

/** How much kneading warmed an earlier dough, °C, from what it came out at. Throws like neededWaterC. */
export function kneadingRiseC(earlier: Omit<Mix, "riseC"> & { waterC: number; doughC: number }): number {
  return earlier.doughC - mixedDoughC({ ...earlier, riseC: 0 }, earlier.waterC)
}

/** Which share of the whole dough's heat each thing carries: how far one degree in it moves the dough. Water comes first. */
export function heatShares({ waterMass, additions }: Omit<Mix, "riseC">): { water: Share; additions: Share[] } {
  const all = heatOfMix({ waterMass, additions })
  return { water: waterHeat(waterMass) / all, additions: additions.map((one) => heatOf(one) / all) }
}

/**
 * How far the dough may lie from what is reckoned, °C either way: the spread of the kneading rise, and half a degree in
 * every temperature that was measured, each by its share of the heat. Half a degree is our own guess at a kitchen
 * thermometer. Throws like neededWaterC.
 */
export function doughSpreadC(mix: Omit<Mix, "riseC">, riseSpreadC: number): number {
  const { water, additions } = heatShares(mix)
  return Math.hypot(riseSpreadC, ...[water, ...additions].map((share) => share * thermometerC))
}
const thermometerC = 0.5

const heatOf = ({ mass, kJPerKgK }: Heated) => mass * kJPerKgK

function waterHeat(waterMass: number) {
  if (!(waterMass > 0)) throw new RangeError(`there must be water, not ${waterMass}`)
  return waterMass * specificHeats.water
}

const heatOfMix = ({ waterMass, additions }: Omit<Mix, "riseC">) =>
  additions.reduce((sum, one) => sum + heatOf(one), waterHeat(waterMass))

function checked(temperatureC: number) {
  if (!Number.isFinite(temperatureC)) throw new RangeError("masses and temperatures must be numbers")
  return temperatureC
}
