import { pieceOfCue, telling } from "./cue-likelihoods.ts"
import type { BakeFacts } from "./facts.ts"
import { piecesOfFormula } from "./formula-likelihoods.ts"
import { cellCount, logPrior, normalised, priorChances } from "./hypotheses.ts"
import type { Piece } from "./likelihoods.ts"
import { piecesOfNumbers } from "./number-likelihoods.ts"
import { pieceOfLevain, pieceOfStages } from "./process.ts"

/** Everything that was told of a bake, ready to be weighed. */
export type Weighed = { numbers: Piece[]; seen: Piece[] }

/** Brings what was told into pieces; of a group of cues the most telling comes first. */
export function piecesOf(facts: BakeFacts): Weighed {
  const numbers = [...piecesOfNumbers(facts), pieceOfStages(facts), pieceOfLevain(facts), ...piecesOfFormula(facts)]
  const seen = [...new Set(facts.cues)].map((key) => pieceOfCue(key, facts.vessel)).filter((one) => one !== undefined)
  const byTelling = seen.toSorted((a, b) => telling(b, facts.vessel) - telling(a, facts.vessel))
  return { numbers: numbers.filter((one) => one !== undefined), seen: byTelling }
}

/** After the first of a group each further cue tells a third of what it would alone. Our own judgement. */
const repeated = 0.3
/**
 * The chance that an account, as a whole, does not mean what it is taken for: words that bakers use otherwise, a log of
 * another dough, a plan nobody followed. Three in five told bakes are disputed, or rest on something that points the wrong
 * way, most of them in part only; this one in twelve is our own judgement.
 */
const misleading = 1 / 12

/**
 * The chance of every cell, all pieces weighed together. They multiply, but for cues of one group, which count
 * little after the first; and what they say is mixed with what would be believed without them.
 */
export function chancesOf({ numbers, seen }: Weighed): Float64Array {
  const logs = Float64Array.from(logPrior)
  for (const piece of numbers) add(logs, piece.logs, 1)
  const groups = new Set<string>()
  for (const piece of seen) {
    add(logs, piece.logs, groups.has(piece.group) ? repeated : 1)
    groups.add(piece.group)
  }
  const chances = normalised(logs)
  for (let cell = 0; cell < cellCount; cell++)
    chances[cell] = (1 - misleading) * chances[cell]! + misleading * priorChances[cell]!
  return chances
}

function add(logs: Float64Array, more: Float64Array, weight: number) {
  for (let cell = 0; cell < cellCount; cell++) logs[cell]! += weight * more[cell]!
}
