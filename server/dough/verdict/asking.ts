import { chanceOfCue } from "./cue-likelihoods.ts"
import { type CueKey, cues } from "./cues.ts"
import type { FaultKey } from "./explanations.ts"
import type { BakeFacts } from "./facts.ts"
import { faults, paces, progresses, pullsOfSteps } from "./hypotheses.ts"

/** A fact that could be asked for: its words, whether it still can be, and how likely each answer is in each lump of cells. */
type Askable = { key: string; words: string; open: (facts: BakeFacts) => boolean; answers: Float64Array[] }

/**
 * The one fact, not told yet, that would most narrow down what happened: its expected gain of information over how far the
 * dough had come and which fault there was, in nats (D. V. Lindley 1956, Ann Math Stat 27:986, from memory). undefined
 * where no answer would tell much.
 */
export function mostUseful(facts: BakeFacts, cells: Float64Array): Useful | undefined {
  const lumps = lumped(cells)
  const before = entropyOf(lumps)
  let best: (Useful & { gain: number }) | undefined
  for (const { key, words, open, answers } of askables) {
    if (!open(facts)) continue
    const gain = before - answers.reduce((sum, likely) => sum + entropyOf(lumps, likely), 0)
    if (gain > (best?.gain ?? leastGain)) best = { key, words, gain }
  }
  return best && { key: best.key, words: `${best.words} would help most.` }
}
/** A fact to ask for: "hours", "rise", "finger", "inside" or the key of a cue, and a sentence. */
type Useful = { key: string; words: string }
/** Below this nothing is worth asking. Our own judgement. */
const leastGain = 0.03

/** Four steps of progress together: coarse enough to be quick, and the well-proofed band still begins between two. */
const lump = 4
const perFault = progresses.length / lump
const middles = Array.from(
  { length: perFault },
  (_, i) => (progresses[i * lump]! + progresses[(i + 1) * lump - 1]!) / 2,
)
const lumpPulls = middles.map((_, i) => ["under", "well", "over"].indexOf(pullsOfSteps[i * lump]!))

function lumped(cells: Float64Array) {
  const lumps = new Float64Array(cells.length / lump)
  for (let cell = 0; cell < cells.length; cell++) lumps[Math.floor(cell / lump)]! += cells[cell]!
  return lumps
}

const perLump = (valueAt: (x: number, fault: FaultKey | undefined, at: number) => number) =>
  Float64Array.from(faults.flatMap((fault, at) => middles.map((x) => valueAt(x, fault, at))))

/** Entropy over the classes after an answer, times the chance of that answer; without an answer the entropy now. */
function entropyOf(lumps: Float64Array, likely?: Float64Array) {
  const classes = new Float64Array(faults.length * 3)
  let chance = 0
  for (let i = 0; i < lumps.length; i++) {
    const one = lumps[i]! * (likely ? likely[i]! : 1)
    classes[Math.floor(i / perFault) * 3 + lumpPulls[i % perFault]!]! += one
    chance += one
  }
  let sum = 0
  for (const one of classes) if (one > 0) sum -= one * Math.log(one / chance)
  return sum
}

/** Answers to a number: by where on the line of log progress a value that scatters by `sd` would fall. */
function inSteps(sd: number, at: (x: number, place: number) => number): Float64Array[] {
  const edges = [-0.9, -0.5, -0.3, -0.15, 0.15, 0.3, 0.5, 0.9]
  return [...edges, Number.POSITIVE_INFINITY].map((to, i) => {
    const from = i ? edges[i - 1]! : Number.NEGATIVE_INFINITY
    return perLump(
      (x, _fault, place) => normalBelow((to - at(x, place)) / sd) - normalBelow((from - at(x, place)) / sd),
    )
  })
}
/** The normal distribution function, to a hundredth: 1/(1 + e^(−1.702·z)) (Haley 1952, from memory). */
const normalBelow = (z: number) => 1 / (1 + Math.exp(-1.702 * z))

function yesOrNo(chanceOfYes: (x: number, fault: FaultKey | undefined) => number) {
  const yes = perLump((x, fault) => chanceOfYes(x, fault))
  return [yes, yes.map((one) => 1 - one)]
}
/** Even of what is there, not all is noticed when asked. Our own judgement. */
const answered = 0.9

const numbers: Askable[] = [
  {
    key: "hours",
    words: "The dough's temperature, with the times its bulk and proof began and ended,",
    open: ({ hours, stages }) =>
      !hours && !stages.some(({ kind, min, c }) => (kind === "bulk" || kind === "proof") && min && c),
    answers: inSteps(0.25, (x, place) => x - paces[place]!.at),
  },
  {
    key: "rise",
    words: "How far it had risen before it was shaped, best in a straight-sided jar,",
    open: ({ rise, cues: told }) =>
      (!rise || rise.known === "assumed") && !told.some((key) => ["little rise", "rose"].includes(cues[key].group)),
    answers: inSteps(0.35, (x) => x),
  },
  {
    key: "finger",
    words: "A finger test just before the oven",
    open: ({ finger }) => !finger,
    answers: inSteps(0.45, (x) => x),
  },
  {
    key: "inside",
    words: "The temperature inside when it came out of the oven",
    open: ({ insideC }) => insideC === undefined,
    answers: yesOrNo((_x, fault) => (fault === "underbaked" ? 0.85 : 0.1)),
  },
]

/** What of the cues can be asked for afterwards, and how. */
const questions: [CueKey, string][] = [
  ["deflated", "Whether it deflated when it was moved or scored"],
  ["fell", "Whether it was already falling back before it was baked"],
  ["burst", "Whether it burst in the oven where it was not cut"],
  ["no-spring", "Whether it grew in the oven"],
  ["open-and-even", "How the crumb looked: even, or dense with a few big holes,"],
  ["levain-sunken", "How the levain stood when it was used: rising, at its peak or sunk back,"],
  ["levain-sluggish", "How well the levain, or the yeast, rose by itself"],
  ["wet-from-the-mix", "Whether the dough was already too wet right after mixing"],
  ["stickier-with-time", "Whether the dough grew stickier the longer it stood"],
  ["tears", "Whether a piece could be stretched thin after mixing"],
  ["kneaded-very-long", "How long it was kneaded, and by what,"],
  ["no-rise", "Whether the dough rose at all"],
  ["too-salty", "How salty it tasted"],
  ["bland", "Whether it tasted of salt"],
  ["oven-not-hot", "Whether oven, stone or pot had come to their heat"],
  ["weighed-was-better", "Whether the flour was weighed, and what a cup of it weighs,"],
  ["torn-at-the-bench", "How the shaping went: whether it tore, stuck or was shaped twice,"],
  ["cut-warm", "Whether it had cooled before it was cut"],
  ["sides-pulled-in", "When it sank: in the oven, or while it cooled,"],
]

const asked: Askable[] = questions.map(([key, words]) => ({
  key,
  words,
  open: ({ cues: told, vessel }) =>
    !told.some((one) => cues[one].group === cues[key].group) &&
    !(vessel && cues[key].vessels && !cues[key].vessels.includes(vessel)),
  answers: yesOrNo((x, fault) => chanceOfCue(cues[key], x, fault) * answered),
}))

const askables = [...numbers, ...asked]
