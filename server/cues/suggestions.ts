import type { Bake, Reading } from "../bakes/queries.ts"
import { cues } from "../dough/verdict/cues.ts"
import { cuesInWords, type Suggestion } from "../dough/verdict/cues-in-words.ts"

type Written = { bake: Pick<Bake, "ownWords" | "vessel" | "content">; readings: Reading[]; ticked: unknown[] }

/** What the baker's own words and notes seem to say that is not ticked, each cue once, for them to confirm. */
export function suggestedBy({ bake, readings, ticked }: Written): Suggestion[] {
  const found = new Map<string, Suggestion>()
  for (const { words, about } of writtenIn(bake, readings))
    for (const one of cuesInWords(words, about)) if (!found.has(one.key)) found.set(one.key, one)
  const seenThere = ({ key }: Suggestion) => !bake.vessel || (cues[key].vessels?.includes(bake.vessel) ?? true)
  return [...found.values()].filter((one) => !ticked.includes(one.key) && seenThere(one))
}

function writtenIn({ ownWords, content }: Written["bake"], readings: Reading[]) {
  const stages = content.stages.map(({ kind, key }) => ({ kind, key }))
  const untilMix = stages.slice(
    0,
    Math.max(
      0,
      stages.findIndex(({ kind }) => kind === "mix"),
    ),
  )
  const notes = readings
    .filter(({ kind }) => kind === "note")
    .map(({ typed, stageKey }) => ({
      words: typed,
      // before the dough is mixed there is only the levain to speak of
      about: untilMix.some(({ key }) => key === stageKey) ? ("levain" as const) : undefined,
    }))
  return [...notes, { words: ownWords, about: undefined }]
}
