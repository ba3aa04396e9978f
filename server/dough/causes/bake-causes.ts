import { gasMade, hoursToGas, type Leaven, usualKeeping } from "../fermentation/leaven.ts"
import type { Answer } from "../statistics/answer.ts"
import { normalDraws } from "./draws.ts"
import { actualMin, type Hours, hoursOf, type Leg, plannedMin, planPace, type Warmth, warmerC } from "./hours.ts"
import { shapleyOf, shapleyShares } from "./shapley.ts"

/** What may have made a dough come to the oven further on than planned, or less far. */
export type CauseKey = "time" | "temperature" | "leaven" | "activity"

/**
 * Minutes of the lead that one cause carries, above 0 where it brought the dough on, with their 80 % range; `percent` of all
 * causes' minutes whichever way they pull, undefined for a bake so close to plan that per cent would say nothing.
 */
export type CauseShare = { key: CauseKey; min: number; lowMin: number; highMin: number; percent: number | undefined }

/**
 * What each cause was, against the plan: minutes to the oven, °C of the dough over time, shares of leaven on flour, and how
 * lively the leaven was (1 as usual). Left out where it is not known.
 */
export type Differed = {
  min: number
  c?: number
  leaven?: Leavens
  activity?: number
}

/**
 * A bake's lead over its plan and its shares, largest first: they add up to `leadMin` exactly. The lead is how much further
 * on the dough was at the oven than planned, below 0 less far, in minutes at the plan's own pace. A cause that nobody can
 * know is left as planned, and is not among the shares.
 */
export type Causes =
  | { enough: false; why: string }
  | {
      enough: true
      leadMin: number
      leadLowMin: number
      leadHighMin: number
      shares: CauseShare[]
      leftAtPlan: { key: CauseKey; why: string }[]
      differed: Differed
    }

/** What raised the dough as planned, and what did. */
export type Leavens = { planned: Leaven; actual: Leaven }
/** How lively the leaven was in this dough, 1 as usual in one as planned; `sd` is one standard deviation of the logarithm. */
export type Liveliness = { ratio: number; sd: number }

/** A bake beside its plan. What is not known says why. */
export type BakeQuestion = {
  legs: Leg[]
  /** How far off the time of the oven may be either way. */
  endAboutMin: number
  warmth: Answer<Warmth>
  leavens: Answer<Leavens>
  liveliness: Answer<Liveliness>
}

/** A bake whose causes together move less than this is as planned, and per cent of nothing mislead. Our own judgement. */
const closeMin = 5

/**
 * Shares the lead of one bake out among time, temperature, leaven and activity by their Shapley values, each with an 80 %
 * range. The dough's progress is activity × gas, as in fermentation/leaven.ts; the lead is the difference between the
 * reference hours in which the planned leaven would make as much and those of the plan. The ranges come from drawing
 * everything that may be off (temperatures, marks that are "about" right, the activity fitted from few rises) by a fixed
 * sequence. Not enough to say where the plan has no time that ferments. Throws RangeError for no legs, or like startClock.
 */
export function bakeCauses({ legs, endAboutMin, warmth, leavens, liveliness }: BakeQuestion): Causes {
  if (!legs.length) throw new RangeError("a bake without legs has no causes")
  const known = warmth.enough ? warmth.value : undefined
  const { planned, actual } = leavens.enough ? leavens.value : { planned: undefined, actual: undefined }
  const [plannedCulture, culture] = [planned?.culture ?? "sourdough", actual?.culture ?? "sourdough"]
  const plannedHours = hoursOf(legs, endAboutMin, known, plannedCulture)
  const hours =
    culture === plannedCulture
      ? [plannedHours, plannedHours]
      : [plannedHours, hoursOf(legs, endAboutMin, known, culture)]
  const pace = planPace(legs, plannedCulture)
  if (!(pace > 0)) return { enough: false, why: "The plan has no time in which the dough ferments." }

  const lively = leavens.enough && liveliness.enough ? liveliness.value : { ratio: 1, sd: 0 }
  const leadsWith = (as: Factors) =>
    setsIn(as, leavens).map((equivalentHours) => (equivalentHours - plannedHours.of[0]) / pace)
  const leads = leadsWith({ hours, ratio: lively.ratio })
  const shares = shapleyShares(keys, (changed) => leads[bitsOf(changed)]!)
  const off = draws.map((z) => {
    const drawn = hours.map((one, at) => (at > 0 && one === hours[0] ? undefined : offBy(one, z)))
    const drawnHours = [drawn[0]!, drawn[1] ?? drawn[0]!]
    return shapleyOf(leadsWith({ hours: drawnHours, ratio: lively.ratio * Math.exp(lively.sd * z[4]!) }))
  })

  const leftAtPlan = unknownIn({ warmth, leavens, liveliness })
  const told = keys.filter((key) => leftAtPlan.every((left) => left.key !== key))
  const moved = told.reduce((total, key) => total + Math.abs(shares[key]), 0)
  const leadMin = keys.reduce((total, key) => total + shares[key], 0)
  const lead = rangeOf(
    off.map((one) => one.reduce((total, share) => total + share, 0)),
    leadMin,
  )
  return {
    enough: true,
    leadMin,
    leadLowMin: lead.low,
    leadHighMin: lead.high,
    shares: told
      .map((key): CauseShare => {
        const at = keys.indexOf(key)
        const { low, high } = rangeOf(
          off.map((one) => one[at]!),
          shares[key],
        )
        const percent = moved < closeMin ? undefined : (100 * Math.abs(shares[key])) / moved
        return { key, min: shares[key], lowMin: low, highMin: high, percent }
      })
      .sort((a, b) => Math.abs(b.min) - Math.abs(a.min)),
    leftAtPlan,
    differed: {
      min: legs.reduce((total, leg) => total + actualMin(leg) - plannedMin(leg), 0),
      ...(known ? { c: warmerC(legs, known) } : {}),
      ...(leavens.enough ? { leaven: leavens.value } : {}),
      ...(leavens.enough && liveliness.enough ? { activity: lively.ratio } : {}),
    },
  }
}

