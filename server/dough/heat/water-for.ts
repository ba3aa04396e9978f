import { type Change, changesToward } from "./changes.ts"
import { type Mix, mixedDoughC, neededWaterC } from "./heat-balance.ts"
import { iceOnTopG, iceShare, waterWithIceC } from "./ice.ts"
import { specificHeatOfMix, specificHeats } from "./specific-heat.ts"

/** A dough wanted at `doughC`, with water from the tap at `tapC` and ice at `iceC`, which is 0 °C or colder. */
export type Wish = Mix & { doughC: number; tapC: number; iceC: number }

/**
 * "ice": masses in the unit of the wish; `iceMass` and `waterMass` are together all its water, `onTopMass` is the ice
 * that does the same when all the water has gone in from the tap already. "too hot" and "frozen": what the water would
 * have to be, and what the dough becomes with the hottest water or nothing but ice.
 */
export type WaterAnswer =
  | { kind: "water"; waterC: number }
  | { kind: "ice"; waterC: number; iceMass: number; waterMass: number; onTopMass: number; changes: Change[] }
  | { kind: "too hot"; wouldNeedC: number; bestDoughC: number; changes: Change[] }
  | { kind: "frozen"; wouldNeedC: number; bestDoughC: number; changes: Change[] }

/**
 * Water above this harms yeast, °C. Baker's yeast stops growing at 45.4 °C (Salvadó et al. 2011, Appl Environ Microbiol
 * 77:2292, abstract) and is dissolved at 105–110 °F, 40.6–43.3 °C (US Armed Forces Recipe Service, TM 10-412).
 */
export const hottestWaterC = 45
// What changes aim at: a little below the limit, because thermometers and taps err. Our own choice.
const comfortableWaterC = 43
// A dough with more of its water as ice hardly comes together before the ice has melted. Our own choice.
const mostIce = 0.5
// As near to the tap's own temperature as a kitchen thermometer tells. Our own choice.
const hardlyColderC = 0.5

/**
 * The water for a dough by heat balance; colder than the tap, by more than half a degree, it is told in ice, and an impossible wish is answered with
 * what to change. Throws RangeError when there is no water, the ice is above 0 °C, or a number is none.
 */
export function waterFor(wish: Wish): WaterAnswer {
  const { tapC, iceC, waterMass } = wish
  const waterC = neededWaterC(wish, wish.doughC)
  if (waterC > hottestWaterC)
    return {
      kind: "too hot",
      wouldNeedC: waterC,
      bestDoughC: mixedDoughC(wish, hottestWaterC),
      changes: changesToward(wish, comfortableWaterC),
    }
  if (waterC >= tapC - hardlyColderC) return { kind: "water", waterC }
  const share = iceShare({ tapC, wantedC: waterC, iceC })
  if (share > 1)
    return {
      kind: "frozen",
      wouldNeedC: waterC,
      bestDoughC: mixedDoughC(wish, waterWithIceC({ tapC, iceC, share: 1 })),
      changes: changesToward(wish, waterWithIceC({ tapC, iceC, share: mostIce })),
    }
  return {
    kind: "ice",
    waterC,
    iceMass: share * waterMass,
    waterMass: (1 - share) * waterMass,
    onTopMass: onTop(wish),
    changes: changesToward(wish, tapC),
  }
}

/** Ice on top of what tap water gives. As with ice in place of water, kneading warms all of it afterwards. */
function onTop(wish: Wish) {
  const parts = [{ mass: wish.waterMass, kJPerKgK: specificHeats.water }, ...wish.additions]
  return iceOnTopG({
    massG: parts.reduce((sum, { mass }) => sum + mass, 0),
    kJPerKgK: specificHeatOfMix(parts),
    fromC: mixedDoughC(wish, wish.tapC) - wish.riseC,
    toC: wish.doughC - wish.riseC,
    iceC: wish.iceC,
  })
}
