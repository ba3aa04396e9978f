import type { Range, Share } from "../amounts.ts"
import type { Culture } from "../fermentation/growth.ts"
import type { CueKey } from "./cues.ts"

export type Finger = "straight-back" | "slowly-partly" | "stays"

/** How well a value is known: read off something, taken for granted, or by hand and eye. */
export type Known = "measured" | "assumed" | "felt"

/**
 * One stretch in which a dough or its levain worked. `min` is a range where that is all that was told, and missing where
 * nothing was; `c` likewise, with what it is the temperature of.
 */
export type ToldStage = {
  kind: "levain" | "rest" | "bulk" | "proof" | "retard" | "wait"
  min?: Range
  c?: Range
  of?: "dough" | "room" | "fridge"
  known?: Known
}

/**
 * Everything that can be told of one bake and bears on why it came out as it did, in the one shape that the bench, the
 * table and a bake told in words are all brought into. Whatever is not known is left out; nothing is made up.
 */
export type BakeFacts = {
  culture?: Culture
  /** Of all flour: what comes in with the levain (prefermented flour), or instant yeast. */
  leavenShare?: Share
  hydration?: Range
  salt?: Range
  fat?: Share
  sugar?: Share
  /** Where it was baked: a tin holds up what a hearth lets run. */
  vessel?: "tin" | "hearth" | "pot"
  stages: ToldStage[]
  /**
   * Reference hours from the first stage that temperature drives to the oven, how much of that time is assumed, and the plan's.
   * `asMade`: those that would do the same as the plan's with the leaven it really had.
   */
  hours?: { done: number; planned?: number; asMade?: number; assumedShare: Share }
  /** The plan's reference hours, where nobody knows how many there were. */
  plannedHours?: number
  /** The last rise before shaping, share of the starting volume; its target, where there was one. */
  rise?: { share: number; known: Known; target?: number }
  finger?: { found: Finger; at: "bulk" | "proof" }
  ph?: number
  insideC?: number
  bakeLoss?: Share
  /** ml per g, where height or volume and mass were measured. */
  specificVolume?: number
  cues: CueKey[]
  /** What was done otherwise, where that alone could explain the bread. */
  changes?: {
    kind: "salt left out" | "yeast left out" | "flour by cup" | "flour added" | "other flour" | "other"
    words: string
  }[]
}
