import type { Finger } from "./facts.ts"

/** `rise` and `targetRise` are shares gained: 0.5 is +50 %. `assumedShare` is of the time behind `referenceHours`; `riseByEye`: nobody measured it. */
export type VerdictFacts = {
  referenceHours?: number
  plannedReferenceHours?: number
  assumedShare?: number
  rise?: number
  riseByEye?: boolean
  targetRise?: number
  finger?: Finger
}

export type Pull = "under" | "well" | "over"
export type Reason = { words: string; pull: Pull }

/** `under`, `well`, `over` are probabilities; `mean` and `sd` are of the log of fermentation at the oven over intended. */
export type Verdict =
  | {
      call: "under" | "well" | "over" | "between"
      under: number
      well: number
      over: number
      mean: number
      sd: number
      reasons: Reason[]
    }
  | { call: "not enough to say"; reasons: Reason[]; wouldHelp: string }

/** Log progress within ± this is well proofed: about 18 % short to 22 % long. Our own judgement, no published source. */
export const wellBand = 0.2

/**
 * What each kind of evidence says about log progress, and how surely (one standard deviation). All centres and widths
 * are our own judgement, no published source. That dough springs back when young and keeps the dent when ripe is common
 * teaching (University of Wyoming Extension; TM 10-412, US Armed Forces Recipe Service 2003); the sizes are not.
 */
const evidence = {
  prior: { at: 0, sd: 0.5 },
  hours: { sd: 0.15, sdWhenAssumed: 0.4 },
  rise: { sd: 0.3, sdByEye: 0.5 },
  fallen: { at: 0.35, sd: 0.5 },
  finger: {
    "straight-back": { at: -0.35, sd: 0.4, words: "The finger test sprang straight back" },
    "slowly-partly": { at: 0, sd: 0.3, words: "The finger test came back slowly and partly" },
    stays: { at: 0.35, sd: 0.4, words: "The finger test stayed in" },
  },
}

// A call needs this probability; below it the verdict lies between two. Our own judgement.
const sureEnough = 0.6
// Less than a tenth of what was intended is simply "hardly any", and zero has no logarithm: both count as a tenth.
const leastRatio = 0.1
// Hours and rise further apart than this, on the log scale, contradict each other. Our own judgement.
const contradiction = 0.5

type Evidence = Reason & { at: number; sd: number }

/**
 * A first verdict from reference hours against plan, rise against target and the finger test. Each is a normal likelihood
 * on log progress, multiplied onto a weak prior; where they disagree more than their widths allow, the result is widened
 * by the Birge ratio (R. T. Birge 1932, Phys Rev 40:207), so that a contradiction never looks sure. The finger test
 * alone decides nothing: without hours and without a rise the answer is "not enough to say" and what would help most.
 * Never throws; facts that are missing, or not above 0 where they are divided by, are left out.
 */
export function firstVerdict(facts: VerdictFacts): Verdict {
  const hours = fromHours(facts)
  const rise = fromRise(facts)
  const finger = fromFinger(facts)
  const found = [hours, rise, finger].filter((one) => one !== undefined)
  const reasons: Reason[] = [...found, ...contradictions(hours, rise, finger)].map(({ words, pull }) => ({
    words,
    pull,
  }))
  const measured = hours || (rise && !fallen(facts))
  if (!measured) return { call: "not enough to say", reasons, wouldHelp: wouldHelp(facts) }

  const { mean, sd } = combine(found)
  const under = normalBelow((-wellBand - mean) / sd)
  const over = normalBelow((mean - wellBand) / sd)
  const well = 1 - under - over
  const chances = { under, well, over }
  const call = (["under", "well", "over"] as const).find((one) => chances[one] >= sureEnough) ?? "between"
  return { call, ...chances, mean, sd, reasons }
}

function fromHours({ referenceHours, plannedReferenceHours, assumedShare = 1 }: VerdictFacts): Evidence | undefined {
  if (referenceHours === undefined || !plannedReferenceHours || plannedReferenceHours < 0) return undefined
  const { sd, sdWhenAssumed } = evidence.hours
  const assumed =
    assumedShare > 0.05 ? `; for ${Math.round(assumedShare * 100)} % of that time the dough temperature is assumed` : ""
  const words = `${oneDecimal(referenceHours)} reference hours against ${oneDecimal(plannedReferenceHours)} planned${assumed}`
  return weigh(words, logRatio(referenceHours, plannedReferenceHours), sd + (sdWhenAssumed - sd) * assumedShare)
}

