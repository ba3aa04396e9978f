import type { Correction } from "../bakes/corrections.ts"
import type { Bake, Reading } from "../bakes/queries.ts"
import type { StageKind } from "../dough/schedule.ts"
import { type Moment, moments } from "../dough/verdict/cue.ts"
import { type CueKey, cues } from "../dough/verdict/cues.ts"
import type { Form } from "../web/forms.ts"
import { type Seen, saysSomething } from "./queries.ts"
import { suggestedBy } from "./suggestions.ts"
import { momentWords, vesselWords } from "./words.ts"

type Told = {
  bake: Pick<Bake, "vessel" | "cues" | "ownWords" | "content">
  readings: Reading[]
  corrections: Correction[]
  /** The stage that is running, or comes next; undefined when all are done. */
  at: StageKind | undefined
  form: Form
}

/** What somebody saw of a dough and its bread, and everything that can be ticked, by when it shows. */
export function benchCues({ bake, readings, corrections, at, form }: Told) {
  const ticked = [form.typed.cue ?? []].flat()
  const suggested = suggestedBy({ bake, readings, ticked })
  const open = at ? showsIn[at] : atTheEnd
  return {
    said: saysSomething(bake),
    ...seenIn(bake),
    before: corrections.filter(isOfCues).map(({ was, by, madeAt }) => ({ ...seenIn(was as Seen), by, madeAt })),
    suggested: suggested.map(({ key, words }) => ({ key, words, label: cues[key].label })),
    groups: moments.map((moment) => {
      const offered = keysOf(moment).filter((key) => !suggested.some((one) => one.key === key))
      const choices = offered.map((key) => choiceOf(key, ticked.includes(key)))
      const count = choices.filter((choice) => choice.ticked).length
      return { name: momentWords[moment], open: open.includes(moment), count, choices }
    }),
    vessels: [["", "not said"] as const, ...Object.entries(vesselWords)].map(([value, words]) => ({
      ...{ value, words },
      chosen: (form.typed.vessel ?? "") === value,
    })),
  }
}

/** What a form to correct it begins with. */
export const typedCues = ({ vessel, cues }: Seen): Form["typed"] => ({ vessel, cue: cues })

const choiceOf = (key: CueKey, ticked: boolean) => ({
  ...{ key, ticked, label: cues[key].label },
  // shown for every vessel, "tin" only or "no tin"
  only: !cues[key].vessels ? "" : cues[key].vessels.includes("tin") ? "in-tin" : "no-tin",
})

const keysOf = (moment: Moment) => (Object.keys(cues) as CueKey[]).filter((key) => cues[key].moment === moment)

/** A correction of nothing else. */
const isOfCues = ({ readingId, stageKey, changeId, was }: Correction) =>
  readingId === null && stageKey === null && changeId === null && was !== null

function seenIn({ vessel, cues: kept }: Seen) {
  const seen = moments.flatMap((moment) => {
    const words = keysOf(moment)
      .filter((key) => kept.includes(key))
      .map((key) => cues[key].label)
    return words.length ? [{ name: momentWords[moment], words }] : []
  })
  return { vessel: vessel && vesselWords[vessel], seen }
}

/** What is to be seen while a stage runs, and when all are done. */
const showsIn: Record<StageKind, Moment[]> = {
  ...{ mix: ["levain", "dough"], rest: ["dough"], bulk: ["dough"], fold: ["dough"] },
  ...{ divide: ["shaping"], shape: ["shaping"], proof: ["proof"], retard: ["proof"] },
  ...{ bake: ["oven"], cool: ["oven", "crust"] },
}
const atTheEnd: Moment[] = ["crust", "crumb"]
