import type { Share } from "../amounts.ts"
import { type Ratio, ratioOfShare, shareOfRatio } from "../fermentation/sourdough-rise.ts"
import type { Stays } from "../formula/parts.ts"

/**
 * How a levain is fed: `share` of its flour comes from the starter; hydrations are water on flour, of the starter and of
 * what comes of it. `other` is what else goes in on its fresh flour, such as malt.
 */
export type Feeding = {
  ratio: Ratio
  share: Share
  starterHydration: Share
  hydration: Share
  other: Share
}

/** Masses of one build, g. `goesOnG` is what the dough or the next build gets, `staysG` the rest of what is made. */
export type Masses = {
  starterG: number
  flourG: number
  otherG: number
  waterG: number
  madeG: number
  goesOnG: number
  staysG: number
}

/** The starter's flour as a share of the levain's at most, since more would be no feeding: 2 : 1 : 1. Our own limit. */
const mostShare: Share = 0.5
/** One part of starter of equal parts in 12 of flour: more thinly nobody feeds a levain. Our own limit. */
const leastShare: Share = 0.04

/**
 * The shares between which a feeding of this hydration lies: a wet starter brings all the water of a stiffer levain before
 * half of its flour. Throws RangeError for hydrations that are not above 0.
 */
export function sharesBetween({ starterHydration, hydration }: Pick<Feeding, "starterHydration" | "hydration">) {
  if (!(starterHydration > 0 && hydration > 0))
    throw new RangeError(`hydrations must be above 0: ${starterHydration} and ${hydration}`)
  const most = Math.min(mostShare, hydration / starterHydration)
  return { least: Math.min(leastShare, most), most }
}

/** A feeding for one part of starter with this share and hydration. Throws like ratioOfShare. */
export function feedingOf(
  share: Share,
  { starterHydration, hydration, other = 0 }: { starterHydration: Share; hydration: Share; other?: Share },
): Feeding {
  // at the limit itself, binary noise would leave less than no water
  const atMost = Math.min(share, (hydration / starterHydration) * (1 - 1e-12))
  return {
    ratio: ratioOfShare(atMost, starterHydration, hydration),
    ...{ share: atMost, starterHydration, hydration, other },
  }
}

/** A feeding from its ratio, whatever hydration that comes to. Throws RangeError like shareOfRatio. */
export function feedingIn(ratio: Ratio, starterHydration: Share, other: Share = 0): Feeding {
  const { starter, flour, water } = ratio
  const share = shareOfRatio(ratio, starterHydration)
  const inStarter = starter / (1 + starterHydration)
  const hydration = (inStarter * starterHydration + water) / (inStarter + flour)
  return { ratio, share, starterHydration, hydration, other }
}

/** What is made so that this much is left once what stays in the jar has stayed. Throws RangeError for no such stays. */
export function madeFor(leftG: number, stays: Stays): number {
  if (!("share" in stays)) return leftG + stays.g
  if (!(stays.share >= 0 && stays.share < 1)) throw new RangeError(`a share of ${stays.share} cannot stay in the jar`)
  return leftG / (1 - stays.share)
}

/** The masses of one build that makes so much, of which so much goes on. */
export function massesOf(madeG: number, goesOnG: number, { ratio, other }: Feeding): Masses {
  const { starter, flour, water } = ratio
  const one = madeG / (starter + flour * (1 + other) + water)
  return {
    starterG: one * starter,
    flourG: one * flour,
    otherG: one * flour * other,
    waterG: one * water,
    ...{ madeG, goesOnG, staysG: madeG - goesOnG },
  }
}

/**
 * What a dough needs of a levain, g, what of it is kept for the next time, and what sticks to each jar and spoon.
 */
export type Need = { neededG: number; keepG: number; sticks: Stays }

/**
 * The masses of builds fed one after the other, first to last: each makes what the next is fed with and what stays in its
 * jar, the last what the dough needs and what is kept. Throws RangeError for a need that is not above 0.
 */
export function massesOfBuilds(feedings: Feeding[], { neededG, keepG, sticks }: Need): Masses[] {
  if (!(neededG > 0 && keepG >= 0)) throw new RangeError(`${neededG} g needed and ${keepG} g to keep`)
  const builds: Masses[] = []
  let goesOnG = neededG
  let keptG = keepG
  for (const feeding of feedings.toReversed()) {
    const masses = massesOf(madeFor(goesOnG + keptG, sticks), goesOnG, feeding)
    builds.unshift(masses)
    goesOnG = masses.starterG
    keptG = 0
  }
  return builds
}
