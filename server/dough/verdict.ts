export type Finger = "straight-back" | "slowly-partly" | "stays"

/** `rise` and `targetRise` are shares gained: 0.5 is +50 %. */
export type VerdictFacts = {
  referenceHours?: number
  plannedReferenceHours?: number
  assumedShare?: number
  rise?: number
  targetRise?: number
  finger?: Finger
}

export type Pull = "under" | "well" | "over"
export type Reason = { words: string; pull: Pull }

/** `under`, `well`, `over` are probabilities; `mean` and `sd` describe the log of fermentation at the oven over intended. */
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

export const wellBand = 0.2

export function firstVerdict(facts: VerdictFacts): Verdict {
  throw new Error(`not built yet: ${Object.keys(facts)}`)
}
