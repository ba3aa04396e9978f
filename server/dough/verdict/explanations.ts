/** A reason why a bread came out as it did; the full list follows. */
export type ExplanationKey = string
