import type { Say } from "../accounts/say.ts"
import { differenceIn as changeIn } from "../changes/words.ts"
import type { StageKind } from "../dough/schedule.ts"
import type { Vessel } from "../schema.ts"
import { bandIn, meanOf } from "./bands.ts"
import { mainFlours } from "./mix.ts"
import type { TableBake } from "./queries.ts"
import type { Row } from "./row.ts"
import type { TraitKey, Value } from "./values.ts"
import { waitIn } from "./waiting.ts"
import { readingsIn } from "./words.ts"

/**
 * One respect in which bakes can differ before they are baked. `head` is the head of its column, `same` how it is said of
 * all at once, `sorts` whether bakes can be picked and grouped by it. One that is `told` has no column: its words stand with
 * what differed most.
 */
export type Trait = {
  key: TraitKey
  head: string
  same: (words: string) => string
  sorts: boolean
  told?: true
  of: (bake: Baked, say: Say) => Value | undefined
}
type Baked = { bake: TableBake; row: Row }

export const traits: Trait[] = [
  {
    ...{ key: "day", head: "Bake day", sorts: true, same: (words) => words },
    of: ({ bake }, say) => {
      const [words, order] = [`${bake.title}, ${say.dayName(bake.opensOn)}`, `${bake.opensOn} ${bake.bakeDayId}`]
      return { words, order, band: { key: String(bake.bakeDayId), words, order } }
    },
  },
  {
    ...{ key: "revision", head: "Revision", sorts: true, same: (words) => `revision ${words}` },
    of: ({ bake }) => ({ words: String(bake.revisionNumber), order: bake.revisionNumber }),
  },
  {
    ...{ key: "variant", head: "Made", sorts: true, same: (words) => `made ${words}` },
    of: ({ bake }) => ({ words: bake.way || "as written", order: bake.way }),
  },
  {
    ...{ key: "flour", head: "Main flours", sorts: true, same: (words) => words },
    of: ({ bake }) => {
      const words = mainFlours(bake.mix).join(", ")
      return words ? { words, order: words } : undefined
    },
  },
  { ...{ key: "levain", head: "Levain", sorts: true, same: (words) => words }, of: levainIn },
  {
    ...{ key: "kitchen", head: "Kitchen", sorts: true, same: (words) => `kitchen ${words}` },
    of: ({ row: { room } }, say) => {
      const meanC = meanOf(room)
      if (meanC === undefined) return undefined
      const guesses = [...new Set(room.flatMap(({ known }) => known ?? []))].join(" or ")
      return { words: say.temperature(meanC), order: meanC, note: guesses, band: bandIn(meanC, say) }
    },
  },
  {
    ...{ key: "dough", head: "Dough", sorts: true, same: (words) => `dough ${words}` },
    of: ({ row: { warmth } }, say) => {
      if (warmth?.from !== "dough") return undefined
      const meanC = warmth.meanC ?? warmth.last.c
      const [low, high] = [say.temperature(warmth.lowC), say.temperature(warmth.highC)]
      const between = low === high ? "" : `${low.replace(/ °.$/, "")} – ${high}`
      const guessed = warmth.points.some(({ known }) => known)
      const note = [between, ...(guessed || !between ? [readingsIn(warmth.points)] : [])].filter(Boolean).join(", ")
      return { words: say.temperature(meanC), order: meanC, note, band: bandIn(meanC, say) }
    },
  },
  {
    ...{ key: "bulk", head: "Bulk", sorts: false, same: (words) => `bulk ${words}` },
    of: (bake, say) => lasted(bake, ["bulk", "fold"], say),
  },
  {
    ...{ key: "proof", head: "Proof", sorts: false, same: (words) => `proof ${words}` },
    of: (bake, say) => lasted(bake, ["proof", "retard"], say),
  },
  {
    ...{ key: "wait", head: "Waited", sorts: false, same: (words) => `waited ${words} for the oven` },
    of: ({ row }, say) => {
      const min = waitIn(row)
      return min === undefined ? undefined : { words: say.minutes(Math.max(0, min)), order: min }
    },
  },
  {
    ...{ key: "vessel", head: "Baked", sorts: true, same: (words) => `baked ${words}` },
    of: ({ bake: { vessel } }) => (vessel === "" ? undefined : { words: vesselWords[vessel], order: vessel }),
  },
  {
    ...{ key: "oven", head: "Oven", sorts: true, told: true, same: (words) => `oven: ${words}` },
    of: ({ bake }, say) => changesOf(bake, true, say) ?? { words: "nothing said", order: "", said: "", quiet: true },
  },
  {
    ...{ key: "changes", head: "Changed", sorts: false, told: true, same: (words) => words },
    of: ({ bake }, say) =>
      changesOf(bake, false, say) ?? { words: "nothing", order: "", said: "nothing changed", quiet: true },
  },
]

const vesselWords: Record<Exclude<Vessel, "">, string> = {
  tin: "in a tin",
  hearth: "on a hearth",
  pot: "in a pot",
}

/** What raises it and how much of it there is; a sourdough's whole percents are one band. */
function levainIn({ bake: { raised } }: Baked): Value | undefined {
  if ("why" in raised.actual) return undefined
  const { culture, share } = raised.actual.leaven
  const percent = share * 100
  if (culture !== "sourdough") {
    const words = `${percent.toFixed(percent < 1 ? 2 : 1)} % yeast`
    return { words, said: `${words}, as if instant`, order: 1000 + percent }
  }
  const [words, whole] = [`${Number(percent.toFixed(1))} %`, Math.round(percent)]
  const band = { key: `levain-${whole}`, words: `levain with ${whole} % of the flour`, order: whole }
  return { words, said: `levain with ${words} of the flour`, order: percent, band }
}

/** How long all stages of these kinds lasted together; undefined while one of them is not known. */
function lasted({ row, bake }: Baked, kinds: StageKind[], say: Say): Value | undefined {
  const theirs = row.times.filter(({ stage }) => kinds.includes(stage.kind) && !bake.skipped.includes(stage.key))
  if (!theirs.length || theirs.some(({ actualMin }) => actualMin === undefined)) return undefined
  const min = sum(theirs.map(({ actualMin }) => actualMin!))
  const over = min - sum(theirs.map(({ plannedMin }) => plannedMin))
  const note = Math.round(over) === 0 ? "on plan" : `${over > 0 ? "+" : "−"}${say.minutes(Math.abs(over))}`
  return { words: say.minutes(min), order: min, note }
}
const sum = (values: number[]) => values.reduce((total, value) => total + value, 0)

function changesOf({ changes }: TableBake, ofOven: boolean, say: Say): Value | undefined {
  const said = changes.filter(({ kind }) => (kind === "oven") === ofOven)
  const words = said.map((change) => (ofOven ? change.words : changeIn(change, say))).join("; ")
  return said.length ? { words, order: words } : undefined
}
