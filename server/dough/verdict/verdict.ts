import { mostUseful } from "./asking.ts"
import { type ExplanationKey, explanations } from "./explanations.ts"
import type { BakeFacts } from "./facts.ts"
import { priorChances } from "./hypotheses.ts"
import type { Piece } from "./likelihoods.ts"
import { type Chances, explanationsIn, type Progress, progressIn } from "./readout.ts"
import { chancesOf, piecesOf } from "./weighing.ts"

export type Pull = "under" | "well" | "over"

/**
 * One piece of evidence as it was weighed. `alone` is where it would put the dough if it were all that was told (log
 * progress, above 0 toward over), `logShift` how far that moves the middle of the hill; `pull` which of the three it makes
 * likelier; `source` where its likelihood comes from; `decides` is false for what may never decide by itself.
 */
export type Evidence = {
  key: string
  words: string
  pull: Pull | "nothing"
  logShift: number
  alone: { mean: number; sd: number }
  source: string
  decides: boolean
}

/** One possible reason, with how likely it is, what speaks for it, what against, and the check that would tell. */
export type Suspect = {
  key: ExplanationKey
  name: string
  chance: number
  for: string[]
  against: string[]
  check: string
}

/**
 * What a bake's facts say. `under`, `well`, `over` are probabilities of log progress at the oven against intended; `hill`
 * is its density on an even grid. `suspects` come most likely first, "underproofed", "overproofed" and "nothing wrong" among
 * them; their chances overlap. With enough to say the first of them is the one to name. `asks` is the fact that `wouldHelp`
 * speaks of: "hours", "rise", "finger", "inside" or the key of a cue.
 */
export type Verdict = { evidence: Evidence[]; suspects: Suspect[]; wouldHelp?: string; asks?: string } & (
  | { call: "not enough to say"; wouldHelp: string }
  | {
      call: Pull | "between"
      under: number
      well: number
      over: number
      mean: number
      sd: number
      hill: { progress: number; density: number }[]
    }
)

/** A call needs this probability; below it the verdict lies between two. Our own judgement. */
const sureEnough = 0.55
/** Without a measurement, and where none of the three is called, nothing is named that is less likely. Our own judgement. */
const leastNamed = 0.4

/**
 * Weighs everything that was told of one bake: one latent log progress and at most one other fault, each piece of evidence a
 * likelihood over both (DEVELOPERS.md, "How a verdict is reached"). Never throws; what is missing is left out.
 */
export function verdictOf(facts: BakeFacts): Verdict {
  const weighed = piecesOf(facts)
  const cells = chancesOf(weighed)
  const { chances, ...progress } = progressIn(cells)
  const pieces = [...weighed.numbers, ...weighed.seen]
  const alone = pieces.map(aloneOf)
  const evidence = pieces.map((piece, at) => evidenceIn(piece, alone[at]!.progress))
  const suspects = suspectsIn(
    explanationsIn(cells),
    pieces,
    alone.map(({ explained }) => explained),
  )
  const useful = mostUseful(facts, cells)
  const asks = useful && { wouldHelp: useful.words, asks: useful.key }
  const call = (["under", "well", "over"] as const).find((one) => chances[one] >= sureEnough) ?? "between"
  const named = isMeasured(pieces) || call !== "between" || suspects[0]!.chance >= leastNamed
  if (!isEnough(pieces) || !named)
    return { call: "not enough to say", evidence, suspects, wouldHelp: nothingMore, ...asks }
  return { call, ...chances, ...progress, evidence, suspects, ...asks }
}

/** The explanation to name first; undefined where there is not enough to say. */
export const namedIn = ({ call, suspects }: Verdict): Suspect | undefined =>
  call === "not enough to say" ? undefined : suspects[0]

const nothingMore = "A second bake, with one thing changed, would help most."

function evidenceIn({ key, words, source, decides }: Piece, { chances, mean, sd }: Progress): Evidence {
  return { key, words, source, decides, pull: pullOf(chances), logShift: mean - before.mean, alone: { mean, sd } }
}

/** What a piece would say if it were all that was told; worked out once for a cue, whose likelihood never changes. */
function aloneOf(piece: Piece) {
  const found = knownAlone.get(piece.logs)
  if (found) return found
  const cells = chancesOf({ numbers: [piece], seen: [] })
  const alone = { progress: progressIn(cells), explained: explanationsIn(cells) }
  knownAlone.set(piece.logs, alone)
  return alone
}
const knownAlone = new WeakMap<Float64Array, { progress: Progress; explained: Chances }>()

const isMeasured = (pieces: Piece[]) => pieces.some(({ decides, measured }) => decides && measured)

/** One measurement against its plan; or two things of different kinds, one of which may decide. */
function isEnough(pieces: Piece[]) {
  if (isMeasured(pieces)) return true
  const telling = pieces.filter(({ key }) => key !== "culture")
  const groups = new Set(telling.map(({ group }) => group))
  return groups.size > 1 && telling.some(({ decides }) => decides)
}

const pulls = ["under", "well", "over"] as const
const before = progressIn(priorChances)
/** Less than this is no pull. Our own judgement. */
const leastPull = 0.03

function pullOf(chances: Record<Pull, number>): Evidence["pull"] {
  const most = pulls.reduce((best, one) => (gain(one) > gain(best) ? one : best))
  return gain(most) < leastPull ? "nothing" : most

  function gain(one: Pull) {
    return chances[one] - before.chances[one]
  }
}

const chancesBefore = explanationsIn(priorChances)
/** By how much a piece must change an explanation's odds to be told for or against it. Our own judgement. */
const leastOdds = 1.3

function suspectsIn(chances: Chances, pieces: Piece[], alone: Chances[]): Suspect[] {
  const odds = (chance: number) => chance / (1 - chance)
  return (Object.keys(explanations) as ExplanationKey[])
    .map((key) => {
      const changes = alone.map((one) => odds(one[key]) / odds(chancesBefore[key]))
      return {
        ...{ key, ...explanations[key], chance: chances[key] },
        for: pieces.filter((_, at) => changes[at]! >= leastOdds).map(({ words }) => words),
        against: pieces.filter((_, at) => changes[at]! <= 1 / leastOdds).map(({ words }) => words),
      }
    })
    .sort((a, b) => b.chance - a.chance)
}
