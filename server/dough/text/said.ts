import type { StageKind } from "../schedule.ts"
import type { SaidDuration } from "./durations.ts"

/** A step as it came. `section` and `name` stand over it; `cue` and `tip` are lines that belong to it. */
export type SaidStep = { text: string; from: string; section?: string; name?: string; cue?: string; tip?: string }

/** One stage's worth of a step. `word` is what its kind was told by; `isSaid` where the kind itself was written. */
export type Piece = {
  step: SaidStep
  text: string
  kind?: StageKind | "heat"
  word: string
  isSaid: boolean
  durations: SaidDuration[]
}

/**
 * A stage as far as the words say it. `from` is the line it was in, `text` its part of that; `because` says what its kind
 * rests on. Minutes are 0 where no length is sure; `asks` are the open questions, `assumes` what was taken for granted,
 * each a sentence.
 */
export type ReadStep = {
  from: string
  text: string
  name: string
  kind: StageKind
  because: string
  lowMin: number
  highMin: number
  handsOnMin: number
  referenceC?: number
  drivenByTemperature: boolean
  cue: string
  tip: string
  assumes: string[]
  asks: string[]
}

/** What a cue and a tip may hold in a formula, in letters. */
export const mostLetters = 1000
/** What a name may hold. */
export const mostOfName = 200
