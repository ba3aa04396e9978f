import type { Say } from "../accounts/say.ts"
import { type Scale, stepG, weigh } from "../dough/formula/weighing.ts"
import type { Build, Levain } from "../dough/levain/builds.ts"
import { type Food, type WeighedBuild, weighedBuilds } from "../dough/levain/weighed.ts"
import { feedingWords } from "../plans/typed.ts"
import { exactlyFor, scaleName, shownBy } from "../scaling/scales.ts"
import { sameAmount } from "../scaling/weighing.ts"
import { inStarters } from "./begins.ts"
import { moment, spanOf } from "./times.ts"

/** One build in words; `exactly` where the scale shows another amount, `coarse` where it hardly shows this one. */
export type ShownBuild = {
  name: string
  feedAt: string
  ripeAt: string
  likely: string
  hours: number
  ratio: string
  hydration: string
  things: { name: string; shows: string; exactly: string | null; coarse: boolean }[]
  makes: string
  goesOn: string
  stays: string
}

type Shown = { builds: Build[]; levain: Levain; food: Food[]; scale: Scale; say: Say; typedAt: Date[] }

/** Builds as they are weighed and fed; `rounding` is what the scale does to the whole, where it is more than a gram. */
export function shownBuilds({ builds, levain, food, scale, say, typedAt }: Shown) {
  const { need, starter } = levain
  const weighed = weighedBuilds(builds, { need, food, stepG: stepG(scale), mostStarterG: starter.g })
  return {
    builds: builds.map((build, index) =>
      shownBuild(build, weighed[index]!, index, { builds, need, scale, say, typedAt }),
    ),
    rounding: roundingIn(builds, weighed, scale, say),
    leftOver: starter.g === undefined ? null : leftOver(starter.g - weighed[0]!.things[0]!.g, say),
    usesG: weighed[0]!.things[0]!.g,
  }
}

type Around = Pick<Shown, "builds" | "scale" | "say" | "typedAt"> & { need: Levain["need"] }

function shownBuild(
  build: Build,
  weighed: WeighedBuild,
  index: number,
  { builds, need, scale, say, typedAt }: Around,
): ShownBuild {
  const isLast = index === builds.length - 1
  const exactly = exactlyFor(scale, say.massUnit, say.mass)
  const things = weighed.things
    .filter(({ exactlyG }) => exactlyG > nothingG)
    .map(({ what, name, g, exactlyG }) => {
      const [shows, told] = [shownBy(scale, g), exactly(exactlyG)]
      const from = what === "starter" && index > 0 ? "all that went before, but what sticks" : name
      return {
        name: from,
        shows,
        exactly: sameAmount(shows, told) || Math.abs(g / exactlyG - 1) < mattersShare ? null : told,
        coarse: weigh(exactlyG, scale).tooCoarse,
      }
    })
  const { ripe, feeding } = build
  return {
    name: builds.length === 1 ? "Weigh" : `${ordinals[index]} build`,
    feedAt: moment(build.feedAt, say, typedAt),
    ripeAt: moment(ripe.at, say, typedAt),
    likely: spanOf(ripe.earliest, ripe.latest, say),
    hours: (+ripe.at - +build.feedAt) / 3_600_000,
    ratio: feedingWords(inStarters(feeding.ratio)),
    hydration: say.percent(feeding.hydration),
    things,
    makes: shownBy(scale, weighed.madeG),
    goesOn: `${say.mass(weighed.goesOnG)} ${isLast ? "into the dough" : "into the next"}`,
    stays: staysWords(weighed.staysG, { keepG: isLast ? need.keepG : 0, sticksG: build.staysG }, say),
  }
}
const ordinals = ["First", "Second", "Third"]
const nothingG = 0.005
// Less than a hundredth is lost among the droplets that stay in a jar. Our own limit.
const mattersShare = 0.01

function staysWords(staysG: number, { keepG, sticksG }: { keepG: number; sticksG: number }, say: Say): string {
  // more than sticks: it is made larger, so that its starter can be weighed
  if (!keepG && staysG > 2 * sticksG + 3) return `${say.mass(staysG)} left over`
  if (keepG > 0) return `${say.mass(staysG)} stay in the jar, ${say.mass(keepG)} of it for the next time`
  return staysG > 0.05 ? `${say.mass(staysG)} stay on jar and spoon` : "nothing stays"
}

// What a gram of flour or water more does, nobody tells. Our own limit.
const matteringG = 1

function roundingIn(builds: Build[], weighed: WeighedBuild[], scale: Scale, say: Say): string | null {
  const last = weighed.at(-1)!
  const addedG = last.roundingG
  if (Math.abs(addedG) <= matteringG) return null
  const [meant, becomes] = [builds.at(-1)!.feeding.hydration, last.hydration].map(say.percent)
  const wetter = meant === becomes ? "" : `, and makes the hydration ${becomes} instead of ${meant}`
  return `A scale that shows every ${scaleName(scale)} adds ${say.mass(addedG)} to the whole${wetter}.`
}

const leftOver = (g: number, say: Say) =>
  g > 0.05 ? `${say.mass(g)} of your starter are left over as they are.` : null
