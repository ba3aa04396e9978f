import type { Plot } from "../plots/plot.ts"
import type { Hill } from "../table/hill.ts"
import type { ClassMiddle } from "./class-middle.ts"
import type { InUnits } from "./in-units.ts"

/** What a review says, as its instructors are writing it. */
export type ReviewContent = {
  title: string
  /** Markdown. */
  words: string
  nextTime: string
  showVerdicts: boolean
  showCauses: boolean
  /** The chosen bakes in their order, each with the ids of the photos that stand beside it. */
  bakes: { id: number; photos: string[] }[]
  pairs: Pair[]
  /** Keys of the chosen plots; see plots.ts. */
  plots: string[]
  /** For one student's eyes, and the staff's. */
  forStudents: { userId: number; words: string }[]
  /** Who saved the draft last, and from which opened form, so that saving twice from one form is no quarrel. */
  saved?: { by: number; form: string }
}

/** Two bakes side by side and why; null where nobody has chosen yet. */
export type Pair = { left: number | null; right: number | null; why: string }

/** A review as it was published: the words, and everything as it stood at that moment. */
export type EditionContent = ReviewContent & { kept: Kept }

export type Kept = {
  /** Every bake that stands in the review, in pairs or alone. */
  bakes: KeptBake[]
  plots: Plot[]
  /** The names that plots may speak of, so that a bake that is withdrawn later leaves them too. */
  names: { bakeId: number; name: string }[]
  class: ClassMiddle
}

export type KeptBake = {
  id: number
  name: string
  /** Which of its baker's bakes it is, from 1. */
  nth: number
  kitchen: string
  /** "2026-11-14", by the class's clock. */
  day: string
  call: string
  chances: string[]
  hill: Hill | null
  /** Reference hours, °C, and the share gained before shaping; left out where nobody knows. */
  figures: { hours?: number; plannedHours?: number; doughC?: number; rise?: number }
  causes: InUnits<string[]>
  photos: string[]
}

export const emptyReview = (title: string): ReviewContent => ({
  title,
  words: "",
  nextTime: "",
  showVerdicts: true,
  showCauses: true,
  bakes: [],
  pairs: [],
  plots: [],
  forStudents: [],
})
