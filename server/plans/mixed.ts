import { mixedDoughC } from "../dough/heat/heat-balance.ts"
import { kneadings } from "../dough/heat/kneading.ts"
import { specificHeats } from "../dough/heat/specific-heat.ts"
import type { ToMix } from "../dough/heat/to-mix.ts"
import { waterFor } from "../dough/heat/water-for.ts"
import type { Mixed, Warmth } from "./basis.ts"

type Kitchen = { room: Warmth; tap: Warmth; fridgeC: number }

/**
 * What a dough is when it has been kneaded by hand, all that goes in being as warm as the room: as wanted where some water,
 * with ice if need be, brings it there; else with the hottest or coldest that there is. A liquid that is no water is never
 * colder than the fridge.
 */
export function mixedIn({ room, tap, fridgeC }: Kitchen, mix: ToMix | undefined, wantedC: number): Mixed {
  if (!mix) return { doughC: wantedC, wantedC, by: "unknown", tap }
  const { liquid, things } = mix
  const dough = {
    waterMass: (liquid.mass * liquid.kJPerKgK) / specificHeats.water,
    additions: things.map((thing) => ({ ...thing, tempC: room.c })),
    riseC: kneadings.hand.riseC,
  }
  const water = waterFor({ ...dough, doughC: wantedC, tapC: tap.c, iceC: freezerC })
  if (water.kind === "too hot" || (water.kind === "frozen" && liquid.isWater))
    return { doughC: water.bestDoughC, wantedC, by: "as near as water can", tap }
  const waterC = "waterC" in water ? water.waterC : water.wouldNeedC
  if (!liquid.isWater && waterC < fridgeC)
    return { doughC: mixedDoughC(dough, fridgeC), wantedC, by: "as near as water can", waterC: fridgeC, tap }
  return { doughC: wantedC, wantedC, by: "water", waterC, tap }
}
// What home freezers are set to. Common practice, no published source.
const freezerC = -18
