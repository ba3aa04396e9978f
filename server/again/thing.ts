import type { Between, Course } from "../dough/causes/between-bakes.ts"
import type { Way } from "./course.ts"
import type { Laid } from "./laid.ts"

/**
 * One thing that was otherwise: then and now in words, how much it was, and what of the difference at the oven the model
 * puts down to it, reference hours. `dial` is what somebody can turn back by part: how far it moved, in its own unit.
 */
export type Thing = {
  key: string
  name: string
  /** In the middle of a sentence; its name where that reads well there. */
  called?: string
  earlier: string
  later: string
  by: string
  hours?: number
  dial?: Dial
}
export type Dial = { of: "min"; moved: number } | { of: "c"; moved: number } | { of: "share"; moved: number }

export type Comparison = {
  things: Thing[]
  /** What the model makes of it, or why it cannot say. */
  between: Between | { why: string }
  /** Told beside the things, and none of them: the revision, where its changes are things themselves. */
  remarks: string[]
}

export type Two = { earlier: Laid; later: Laid }
export type Ways = { earlier: Way; later: Way }
export type Known = Extract<Way, { course: Course }>

// Below these nobody would call it a difference; all are our own judgement, no published source.
export const least = {
  ...{ min: 10, c: 0.5, leavenRatio: 0.05, share: 0.01, salt: 0.002, flour: 0.02 },
  ...{ ovenMin: 5, ovenC: 8 },
}
