import type { Share } from "../amounts.ts"
import {
  type Dough,
  type DoughPrior,
  doughsAround,
  fitDough,
  hoursSlopes,
  hoursToRise,
  usualPrior,
} from "./dough-fit.ts"
import { type Culture, rate, worksBetween } from "./growth.ts"
import { type Leaven, shareToMake } from "./leaven.ts"
import { referenceHours } from "./reference-hours.ts"
import { gasForRise } from "./rise.ts"
import { type Ratio, ratioOfShare, usualLevainJar } from "./sourdough-rise.ts"
import { type CurvePoint, hourMs } from "./temperature-curve.ts"

/**
 * What suits a usual leaven, and what a lively and a tired one would need (80 % range); or in words why nothing does.
 */
export type Wish<Value> = { kind: "found"; value: Value; lively?: Value; tired?: Value } | { kind: "none"; why: string }

type Times = { startsAt: Date; readyAt: Date; targetRise: number }

/**
 * The share of leaven with which a dough has its target rise at a given time, along its temperature curve; for a levain
 * its flour's share of all the flour, for baker's yeast that of instant yeast. `tired` is missing when such a leaven
 * could not do it at any share. Throws RangeError for a target that is not above 0, and like referenceHours.
 */
export function shareReadyAt(wish: Times & { culture: Culture; curve: CurvePoint[]; prior?: DoughPrior }): Wish<Share> {
  const { culture, curve, startsAt, readyAt, targetRise, prior = usualPrior(wish.culture, wish.targetRise) } = wish
  checkTarget(targetRise)
  const hours = referenceHours(curve, startsAt, readyAt, culture)
  const shareFor = (dough: Dough) => {
    const gas = gasForRise(targetRise, dough)
    const share =
      gas === undefined || hours <= dough.lagHours ? undefined : shareToMake(culture, gas, hours - dough.lagHours)
    return share !== undefined && share <= mostShare[culture] ? share : undefined
  }
  const dough = usualDough(prior)
  if (gasForRise(targetRise, dough) === undefined) return none("The target is above what this dough can hold.")
  const value = shareFor(dough)
  if (value === undefined) return none("There is too little time, or it is too cold, for any share of leaven.")
  const { lively, tired } = livelyAndTired({ culture, share: value }, prior, targetRise)
  return { kind: "found", value, lively: shareFor(lively), tired: shareFor(tired) }
}
// All of the flour from the levain; more yeast than 5 % tastes of nothing else. The latter is our own limit.
const mostShare: Record<Culture, Share> = { sourdough: 1, "baker's yeast": 0.05 }

/**
 * The feeding for one part of ripe starter with which a levain has risen so far in its jar at a given time; doubled is
 * a target of 1. Hydrations are water on flour, of the starter and of the levain. Throws like shareReadyAt and
 * ratioOfShare.
 */
export function ratioReadyAt(
  wish: Times & { curve: CurvePoint[]; starterHydration: Share; hydration: Share; prior?: DoughPrior },
): Wish<Ratio> {
  const { starterHydration, hydration, prior = usualPrior("sourdough", wish.targetRise) } = wish
  const jar = { ...prior, mostRise: usualLevainJar.mostRise }
  const share = shareReadyAt({ ...wish, culture: "sourdough", prior: jar })
  if (share.kind === "none") return share
  const ratio = (p: Share | undefined) => (p === undefined ? undefined : ratioOfShare(p, starterHydration, hydration))
  return { kind: "found", value: ratio(share.value)!, lively: ratio(share.lively), tired: ratio(share.tired) }
}

/**
 * The steady dough temperature, °C, at which a dough has its target rise at a given time: the cooler of two where a
 * warmer one past the best would do as well. `lively` and `tired` are missing where no temperature would do. Throws
 * RangeError for a target that is not above 0 or a time that does not lie after the start.
 */
export function temperatureReadyAt(wish: Times & { leaven: Leaven; prior?: DoughPrior }): Wish<number> {
  const { leaven, startsAt, readyAt, targetRise, prior = usualPrior(leaven.culture, targetRise) } = wish
  checkTarget(targetRise)
  const hours = (+readyAt - +startsAt) / hourMs
  if (!(hours > 0)) throw new RangeError("the time to be ready must lie after the start")
  const rateFor = (dough: Dough) => {
    const needed = hoursToRise(leaven, dough, targetRise)
    return needed === undefined ? undefined : needed / hours
  }
  const needed = rateFor(usualDough(prior))
  if (needed === undefined) return none("The target is above what this dough can hold.")
  const { bestC } = worksBetween[leaven.culture]
  if (needed > rate(bestC, leaven.culture)) return none(`Even at its best, ${bestC} °C, it takes longer.`)
  const value = coolestWith(needed, leaven.culture)
  if (value === undefined) return none(`Even at ${coldestC} °C it is ready sooner.`)
  const { lively, tired } = livelyAndTired(leaven, prior, targetRise)
  const temperatureFor = (dough: Dough) => coolestWith(rateFor(dough) ?? Number.POSITIVE_INFINITY, leaven.culture)
  return { kind: "found", value, lively: temperatureFor(lively), tired: temperatureFor(tired) }
}
// Colder than a fridge nobody lets a dough rise. Our own limit.
const coldestC = 3

/** The temperature up to the best one at which a culture has this rate, by halving; undefined when none has. */
function coolestWith(needed: number, culture: Culture): number | undefined {
  let [cold, warm] = [coldestC, worksBetween[culture].bestC]
  if (!(rate(cold, culture) <= needed && needed <= rate(warm, culture))) return undefined
  while (warm - cold > 1e-6) {
    const middle = (cold + warm) / 2
    if (rate(middle, culture) < needed) cold = middle
    else warm = middle
  }
  return (cold + warm) / 2
}

const usualDough = ({ activity, mostRise }: DoughPrior): Dough => ({ activity, mostRise, lagHours: 0 })

/** The doughs at both ends of the 80 % range of the time to the target, before anything is read. */
function livelyAndTired(leaven: Leaven, prior: DoughPrior, targetRise: number) {
  const fitted = fitDough(leaven, [], prior)
  const { low, high } = doughsAround(fitted, hoursSlopes(leaven, fitted.dough, targetRise))
  return { lively: low.dough, tired: high.dough }
}

const none = (why: string) => ({ kind: "none" as const, why })

function checkTarget(targetRise: number) {
  if (!(targetRise > 0)) throw new RangeError(`a target rise must be above 0, not ${targetRise}`)
}
