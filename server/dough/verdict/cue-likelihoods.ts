import type { Confidence, Cue, Points, Vessel } from "./cue.ts"
import { type CueKey, cues } from "./cues.ts"
import type { ExplanationKey, FaultKey } from "./explanations.ts"
import { logPrior, normalised, perCell, priorChances, wellBand } from "./hypotheses.ts"
import type { Piece } from "./likelihoods.ts"

/**
 * How surely a cause shows itself in a cue, by the confidence of the source; and how often a cue is told though none of its
 * causes is there, a cause seen as such less often. So a sign of high confidence is told some thirteen times as often with
 * its cause as without, one of medium seven times, one of low three times. Our own judgement, no published source.
 */
const shows: Record<Confidence, number> = { certain: 0.95, high: 0.6, medium: 0.3, low: 0.1 }
const byChance = { sign: 0.05, cause: 0.02 }
/** By how much less often a sign of some fault is told of a bread with none. Our own judgement. */
const seldomInGoodBread = 0.4

/**
 * How likely a cue is told of a dough that had come so far, beside a fault, by a noisy "or": 1 − (1 − leak)·∏(1 − strength) over the causes that are
 * there, times ∏(1 − strength) over those that are against it. Progress counts as a cause by degrees, from the middle of
 * the well-proofed band outward. A cue that was not told says nothing: nobody writes down all they did not see.
 *
 * Source of the form: J. Pearl 1988, Probabilistic Reasoning in Intelligent Systems, section 4.3 (from memory).
 */
export function chanceOfCue(cue: Cue, x: number, fault: FaultKey | undefined, vessel?: Vessel): number {
  const points = (vessel === "tin" && cue.inTin) || cue.points
  const good = cue.points["nothing wrong"] || !Object.keys(cue.points).length
  const rarer = good ? 1 : 1 - seldomInGoodBread * presence("nothing wrong", x, fault, false)
  const leak = byChance[cue.cause ? "cause" : "sign"] * rarer
  return (1 - (1 - leak) * leftBy(points, x, fault, cue.far)) * leftBy(cue.against ?? {}, x, fault)
}

function leftBy(points: Points, x: number, fault: FaultKey | undefined, far = false) {
  let left = 1
  for (const [key, confidence] of Object.entries(points) as [ExplanationKey, Confidence][])
    left *= 1 - shows[confidence] * presence(key, x, fault, far)
  return left
}

/** From 0, not there, to 1: half of it where the well-proofed band ends. */
function presence(key: ExplanationKey, x: number, fault: FaultKey | undefined, far: boolean) {
  if (key === "underproofed" && far) return 1 / (1 + Math.exp((x + farShort) / (2 * edge)))
  if (key === "underproofed") return 1 / (1 + Math.exp((x + wellBand) / edge))
  if (key === "overproofed") return 1 / (1 + Math.exp((wellBand - x) / edge))
  if (key === "nothing wrong") return fault ? 0 : Math.exp(-0.5 * (x / wellBand) ** 2)
  return key === fault ? 1 : 0
}
// Over how much of log progress a sign comes on, and where a dough is far from ready: less than half way. Our own judgement.
const edge = 0.08
const farShort = 0.8

/** What a cue says, ready to be weighed; undefined where it cannot be seen in such a vessel. */
export function pieceOfCue(key: CueKey, vessel?: Vessel): Piece | undefined {
  const cue = cues[key]
  if (vessel && cue.vessels && !cue.vessels.includes(vessel)) return undefined
  const { logs } = keptFor(key, vessel)
  const { label: words, source, group, alone = true } = cue
  return { key, words, source, group, decides: alone, measured: false, logs }
}

/** How much each cue moves what is believed before anything else is told, in nats: of one group the most telling counts. */
export const telling = ({ key }: Piece, vessel?: Vessel): number => keptFor(key as CueKey, vessel).telling

/**
 * How much there would be to tell of each cell, over all cues. Of a dough that shows many signs each is told less often by a
 * baker who tells a few; so a cause does not become likelier because this table knows more signs of it. Three quarters of that, as
 * others tell all they see: our own judgement.
 */
function muchToTell() {
  toTell ??= perCell((x, fault) => Object.values(cues).reduce((sum, cue) => sum + chanceOfCue(cue, x, fault), 0))
  return toTell
}
let toTell: Float64Array | undefined
const pickedShare = 0.75

const kept = new Map<string, { logs: Float64Array; telling: number }>()
function keptFor(key: CueKey, vessel?: Vessel) {
  const name = `${key} ${vessel === "tin" ? "in a tin" : ""}`
  const found = kept.get(name)
  if (found) return found
  const logs = perCell((x, fault) => Math.log(chanceOfCue(cues[key], x, fault, vessel)))
  for (const [cell, toTell] of muchToTell().entries()) logs[cell]! -= pickedShare * Math.log(toTell)
  const after = normalised(logs.map((one, cell) => one + logPrior[cell]!))
  const made = { logs, telling: after.reduce((sum, p, cell) => sum + p * Math.log(p / priorChances[cell]!), 0) }
  kept.set(name, made)
  return made
}