const keys: CauseKey[] = ["time", "temperature", "leaven", "activity"]
const bitsOf = (changed: ReadonlySet<CauseKey>) =>
  keys.reduce((bits, key, at) => bits + (changed.has(key) ? 1 << at : 0), 0)
// Two each for the marks and for the temperatures, one for the activity, and one that stays unused: they come in pairs.
const draws = normalDraws(6)

/** Reference hours by the rate of the planned and of the actual culture, and how lively it was. */
type Factors = { hours: Hours[]; ratio: number }

/**
 * For every set of causes, in the order of its bits: the hours in which the dough as planned would have come as far. Without
 * a leaven that is known, they are the hours themselves.
 */
function setsIn({ hours, ratio }: Factors, leavens: BakeQuestion["leavens"]): number[] {
  if (!leavens.enough) return Array.from({ length: 2 ** keys.length }, (_, bits) => hours[0]!.of[bits & 3]!)
  const { planned, actual } = leavens.value
  const usual = usualKeeping[actual.culture].activity / usualKeeping[planned.culture].activity
  const same = actual.culture === planned.culture && actual.share === planned.share
  const asPlanned = hours[0]!.of.map((one) => gasMade(planned, one))
  const asMade = same ? asPlanned : hours[1]!.of.map((one) => usual * gasMade(actual, one))
  const reached = (gas: number[], ratio: number) => gas.map((one) => hoursToGas(planned, ratio * one))
  const usually = reached(asPlanned, 1)
  const withOwn = same ? usually : reached(asMade, 1)
  if (ratio === 1) return [...usually, ...withOwn, ...usually, ...withOwn]
  const lively = reached(asPlanned, ratio)
  return [...usually, ...withOwn, ...lively, ...(same ? lively : reached(asMade, ratio))]
}

/** Hours with everything off by so many standard deviations; a drawn dough ferments no less than not at all. */
function offBy({ of, timeErrors, warmthErrors }: Hours, z: number[]): Hours {
  const by = (errors: [number, number][], first: number, of: 0 | 1) =>
    errors.reduce((total, error, k) => total + error[of] * z[first + k]!, 0)
  const [asPlanned, asTimed, asWarm, asBaked] = of
  const atLeast0 = (hours: number) => Math.max(0, hours)
  return {
    of: [
      asPlanned,
      atLeast0(asTimed + by(timeErrors, 0, 0)),
      atLeast0(asWarm + by(warmthErrors, 2, 0)),
      atLeast0(asBaked + by(timeErrors, 0, 1) + by(warmthErrors, 2, 1)),
    ],
    timeErrors,
    warmthErrors,
  }
}

function unknownIn({ warmth, leavens, liveliness }: Pick<BakeQuestion, "warmth" | "leavens" | "liveliness">) {
  const left: { key: CauseKey; why: string }[] = []
  if (!warmth.enough) left.push({ key: "temperature", why: warmth.why })
  if (!leavens.enough) left.push({ key: "leaven", why: leavens.why }, { key: "activity", why: leavens.why })
  else if (!liveliness.enough) left.push({ key: "activity", why: liveliness.why })
  return left
}

/** Four fifths of what was drawn, and the value itself always among it. */
function rangeOf(values: number[], value: number) {
  const inOrder = values.toSorted((a, b) => a - b)
  const at = (share: number) => inOrder[Math.round(share * (inOrder.length - 1))]!
  return { low: Math.min(at(0.1), value), high: Math.max(at(0.9), value) }
}
