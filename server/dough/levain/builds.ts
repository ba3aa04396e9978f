import type { Share } from "../amounts.ts"
import { rate } from "../fermentation/growth.ts"
import { hourMs } from "../fermentation/temperature-curve.ts"
import { type Feeding, feedingOf, type Masses, massesOfBuilds, type Need, sharesBetween } from "./feeding.ts"
import { hoursAt, hoursToRipe, shareRipeAfter } from "./ripening.ts"

/** One feeding with its masses and times. `ripe` is the likeliest time with its 80 % range, counted from this feeding. */
export type Build = Masses & {
  feeding: Feeding
  feedAt: Date
  ripe: { at: Date; earliest: Date; latest: Date }
}

/** A starter: what there is of it, g, undefined for as much as it takes, and its water on its flour. */
export type Starter = { g?: number; hydration: Share }

/**
 * A levain wished for: how much, from which starter, with which hydration and what else on its fresh flour, how far it
 * rises until it is ripe, and the steady temperature of its place, °C.
 */
export type Levain = {
  need: Need
  starter: Starter
  hydration: Share
  other: Share
  rise: number
  atC: number
}

/** More feedings than three are a way to keep a starter, not to bake with it. Our own limit. */
export const counts = [1, 2, 3] as const
export type Count = (typeof counts)[number]
export const mostBuilds: Count = 3

/** Builds of these feedings, the first fed at that instant, each when the one before is ripe. Throws RangeError where nothing grows. */
export function buildsFrom(feedings: Feeding[], { need, rise, atC }: Levain, feedAt: Date): Build[] {
  let at = feedAt
  return massesOfBuilds(feedings, need).map((masses, index) => {
    const feeding = feedings[index]!
    const takes = hoursAt(atC, hoursToRipe(feeding.share, rise))
    if (!takes) throw new RangeError(`nothing grows at ${atC} °C`)
    const [fedAt, after] = [at, (hours: number) => new Date(+fedAt + hours * hourMs)]
    at = after(takes.hours)
    return { ...masses, feeding, feedAt: fedAt, ripe: { at, earliest: after(takes.low), latest: after(takes.high) } }
  })
}

/** The same, the last of them ripe at that instant. */
export function buildsUntil(feedings: Feeding[], levain: Levain, ripeAt: Date): Build[] {
  const hours = hoursOf(feedings, levain.rise) / rate(levain.atC)
  return buildsFrom(feedings, levain, new Date(+ripeAt - hours * hourMs))
}

/** The reference hours that these feedings take together. */
export const hoursOf = (feedings: Feeding[], rise: number): number =>
  feedings.reduce((total, { share }) => total + hoursToRipe(share, rise).hours, 0)

/** Feedings with these shares, one after the other: from the starter first, then each from what came of the one before. */
export const feedingsOf = (shares: Share[], { starter, hydration, other }: Levain): Feeding[] =>
  shares.map((share, index) =>
    feedingOf(share, { starterHydration: index ? hydration : starter.hydration, hydration, other }),
  )

/** As many equal feedings. */
export const alike = (share: Share, count: Count, levain: Levain): Feeding[] =>
  feedingsOf(Array<Share>(count).fill(share), levain)

/** The shares between which every one of so many feedings lies. */
export function limitsFor(count: Count, { starter, hydration }: Levain) {
  const first = sharesBetween({ starterHydration: starter.hydration, hydration })
  return count === 1
    ? first
    : { ...first, most: Math.min(first.most, sharesBetween({ starterHydration: hydration, hydration }).most) }
}

/** Whether there is starter enough for the first of these feedings; a thousandth of it more is nothing. */
export function isEnough(feedings: Feeding[], { need, starter }: Levain): boolean {
  return massesOfBuilds(feedings, need)[0]!.starterG <= (starter.g ?? Number.POSITIVE_INFINITY) * (1 + 1e-9)
}

/** What these feedings make for a dough of all the starter there is, g; 0 where it is used up in the jars, Infinity of as much as it takes. */
export function mostFrom(feedings: Feeding[], { need, starter }: Levain): number {
  const starterFor = (neededG: number) => massesOfBuilds(feedings, { ...need, neededG })[0]!.starterG
  const [forOne, forTwo] = [starterFor(1), starterFor(2)]
  return Math.max(0, 1 + ((starter.g ?? Number.POSITIVE_INFINITY) - forOne) / (forTwo - forOne))
}

/**
 * The highest share, within the limits, for which so many equal feedings find starter enough; undefined where even the
 * thinnest do not. More starter is quicker, so this is the quickest way from what there is.
 */
export function quickestShare(count: Count, levain: Levain): Share | undefined {
  const { least, most } = limitsFor(count, levain)
  const fits = (share: Share) => isEnough(alike(share, count, levain), levain)
  if (fits(most)) return most
  if (!fits(least)) return undefined
  let [low, high] = [Math.log(least), Math.log(most)]
  while (high - low > 1e-9) {
    const middle = (low + high) / 2
    if (fits(Math.exp(middle))) low = middle
    else high = middle
  }
  return Math.exp(low)
}

/** The equal share with which so many feedings fill that time, h at the levain's temperature; Infinity where nothing grows. */
export function shareFilling(hours: number, count: Count, { rise, atC }: Levain): Share {
  const reference = (hours * rate(atC)) / count
  return reference > 0 ? shareRipeAfter(reference, rise) : Number.POSITIVE_INFINITY
}
