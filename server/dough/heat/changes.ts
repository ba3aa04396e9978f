import type { Range } from "../amounts.ts"
import { type Addition, heatShares, type Mix, mixedDoughC, neededWaterC } from "./heat-balance.ts"
import { mixerPerMinuteC } from "./kneading.ts"

/**
 * One thing to do otherwise, all else staying as it is; `waterC` is what the water has to be then, and `enough` says
 * whether that is as wished. "all" brings all additions to one temperature, from a mean by the heat they carry.
 * "kneading" is how much kneading warms the dough, with the minutes of a mixer that it takes or saves.
 */
export type Change = { fromC: number; toC: number; waterC: number; enough: boolean } & (
  | { what: "addition"; name: string }
  | { what: "all" }
  | { what: "dough" }
  | { what: "kneading"; minutes: Range }
)

// What a home can do without harm: as cold as a refrigerator, as warm as a warm corner. Our own limits.
const coldestC = 4
const warmestC = 30
// A dough that anybody would still ferment as bread. Our own limits.
const coldestDoughC = 16
const warmestDoughC = 30
// More than a few degrees from kneading alone means far too long a kneading. Our own limit.
const mostRiseC = 6
// A change that moves the water by less is not worth the trouble. Our own limit.
const leastC = 1

/**
 * What would bring the water that a dough needs to `aimC`, °C: each addition warmer or colder, all of them, another dough
 * temperature, more or less kneading. What is enough comes first, the smaller change before the larger; then what helps,
 * the more before the less; what would hardly help is left out. Throws RangeError like neededWaterC.
 */
export function changesToward(wish: Mix & { doughC: number }, aimC: number): Change[] {
  const nowC = neededWaterC(wish, wish.doughC)
  const each = wish.additions.map((one) => warmed(wish, one, aimC))
  const all = wish.additions.length > 1 ? [allWarmed(wish, aimC)] : []
  return [...each, ...all, aimedAt(wish, aimC), kneaded(wish, aimC)]
    .filter((change) => Math.abs(change.waterC - nowC) >= leastC)
    .sort((a, b) => Number(b.enough) - Number(a.enough) || missing(a, aimC) - missing(b, aimC) || step(a) - step(b))
}

const missing = ({ enough, waterC }: Change, aimC: number) => (enough ? 0 : Math.abs(waterC - aimC))
const step = ({ fromC, toC }: Change) => Math.abs(toC - fromC)

function warmed(wish: Mix & { doughC: number }, addition: Addition, aimC: number): Change {
  const { fromC, at } = { fromC: addition.tempC, at: wish.additions.indexOf(addition) }
  const { water, additions } = heatShares(wish)
  const wishedC = fromC + ((neededWaterC(wish, wish.doughC) - aimC) * water) / additions[at]!
  const toC = within(wishedC, Math.min(coldestC, fromC), Math.max(warmestC, fromC))
  const changed = wish.additions.with(at, { ...addition, tempC: toC })
  const waterC = neededWaterC({ ...wish, additions: changed }, wish.doughC)
  return { what: "addition", name: addition.name, fromC, toC, waterC, enough: toC === wishedC }
}

function allWarmed(wish: Mix & { doughC: number }, aimC: number): Change {
  const { water, additions } = heatShares(wish)
  const carried = wish.additions.reduce((sum, { tempC }, i) => sum + additions[i]! * tempC, 0)
  const fromC = carried / (1 - water)
  const wishedC = (wish.doughC - wish.riseC - water * aimC) / (1 - water)
  const toC = within(wishedC, Math.min(coldestC, fromC), Math.max(warmestC, fromC))
  const changed = wish.additions.map((one) => ({ ...one, tempC: toC }))
  const waterC = neededWaterC({ ...wish, additions: changed }, wish.doughC)
  return { what: "all", fromC, toC, waterC, enough: toC === wishedC }
}

function aimedAt(wish: Mix & { doughC: number }, aimC: number): Change {
  const wishedC = mixedDoughC(wish, aimC)
  const toC = within(wishedC, Math.min(coldestDoughC, wish.doughC), Math.max(warmestDoughC, wish.doughC))
  const waterC = neededWaterC(wish, toC)
  return { what: "dough", fromC: wish.doughC, toC, waterC, enough: toC === wishedC }
}

function kneaded(wish: Mix & { doughC: number }, aimC: number): Change {
  const wishedC = wish.riseC + wish.doughC - mixedDoughC(wish, aimC)
  const toC = within(wishedC, Math.min(0, wish.riseC), Math.max(mostRiseC, wish.riseC))
  const waterC = neededWaterC({ ...wish, riseC: toC }, wish.doughC)
  const moved = Math.abs(toC - wish.riseC)
  const minutes = { low: moved / mixerPerMinuteC.high, high: moved / mixerPerMinuteC.low }
  return { what: "kneading", fromC: wish.riseC, toC, waterC, enough: toC === wishedC, minutes }
}

const within = (value: number, low: number, high: number) => Math.min(Math.max(value, low), high)
