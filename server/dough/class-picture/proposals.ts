import { rate } from "../fermentation/growth.ts"
import { gasMade, type Leaven, shareToMake } from "../fermentation/leaven.ts"
import { fermentingStages, plannedReferenceHours, type Stage } from "../schedule.ts"
import { isShared, type SharedDifference, sharedDifference } from "./shared.ts"

/**
 * What a class's bakes have in common against their plan, as far as enough of them tell it: the lengths of stages in minutes,
 * the dough's temperature in °C, the lead at the oven in minutes, the rise before shaping as a share, and the logarithm of how
 * lively the leaven was.
 */
export type Against = {
  stages: { key: string; difference: SharedDifference }[]
  temperature?: SharedDifference
  lead?: SharedDifference
  rise?: SharedDifference
  liveliness?: SharedDifference
}

/** Below these nobody would change a formula. All are our own judgement. */
export const leastShared = { stageMin: 10, temperatureC: 0.8, leadMin: 20, rise: 0.08, liveliness: Math.log(1.15) }

/**
 * A figure that should be another one in the next revision, and why: because the class took that long, because its doughs
 * were as warm, so that the lengths fit what was warmer, or because its leavens worked so much faster.
 */
export type Proposal =
  | { kind: "length"; stageKey: string; was: Lengths; now: Lengths; because: "taken" | "warmth" }
  | { kind: "reference"; stageKeys: string[]; wasC: number; nowC: number }
  | { kind: "leaven"; was: number; now: number; ratio: number }
  | { kind: "target rise"; was: number; now: number }
type Lengths = { lowMin: number; highMin: number }

export type Planned = {
  stages: Stage[]
  leaven?: Leaven
  targetRise?: number
  /** The rises before shaping of the bakes that were well proofed. */
  wellRises: number[]
}

/**
 * New figures for the next revision, from what a class has in common; [] where it keeps to its plan. A stage that everyone
 * left longer gets that length, but not where the doughs then came to the oven too far on (or the other way round): there the
 * class strayed, and the plan stands. Doughs that were all as much warmer get a warmer reference temperature, and its stages
 * the lengths in which they ferment as much, however long the class left them. Leavens that were all livelier get less of
 * them, so that the planned time makes the planned gas. The target is that of the bakes that came out well. The rules are our
 * own judgement.
 */
export function proposalsFor(against: Against, planned: Planned): Proposal[] {
  const reference = warmerReference(against, planned)
  const lengths = takenLengths(against, planned).filter(({ stageKey }) => !reference?.stageKeys.includes(stageKey))
  const refitted = reference ? [reference, ...refittedLengths(reference, planned)] : []
  return [...refitted, ...lengths, ...leavenShare(against, planned), ...target(planned)]
}

function takenLengths({ stages, lead }: Against, planned: Planned): (Proposal & { kind: "length" })[] {
  const fermenting = fermentingStages(planned.stages)
  const astray = lead && isShared(lead, leastShared.leadMin) ? Math.sign(lead.middle) : 0
  return stages.flatMap(({ key, difference }) => {
    const stage = planned.stages.find((one) => one.key === key)
    if (!stage || !isShared(difference, leastShared.stageMin)) return []
    if (fermenting.includes(stage) && Math.sign(difference.middle) === astray) return []
    const now = lengthened(stage, (min) => min + difference.middle)
    return differs(stage, now) ? [{ kind: "length", stageKey: key, was: lengthsOf(stage), now, because: "taken" }] : []
  })
}

function warmerReference(
  { temperature }: Against,
  { stages }: Planned,
): (Proposal & { kind: "reference" }) | undefined {
  if (!temperature || !isShared(temperature, leastShared.temperatureC)) return undefined
  const meant = warmStages(stages)
  const [first] = meant
  // of stages that are meant for different temperatures nobody can say which one is wrong
  if (!first || meant.some(({ referenceC }) => referenceC !== first.referenceC)) return undefined
  const wasC = first.referenceC!
  const nowC = Math.round((wasC + temperature.middle) * 2) / 2
  return nowC === wasC ? undefined : { kind: "reference", stageKeys: meant.map(({ key }) => key), wasC, nowC }
}

const warmStages = (stages: Stage[]) =>
  stages.filter(
    ({ drivenByTemperature, kind, referenceC }) => drivenByTemperature && kind !== "retard" && referenceC !== undefined,
  )

/** As long as makes as many reference hours at the new temperature. */
function refittedLengths(
  { stageKeys, wasC, nowC }: Proposal & { kind: "reference" },
  { stages, leaven }: Planned,
): Proposal[] {
  const faster = rate(nowC, leaven?.culture) / rate(wasC, leaven?.culture)
  return stages.flatMap((stage): Proposal[] => {
    if (!stageKeys.includes(stage.key)) return []
    const now = lengthened(stage, (min) => min / faster)
    return differs(stage, now)
      ? [{ kind: "length", stageKey: stage.key, was: lengthsOf(stage), now, because: "warmth" }]
      : []
  })
}

const lengthsOf = ({ lowMin, highMin }: Stage): Lengths => ({ lowMin, highMin })
const differs = (a: Lengths, b: Lengths) => a.lowMin !== b.lowMin || a.highMin !== b.highMin

/** To five minutes, as plans are told, and never below them. */
function lengthened({ lowMin, highMin }: Stage, by: (min: number) => number): Lengths {
  const rounded = (min: number) => Math.max(5, Math.round(by(min) / 5) * 5)
  return { lowMin: rounded(lowMin), highMin: rounded(highMin) }
}

function leavenShare({ liveliness }: Against, { stages, leaven }: Planned): Proposal[] {
  const hours = plannedReferenceHours(stages, leaven?.culture)
  if (!leaven || !hours || !liveliness || !isShared(liveliness, leastShared.liveliness)) return []
  const ratio = Math.exp(liveliness.middle)
  const share = shareToMake(leaven.culture, gasMade(leaven, hours) / ratio, hours)
  const step = leaven.culture === "sourdough" ? 0.005 : 0.0005
  const now = Number((Math.round(share / step) * step).toFixed(4))
  const sensible = now > 0 && now <= mostShare
  return sensible && now !== leaven.share ? [{ kind: "leaven", was: leaven.share, now, ratio }] : []
}
// With more of its flour in the levain it is another bread. Our own judgement.
const mostShare = 0.5

function target({ targetRise, wellRises }: Planned): Proposal[] {
  if (targetRise === undefined) return []
  const difference = sharedDifference(wellRises.map((rise) => rise - targetRise))
  if (!difference.enough || !isShared(difference.value, leastShared.rise)) return []
  const now = Math.round((targetRise + difference.value.middle) * 20) / 20
  return now > 0 && now !== targetRise ? [{ kind: "target rise", was: targetRise, now }] : []
}
