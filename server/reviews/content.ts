import type { Plot } from "../plots/plot.ts"

/** What a review says, as a draft and frozen in each edition. */
export type ReviewContent = {
  title: string
  /** Markdown. */
  words: string
  nextTime: string
  bakes: number[]
  plots: Plot[]
}
