import { doughSpreadC, heatShares, kneadingRiseC, type Mix } from "../dough/heat/heat-balance.ts"
import { earlierSpreadC, kneadings } from "../dough/heat/kneading.ts"
import { specificHeats } from "../dough/heat/specific-heat.ts"
import type { ToMix } from "../dough/heat/to-mix.ts"
import { waterFor } from "../dough/heat/water-for.ts"
import { frictionC, frictionOfRise, multiplierWaterC } from "../dough/heat/water-temperature.ts"
import type { Kitchen } from "./forms.ts"

/** The liquid for a dough by both methods, with what each rests on; or why what was said cannot be, for its field. */
export function answerTo(mix: ToMix, kitchen: Kitchen) {
  const { liquid, things } = mix
  const { doughC, thingsC } = kitchen
  // milk counts as the water that would carry as much heat
  const asWater = (mass: number) => (mass * liquid.kJPerKgK) / specificHeats.water
  const addedAt = (temperatures: number[]) => things.map((thing, i) => ({ ...thing, tempC: temperatures[i]! }))
  // what is held back comes later, as warm as the dough, and so changes nothing
  const now = pouredAtOnce(liquid)
  const holds = now < liquid.range.high && liquid.heldBack > 0
  const dough = { waterMass: asWater(now), additions: addedAt(thingsC) }

  const earlier = kitchen.earlier
  const riseC = earlier
    ? kneadingRiseC({
        waterMass: asWater(liquid.mass),
        additions: addedAt(earlier.thingsC),
        waterC: earlier.liquidC,
        doughC: earlier.doughC,
      })
    : (kitchen.riseC ?? kneadings[kitchen.kneading].riseC)
  if (riseC < leastRiseC || riseC > mostRiseC) return { impossibleRiseC: riseC }

  const known = earlier !== undefined || kitchen.riseC !== undefined
  const riseSpreadC = known ? earlierSpreadC : kneadings[kitchen.kneading].spreadC
  const spreadC = doughSpreadC(dough, riseSpreadC)
  return {
    answer: {
      water: waterFor({ ...dough, riseC, doughC, tapC: kitchen.liquidC, iceC: kitchen.iceC }),
      likelyDoughC: { low: doughC - spreadC, high: doughC + spreadC },
      riseC,
      shares: heatShares(dough),
      held: holds ? heldIn(asWater(liquid.heldBack), dough, kitchen) : null,
      now,
      multiplier: byMultiplier(mix, kitchen, riseC),
    },
  }
}
// What no kneading does to a dough: then one of the temperatures is wrong. Our own limits.
const leastRiseC = -6
const mostRiseC = 15

/** What is poured at once; all of it where everything would be held back. */
function pouredAtOnce({ range, heldBack, mass }: ToMix["liquid"]) {
  return heldBack > 0 && range.high > heldBack ? range.high - heldBack : mass
}

/** What is held back: as warm as the dough, it leaves the dough as it is; as it comes from the tap, all of it moves it by so much, °C. */
function heldIn(waterMass: number, dough: Omit<Mix, "riseC">, { doughC, liquidC }: Kitchen) {
  const { water } = heatShares({
    waterMass,
    additions: [{ name: "dough", tempC: doughC, mass: massOf(dough), kJPerKgK: heatIn(dough) / massOf(dough) }],
  })
  return { atC: doughC, asItIsC: water * (liquidC - doughC) }
}
const massOf = ({ waterMass, additions }: Omit<Mix, "riseC">) =>
  additions.reduce((sum, { mass }) => sum + mass, waterMass)
const heatIn = ({ waterMass, additions }: Omit<Mix, "riseC">) =>
  additions.reduce((sum, { mass, kJPerKgK }) => sum + mass * kJPerKgK, waterMass * specificHeats.water)

/** Room, flour and each starter or preferment count as one temperature each, as the method has it. */
function byMultiplier({ things }: ToMix, kitchen: Kitchen, riseC: number) {
  const counted = [...things.entries()].filter(([, { ferments }]) => ferments)
  const flour = things.findIndex(({ key }) => key === "flour")
  const othersAt = ({ roomC, thingsC }: { roomC: number; thingsC: number[] }) => [
    roomC,
    thingsC[flour] ?? roomC,
    ...counted.map(([at]) => thingsC[at]!),
  ]
  const othersC = othersAt(kitchen)
  const { earlier } = kitchen
  const friction = earlier
    ? frictionC({ doughC: earlier.doughC, waterC: earlier.liquidC, othersC: othersAt(earlier) })
    : frictionOfRise({ terms: othersC.length + 1, riseC })
  const waterC = multiplierWaterC({ doughC: kitchen.doughC, othersC, frictionC: friction })
  return { waterC, frictionC: friction, othersC, terms: ["room", "flour", ...counted.map(([, { name }]) => name)] }
}
