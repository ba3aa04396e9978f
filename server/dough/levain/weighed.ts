import type { Share } from "../amounts.ts"
import type { Build } from "./builds.ts"
import { madeFor, massesOf, type Need } from "./feeding.ts"

/** Something that a levain is fed with beside water: a flour of its mix or what else goes in, as a share of its kind. */
export type Food = { name: string; share: Share; kind: "flour" | "other" }

/** One thing to weigh: `g` as the scale shows it, `exactlyG` before rounding. */
export type Weighed = { what: "starter" | "flour" | "other" | "water"; name: string; g: number; exactlyG: number }

/**
 * A build as a scale weighs it, g. All its things together are exactly `madeG`; of that `goesOnG` goes into the dough or is the
 * starter of the next build, and `staysG` stays. `roundingG` is what rounding adds to the whole.
 */
export type WeighedBuild = {
  things: Weighed[]
  madeG: number
  goesOnG: number
  staysG: number
  roundingG: number
  hydration: Share
}

/**
 * Builds in whole steps of a scale, first to last. The whole is rounded up, so that there is never too little, and shared out
 * to its things by largest remainders (Hamilton's method), so that they add up. The first build never takes more starter
 * than `mostStarterG`. One that another follows is made larger than it need be where its starter would be too little to
 * weigh; the rest of it stays. Throws RangeError for a step that is not above 0.
 */
export function weighedBuilds(
  builds: Build[],
  { need, food, stepG, mostStarterG }: { need: Need; food: Food[]; stepG: number; mostStarterG?: number },
): WeighedBuild[] {
  if (!(stepG > 0)) throw new RangeError(`a scale shows steps above 0 g, not ${stepG}`)
  const weighed: WeighedBuild[] = []
  let goesOnG = need.neededG
  let keptG = need.keepG
  for (const [index, build] of [...builds.entries()].toReversed()) {
    const neededG = madeFor(goesOnG + keptG, need.sticks)
    const isFirst = index === 0
    const exactlyG = isFirst && builds.length > 1 ? weighable(build, neededG, stepG, mostStarterG) : neededG
    const atMost = isFirst ? mostStarterG : undefined
    const one = weighedOut(build, { exactlyG, goesOnG, food, stepG, mostStarterG: atMost })
    weighed.unshift(one)
    goesOnG = one.things[0]!.g
    keptG = 0
  }
  return weighed
}

/** As much of a build as its starter needs to weigh a few steps, as far as there is starter. */
function weighable(
  { starterG, madeG }: Build,
  neededG: number,
  stepG: number,
  mostStarterG = Number.POSITIVE_INFINITY,
) {
  const starterShare = starterG / madeG
  return Math.max(neededG, Math.min(leastSteps * stepG, mostStarterG) / starterShare)
}
// A sixth more or less starter moves the ripe time by about half an hour. Our own judgement.
const leastSteps = 3

type Asked = { exactlyG: number; goesOnG: number; food: Food[]; stepG: number; mostStarterG?: number }

function weighedOut(build: Build, { exactlyG, goesOnG, food, stepG, mostStarterG }: Asked): WeighedBuild {
  const total = stepsIn(exactlyG, stepG, Math.ceil)
  const exact = thingsOf(build, exactlyG, goesOnG, food)
  const steps = sharedOut(
    exact.map(({ exactlyG: g }) => (g * total) / exactlyG),
    total,
  )
  const most = mostStarterG === undefined ? Number.POSITIVE_INFINITY : stepsIn(mostStarterG, stepG, Math.floor)
  const spare = Math.max(0, steps[0]! - most)
  steps[0]! -= spare
  steps[steps.length - 1]! += spare
  // without any starter nothing would ripen, and the build before would have nothing to make
  if (steps[0] === 0 && most > 0) steps[0] = 1
  const things = exact.map((thing, index) => ({ ...thing, g: steps[index]! * stepG }))
  const madeG = steps.reduce((sum, one) => sum + one, 0) * stepG
  return {
    ...{ things, madeG, goesOnG, staysG: madeG - goesOnG, roundingG: madeG - exactlyG },
    hydration: hydrationOf(things, build.feeding),
  }
}

/** Starter first, water last. */
function thingsOf({ feeding }: Build, madeG: number, goesOnG: number, food: Food[]): Weighed[] {
  const { starterG, flourG, otherG, waterG } = massesOf(madeG, goesOnG, feeding)
  const fed = food.map(({ name, share, kind }) => ({
    ...{ what: kind, name, g: 0, exactlyG: share * (kind === "flour" ? flourG : otherG) },
  }))
  return [
    { what: "starter", name: "ripe starter", g: 0, exactlyG: starterG },
    ...fed,
    { what: "water", name: "water", g: 0, exactlyG: waterG },
  ]
}

function hydrationOf(things: Weighed[], { starterHydration, hydration }: Build["feeding"]): Share {
  const sum = (what: Weighed["what"]) => things.reduce((total, one) => total + (one.what === what ? one.g : 0), 0)
  const starterFlour = sum("starter") / (1 + starterHydration)
  const flourG = sum("flour") + starterFlour
  return flourG > 0 ? (sum("water") + starterFlour * starterHydration) / flourG : hydration
}

/** Twelve digits first, so that binary noise decides no step. */
const stepsIn = (g: number, stepG: number, round: (steps: number) => number) =>
  round(Number((g / stepG).toPrecision(12)))

/** Whole numbers near these that add up to `total`, which is their sum: the largest remainders go up. */
function sharedOut(exact: number[], total: number): number[] {
  const whole = exact.map((one) => Math.floor(Number(one.toPrecision(12))))
  const left = total - whole.reduce((sum, one) => sum + one, 0)
  const byRemainder = [...exact.keys()].sort((a, b) => exact[b]! - whole[b]! - (exact[a]! - whole[a]!))
  for (const index of byRemainder.slice(0, left)) whole[index]! += 1
  return whole
}
