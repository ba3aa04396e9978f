import type { ExplanationKey } from "./explanations.ts"

export type Pull = "under" | "well" | "over"

/**
 * One piece of evidence as it was weighed. `logShift` is how far it alone moved the middle of the hill (log progress, above 0
 * toward over); `source` where its likelihood comes from; `decides` is false for a cue that may never decide by itself.
 */
export type Evidence = {
  key: string
  words: string
  pull: Pull | "nothing"
  logShift: number
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
 * is its density on an even grid. `suspects` come most likely first, "underproofed", "overproofed" and "nothing wrong" among them.
 */
export type Verdict = { evidence: Evidence[]; suspects: Suspect[]; wouldHelp?: string } & (
  | { call: "not enough to say"; wouldHelp: string }
  | {
      call: "under" | "well" | "over" | "between"
      under: number
      well: number
      over: number
      mean: number
      sd: number
      hill: { progress: number; density: number }[]
    }
)