function fromRise(facts: VerdictFacts): Evidence | undefined {
  const { rise, riseByEye, targetRise } = facts
  if (rise === undefined) return undefined
  if (fallen(facts)) {
    const words = `The dough stands ${percent(-rise)} lower than it started: pressed, or risen and fallen back`
    return weigh(words, evidence.fallen.at, evidence.fallen.sd)
  }
  if (!targetRise || targetRise < 0) return undefined
  const words = `Risen by ${percent(rise)}${riseByEye ? ", by eye," : ""} against a target of ${percent(targetRise)}`
  return weigh(words, logRatio(rise, targetRise), riseByEye ? evidence.rise.sdByEye : evidence.rise.sd)
}

function fromFinger({ finger }: VerdictFacts): Evidence | undefined {
  if (!finger) return undefined
  const { words, at, sd } = evidence.finger[finger]
  return weigh(words, at, sd)
}

function weigh(words: string, at: number, sd: number): Evidence {
  return { words, at, sd, pull: at < -wellBand ? "under" : at > wellBand ? "over" : "well" }
}

const fallen = ({ rise }: VerdictFacts) => rise !== undefined && rise < 0
const logRatio = (actual: number, intended: number) => Math.log(Math.max(actual / intended, leastRatio))
const oneDecimal = (value: number) => value.toFixed(1)
const percent = (share: number) => `${Math.round(share * 100)} %`

/** Evidence that cannot all be right is said in so many words, with what could explain it. */
function contradictions(hours?: Evidence, rise?: Evidence, finger?: Evidence): Reason[] {
  const said: Reason[] = []
  if (hours && rise && hours.pull !== rise.pull && Math.abs(hours.at - rise.at) >= contradiction)
    said.push({ words: rise.at < hours.at ? tooLittleRise(hours) : tooMuchRise(hours), pull: rise.pull })
  const opposite = [hours, rise].find((one) => one && finger && one.at * finger.at < 0 && one.pull !== "well")
  if (opposite && finger)
    said.push({ words: `The finger test points the other way: the dough's skin may be dry or cold`, pull: finger.pull })
  return said
}

const tooLittleRise = ({ pull }: Evidence) =>
  `${pull === "over" ? "Hours beyond plan" : "Hours on plan"} but little rise: a weak or young levain is one explanation`
const tooMuchRise = ({ pull }: Evidence) =>
  `${pull === "under" ? "Few hours" : "Hours on plan"} but much rise: a lively or larger levain is one explanation, a dough warmer than read another`

function wouldHelp(facts: VerdictFacts) {
  if (facts.plannedReferenceHours)
    return "The dough's temperature, with the times its bulk and proof began and ended, would help most."
  if (facts.targetRise) return "The rise in a straight-sided jar, its height at the start and now, would help most."
  return "The plan gives no reference temperature and no target rise to compare with; either would help most."
}

/** The product of the prior and all evidence, all normal: precisions add up. */
function combine(found: Evidence[]) {
  const weights = [evidence.prior, ...found].map(({ at, sd }) => ({ at, weight: 1 / sd ** 2 }))
  const total = weights.reduce((sum, { weight }) => sum + weight, 0)
  const mean = weights.reduce((sum, { at, weight }) => sum + at * weight, 0) / total
  return { mean, sd: Math.sqrt(1 / total) * birgeRatio(found) }
}

/** How many times further the evidence scatters than its widths say; 1 when it agrees. */
function birgeRatio(found: Evidence[]) {
  if (found.length < 2) return 1
  const weight = found.reduce((sum, { sd }) => sum + 1 / sd ** 2, 0)
  const centre = found.reduce((sum, { at, sd }) => sum + at / sd ** 2, 0) / weight
  const chiSquared = found.reduce((sum, { at, sd }) => sum + ((at - centre) / sd) ** 2, 0)
  return Math.max(1, Math.sqrt(chiSquared / (found.length - 1)))
}

/** Standard normal distribution function: Abramowitz & Stegun 26.2.17, error below 7.5e-8. */
function normalBelow(z: number): number {
  if (z < 0) return 1 - normalBelow(-z)
  const t = 1 / (1 + 0.2316419 * z)
  const series = t * (0.31938153 + t * (-0.356563782 + t * (1.781477937 + t * (-1.821255978 + t * 1.330274429))))
  return 1 - (Math.exp((-z * z) / 2) / Math.sqrt(2 * Math.PI)) * series
}
