import { mean } from "simple-statistics"
import { type Answer, enough, notEnough } from "../statistics/answer.ts"
import { type Led, standApart } from "./apart.ts"
import { fewestExplained, tooFewOf } from "./limits.ts"

/** What the leads of a class may spread by. `leaven`: how much of it, and how lively it was beyond what its flour explains. */
export type SpreadKey = "time" | "temperature" | "leaven" | "flour"

/** The share of the spread that one thing explains, below 0 where it evened the leads out; `low` and `high` with any one bake left out. */
export type SpreadShare = { key: SpreadKey; share: number; low: number; high: number }

/**
 * What the spread of a class's leads comes from. `sdMin` is that spread, one standard deviation. `flours` are the groups told
 * apart; [] where all bakes used the same or there are too few of each, and then no share is given to flour. `livelinessCounted`
 * is false where too few jars were read. `leftOut` stand too far apart to be counted.
 */
export type Explained = {
  parts: SpreadShare[]
  sdMin: number
  counted: string[]
  flours: { name: string; bakes: number }[]
  livelinessCounted: boolean
  leftOut: string[]
}

/**
 * How much of the variance of the leads each cause explains: the covariance of its minutes with the whole lead over the
 * variance of the lead, so that the shares add up to 1 exactly. What bakes with one flour have in common in how lively
 * their leaven was is flour's. Bakes that stand apart (see standApart) are left out where eight others remain, as one of
 * them would be most of a variance. Not enough to say of fewer than eight bakes with a temperature, or when all leads are the same.
 *
 * Source: Shorrocks 1982, Econometrica 50:193 (abstract; the rule as printed in the help of S. P. Jenkins's ineqfac), which
 * is also the Shapley value of the variance of a sum (Colini-Baldeschi, Scarsini & Vaccari 2018, Methodol Comput Appl Probab
 * 20:919, abstract).
 */
export function explainedSpread(bakes: (Led & { flour: string })[]): Answer<Explained> {
  const warm = bakes.filter(({ causes }) => isKnown(causes, "temperature"))
  const lively = warm.filter(({ causes }) => isKnown(causes, "activity"))
  const livelinessCounted = lively.length >= fewestExplained
  const all = livelinessCounted ? lively : warm
  if (all.length < fewestExplained)
    return tooFewOf(all.length, fewestExplained, "bakes with a dough temperature, or their room’s")

  const rows = all.map((bake) => rowOf(bake, livelinessCounted))
  const kept = withoutApart(rows, bakes)
  const flours = floursIn(kept, livelinessCounted)
  const whole = sharesIn(kept, flours)
  if (!whole) return notEnough("All of them came to the oven equally far on.")
  const without = kept.flatMap((_, at) => sharesIn(kept.toSpliced(at, 1), flours) ?? [])
  const keys: SpreadKey[] = ["temperature", "time", "leaven", ...(flours.length ? (["flour"] as const) : [])]
  return enough({
    parts: keys
      .map((key): SpreadShare => {
        const others = [whole[key], ...without.map((one) => one[key])]
        return { key, share: whole[key], low: Math.min(...others), high: Math.max(...others) }
      })
      .sort((a, b) => b.share - a.share),
    sdMin: Math.sqrt(covariance(kept.map(leadOf), kept.map(leadOf))),
    counted: kept.map(({ key }) => key),
    flours: flours.map((name) => ({ name, bakes: kept.filter(({ flour }) => flour === name).length })),
    livelinessCounted,
    leftOut: rows.filter((row) => !kept.includes(row)).map(({ key }) => key),
  })
}

const isKnown = ({ leftAtPlan }: Led["causes"], of: string) => leftAtPlan.every(({ key }) => key !== of)

type Row = { key: string; flour: string; time: number; temperature: number; leaven: number; activity: number }

function rowOf({ key, flour, causes }: Led & { flour: string }, livelinessCounted: boolean): Row {
  const min = (of: string) => causes.shares.find((share) => share.key === of)?.min ?? 0
  const activity = livelinessCounted ? min("activity") : 0
  return { key, flour, activity, time: min("time"), temperature: min("temperature"), leaven: min("leaven") }
}
const leadOf = ({ time, temperature, leaven, activity }: Row) => time + temperature + leaven + activity

/** Without those that stand apart, where there are enough of the others. */
function withoutApart(rows: Row[], bakes: Led[]): Row[] {
  const answer = standApart(bakes)
  const apart = answer.enough ? answer.value.apart.map(({ key }) => key) : []
  const others = rows.filter(({ key }) => !apart.includes(key))
  return others.length >= fewestExplained ? others : rows
}

/** The flours that at least three bakes used each, where there are two or more such. Our own judgement. */
function floursIn(rows: Row[], livelinessCounted: boolean): string[] {
  if (!livelinessCounted) return []
  const names = [...new Set(rows.map(({ flour }) => flour))]
  const groups = names.filter((name) => rows.filter(({ flour }) => flour === name).length >= 3)
  return groups.length > 1 ? groups : []
}

function sharesIn(rows: Row[], flours: string[]): Record<SpreadKey, number> | undefined {
  const leads = rows.map(leadOf)
  const variance = covariance(leads, leads)
  if (!(variance > leastVariance)) return undefined
  const whole = mean(rows.map(({ activity }) => activity))
  const byFlour = rows.map(({ flour }) =>
    flours.includes(flour) ? mean(rows.filter((row) => row.flour === flour).map(({ activity }) => activity)) : whole,
  )
  const share = (values: number[]) => covariance(values, leads) / variance
  return {
    time: share(rows.map(({ time }) => time)),
    temperature: share(rows.map(({ temperature }) => temperature)),
    leaven: share(rows.map(({ leaven, activity }, at) => leaven + activity - byFlour[at]!)),
    flour: share(byFlour),
  }
}
// Leads within a second of each other are the same.
const leastVariance = 1 / 3600

function covariance(a: number[], b: number[]) {
  const [meanA, meanB] = [mean(a), mean(b)]
  return a.reduce((sum, one, at) => sum + (one - meanA) * (b[at]! - meanB), 0) / (a.length - 1)
}
