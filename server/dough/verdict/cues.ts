import type { Cue } from "./cue.ts"
import { cuesOfBread } from "./cues-of-bread.ts"
import { cuesOfDough } from "./cues-of-dough.ts"

const table = { ...cuesOfDough, ...cuesOfBread }

export type CueKey = keyof typeof table

/** Everything that can be told of a dough or a bread by eye, hand and tongue, in the order in which it shows. */
export const cues: Record<CueKey, Cue> = table

/** Whether that is the key of a cue: what was kept under a name that is no longer one tells nothing. */
export const isCue = (key: string): key is CueKey => Object.hasOwn(cues, key)
