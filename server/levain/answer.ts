import { shareReadyAt } from "../dough/fermentation/ready-at.ts"
import type { Ratio } from "../dough/fermentation/sourdough-rise.ts"
import {
  alike,
  type Build,
  buildsFrom,
  buildsUntil,
  type Levain,
  limitsFor,
  mostBuilds,
  mostFrom,
  shareFilling,
} from "../dough/levain/builds.ts"
import { feedingsBy, hoursBetween, repeated, warmthFor } from "../dough/levain/by-ratio.ts"
import { feedingOf, massesOfBuilds } from "../dough/levain/feeding.ts"
import { inTime } from "../dough/levain/in-time.ts"
import { jarPrior } from "../dough/levain/ripening.ts"
import type { Asked } from "./forms.ts"

export type Away = { from: Date; to: Date }

/**
 * What comes of a wish. "builds": they do as asked; `lively` and `tired` are the feedings of such starters for the same time, `once` when a single
 * feeding would do as well. "late" and "early": the nearest builds there are, with what else would help. "too little": as much as the starter there is
 * makes at most, g. "none": no temperature does, in words.
 */
export type Answer =
  | { kind: "builds"; builds: Build[]; atC: number; lively?: Ratio; tired?: Ratio; once?: Date; atNight?: boolean }
  | { kind: "late"; builds: Build[]; atC: number; because: "time" | "starter"; lateMin: number; help: Help }
  | { kind: "early"; builds: Build[]; atC: number }
  | { kind: "too little"; makesG: number }
  | { kind: "none"; why: string }

/** What would bring a late levain in time: fed earlier, warmer, °C, or with so much starter, g. */
export type Help = { feedBy: Date; atC?: number; starterG?: number }

/** Works out what was asked. */
export function answerTo(asked: Asked, awayBetween: (from: Date, to: Date) => Away[]): Answer {
  const { find, levain, count, ratio, fedAt, ripeAt } = asked
  if (find === "feeding") return fedInTime(levain, fedAt!, ripeAt!, count, awayBetween(fedAt!, ripeAt!))
  const feedings = feedingsBy(ratio!, levain, count)
  if (!feedings) return { kind: "too little", makesG: mostFrom(repeated(ratio!, count ?? mostBuilds, levain), levain) }
  if (find === "ripe") return { kind: "builds", builds: buildsFrom(feedings, levain, fedAt!), atC: levain.atC }
  if (find === "fed") return { kind: "builds", builds: buildsUntil(feedings, levain, ripeAt!), atC: levain.atC }
  const warmth = warmthFor(feedings, levain.rise, { feedAt: fedAt!, ripeAt: ripeAt! })
  if (warmth.kind === "none") return { kind: "none", why: warmth.why }
  const builds = buildsFrom(feedings, { ...levain, atC: warmth.value }, fedAt!)
  return { kind: "builds", builds, atC: warmth.value }
}

function fedInTime(levain: Levain, feedAt: Date, ripeAt: Date, count: Asked["count"], away: Away[]): Answer {
  const { atC } = levain
  const answer = inTime(levain, { feedAt, ripeAt, away }, count)
  if (answer.kind === "too little") return answer
  const { builds } = answer
  if (answer.kind === "early") return { kind: "early", builds, atC }
  if (answer.kind === "late") {
    const lateMin = Math.ceil(hoursBetween(ripeAt, builds.at(-1)!.ripe.at) * 12) * 5
    return {
      kind: "late",
      builds,
      atC,
      because: answer.because,
      lateMin,
      help: helpFor(levain, feedAt, ripeAt, builds, answer.feedBy),
    }
  }
  const { once, atNight } = answer
  return {
    kind: "builds",
    builds,
    atC,
    ...(once ? { once } : {}),
    atNight,
    ...otherStarters(levain, builds, feedAt, ripeAt),
  }
}

/** The one feeding of a livelier and of a more tired starter that would be ripe at the same time, as far as anybody feeds so. */
function otherStarters(
  levain: Levain,
  builds: Build[],
  startsAt: Date,
  readyAt: Date,
): { lively?: Ratio; tired?: Ratio } {
  if (builds.length > 1) return {}
  const { rise, atC, hydration, starter } = levain
  const curve = [startsAt, readyAt].map((at) => ({ at, doughC: atC, known: "assumed" as const }))
  const wish = shareReadyAt({ culture: "sourdough", curve, startsAt, readyAt, targetRise: rise, prior: jarPrior(rise) })
  if (wish.kind === "none") return {}
  const { least, most } = limitsFor(1, levain)
  const ratio = (share: number | undefined) =>
    share && share >= least && share <= most
      ? feedingOf(share, { starterHydration: starter.hydration, hydration }).ratio
      : undefined
  const [lively, tired] = [ratio(wish.lively), ratio(wish.tired)]
  return { ...(lively ? { lively } : {}), ...(tired ? { tired } : {}) }
}

function helpFor(levain: Levain, feedAt: Date, ripeAt: Date, builds: Build[], feedBy: Date): Help {
  const feedings = builds.map(({ feeding }) => feeding)
  const warmth = warmthFor(feedings, levain.rise, { feedAt, ripeAt })
  const share = shareFilling(hoursBetween(feedAt, ripeAt), 1, levain)
  const starterG =
    share <= limitsFor(1, levain).most ? massesOfBuilds(alike(share, 1, levain), levain.need)[0]!.starterG : undefined
  return {
    feedBy,
    ...(warmth.kind === "found" && warmth.value <= warmestC ? { atC: warmth.value } : {}),
    ...(starterG ? { starterG } : {}),
  }
}
// Warmer nobody lets a levain stand. Our own limit.
const warmestC = 30
