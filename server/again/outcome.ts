import type { Say } from "../accounts/say.ts"
import { fingerWords } from "../bakes/reading-words.ts"
import { cues, isCue } from "../dough/verdict/cues.ts"
import { photoSubjects } from "../schema.ts"
import type { Laid } from "./laid.ts"
import type { Two } from "./thing.ts"

/** What came out, measure by measure; only what at least one of the two has. */
export function measuresOf({ earlier, later }: Two, say: Say) {
  const rows: [string, (laid: Laid) => string | undefined][] = [
    [
      "Rise before shaping",
      ({ row }) =>
        row.rise &&
        `${say.rise(row.rise.share)}${row.rise.known ? `, ${row.rise.known === "felt" ? "by eye" : row.rise.known}` : ""}`,
    ],
    ["Finger test", ({ row }) => row.finger && fingerWords[row.finger]],
    ["Height of the loaf", ({ bake }) => known(bake.heightMm, (mm) => `${Number(mm.toFixed(0))} mm`)],
    ["Inside temperature", ({ bake }) => known(bake.insideC, say.temperature)],
    ["Baked mass", ({ bake }) => known(bake.bakedMassG, say.mass)],
    ["Lost in the oven and cooling", ({ bake }) => lossOf(bake, say)],
  ]
  return rows.flatMap(([name, told]) => {
    const [before, after] = [told(earlier), told(later)].map(together)
    return before || after ? [{ name, earlier: before ?? "not noted", later: after ?? "not noted" }] : []
  })
}

/** A number keeps its unit on its line. */
const together = (words: string | undefined) => words?.replaceAll(/ (?=(%|°|mm|g|oz)\S*$)/g, "\u00a0")

const known = (value: number | null, words: (value: number) => string) => (value === null ? undefined : words(value))

const lossOf = ({ doughMassG, bakedMassG }: Laid["bake"], say: Say) =>
  doughMassG && bakedMassG ? say.percent((doughMassG - bakedMassG) / doughMassG) : undefined

/** What was seen of both, of the first only and of the later only; undefined where one of them says nothing at all. */
export function seenOf({ earlier, later }: Two) {
  const [before, after] = [earlier.bake.cues.filter(isCue), later.bake.cues.filter(isCue)]
  if (!before.length || !after.length) return null
  const words = (keys: typeof before) => keys.map((key) => cues[key].label)
  return {
    gone: words(before.filter((key) => !after.includes(key))),
    fresh: words(after.filter((key) => !before.includes(key))),
    still: words(after.filter((key) => before.includes(key))),
  }
}

/** Photos of the same thing, one beside the other; what only one of them shows comes last. */
export function picturesOf({ earlier, later }: Two) {
  const telling = ["crumb", "crust", ...photoSubjects.filter((subject) => subject !== "crumb" && subject !== "crust")]
  const pairs = telling.flatMap((subject) => {
    const [before, after] = [earlier, later].map(
      ({ bake }) => bake.photos.find((photo) => photo.subject === subject) ?? null,
    )
    return before || after ? [{ subject, earlier: before ?? null, later: after ?? null }] : []
  })
  return [
    ...pairs.filter((pair) => pair.earlier && pair.later),
    ...pairs.filter((pair) => !pair.earlier || !pair.later),
  ]
}
