import type { Share } from "../amounts.ts"
import { specificHeats } from "./specific-heat.ts"

/** Heat that melting takes, kJ/kg: R. L. Earle, Unit Operations in Food Processing, App. 7 (NZIFST). */
export const meltingKJPerKg = 335

/**
 * The share of a dough's water to weigh in as ice so that all of it together acts like water at `wantedC`:
 * c(Tt − Tw)/(L + c·Tt − ci·Ti). `wantedC` may lie below 0 °C: dough is cooled by the melting as well, and only the dough
 * has to end above freezing. More than 1 means that even all of it as ice would not do.
 * Throws RangeError for ice above 0 °C, or when the tap is not warmer than what is wanted.
 *
 * Source: heat balance. With ice at 0 °C, in °F (Tt − Tw)/(Tt + 112), it is the ice table of Koerner Co., a bakery
 * supply house, within 0.006.
 */
export function iceShare({ tapC, wantedC, iceC }: { tapC: number; wantedC: number; iceC: number }): Share {
  if (!(tapC >= wantedC)) throw new RangeError(`water at ${tapC} °C needs no ice to be at ${wantedC} °C`)
  return (specificHeats.water * (tapC - wantedC)) / (heatToMelt(iceC) + specificHeats.water * tapC)
}

/**
 * The grams of ice that cool something when added on top of it, not in place of water: a pail of water, or a dough, which
 * gets wetter by as much. `kJPerKgK` is its specific heat. Throws RangeError for ice above 0 °C, for something that is
 * not warmer than wanted, or for a wish that no amount of ice reaches.
 */
export function iceOnTopG({ massG, kJPerKgK, fromC, toC, iceC }: OnTop): number {
  if (!(fromC >= toC)) throw new RangeError(`what is at ${fromC} °C needs no ice to be at ${toC} °C`)
  const takenUp = heatToMelt(iceC) + specificHeats.water * toC
  if (!(takenUp > 0)) throw new RangeError(`no amount of ice at ${iceC} °C makes it ${toC} °C`)
  return (massG * kJPerKgK * (fromC - toC)) / takenUp
}
type OnTop = { massG: number; kJPerKgK: number; fromC: number; toC: number; iceC: number }

/**
 * What water acts like when `share` of it is ice, °C, the reverse of iceShare: about −80 for nothing but ice at 0 °C.
 * Throws RangeError for ice above 0 °C or a share outside 0–1.
 */
export function waterWithIceC({ tapC, iceC, share }: { tapC: number; iceC: number; share: Share }): number {
  if (!(share >= 0 && share <= 1)) throw new RangeError(`a share of the water is from 0 to 1, not ${share}`)
  return tapC - share * (tapC + heatToMelt(iceC) / specificHeats.water)
}

/** kJ to bring 1 kg of ice to water at 0 °C. */
function heatToMelt(iceC: number) {
  if (!(iceC <= 0)) throw new RangeError(`ice is not warmer than 0 °C, so not at ${iceC} °C`)
  return meltingKJPerKg - iceC * iceSpecificHeat(iceC / 2)
}

/**
 * Specific heat of ice, kJ/(kg K): 1.958 at −20 °C (Geankoplis, App. A.4-1) and 2.1 just below melting (Earle, App. 7),
 * and on the line through both elsewhere, so that over a stretch its value at the middle is the mean.
 */
export const iceSpecificHeat = (iceC: number) => 2.1 + ((2.1 - 1.958) / 20) * iceC
