import type { Say } from "../accounts/say.ts"
import type { CrumbFigures } from "../crumbs/captions.ts"
import { degrees } from "./cause-words.ts"
import type { Laid } from "./laid.ts"
import { traits } from "./traits.ts"

/** What one bake has in a line; `size` is its number, where the line is of numbers. */
export type Cell = { words: string; note?: string; size?: number }
/** One respect in which bakes are compared: a cell for each of them, undefined where it is not known. */
export type Line = { head: string; cells: (Cell | undefined)[]; differs: boolean; by: string }

/** All in which these bakes can be compared that was so before the oven, in the order of a day. */
export function linesOf(items: Laid[], say: Say): Line[] {
  const fromTraits = (...keys: string[]) =>
    traits
      .filter(({ key }) => keys.includes(key))
      .map(({ key, head }) => lineOf(head, items, ({ values }) => sized(values[key]), spreads[key]?.(say)))
  const ofDough = (head: string, c: (warmth: Warmth) => number | undefined) =>
    lineOf(
      head,
      items,
      ({ row }) => (row.warmth?.from === "dough" ? temperature(c(row.warmth), say) : undefined),
      inC(say),
    )
  return [
    ...fromTraits("day", "revision", "variant", "flour", "levain"),
    lineOf("Hydration", items, ({ bake }) => share(bake.mix.hydration), points),
    lineOf("Salt", items, ({ bake }) => share(bake.mix.salt), points),
    ...fromTraits("changes"),
    lineOf("Where, in their words", items, ({ bake }) => told(bake.kitchen)),
    ...fromTraits("kitchen", "dough"),
    ofDough("Dough at first", ({ first }) => first.c),
    ofDough("Dough at the end of bulk", ({ endOfBulk }) => endOfBulk?.c),
    ofDough("Dough at last", ({ last }) => last.c),
    ...stageLines(items, say),
    ...fromTraits("wait", "vessel", "oven"),
  ]
}

/** What became of them, in numbers; verdicts, causes and photos speak for themselves. */
export function resultsOf(items: Laid[], say: Say): Line[] {
  const mm = (value: number) => `${Math.round(value)} mm`
  const mm2 = (value: number) => `${Math.round(value)} mm²`
  const largestCell = ({ largestMm2 }: Partial<CrumbFigures> = {}) =>
    largestMm2 ? { words: mm2(largestMm2), size: largestMm2 } : undefined
  return [
    lineOf(
      "Rise before shaping",
      items,
      ({ row: { rise, targetRise } }) =>
        rise && {
          words: say.rise(rise.share),
          size: rise.share,
          note: targetRise === undefined ? "" : `target ${say.rise(targetRise)}`,
        },
      points,
    ),
    lineOf(
      "Fermented",
      items,
      ({ row: { fermented, plannedHours } }) =>
        fermented && {
          words: `${say.hours(fermented.hours)} ref h`,
          size: fermented.hours,
          note: plannedHours === undefined ? "" : `plan ${say.hours(plannedHours)}`,
        },
      (hours) => `${say.hours(hours)} ref h`,
    ),
    lineOf("Finger test", items, ({ row }) => row.finger && { words: fingerWords[row.finger] }),
    lineOf("Inside, when baked", items, ({ bake }) => temperature(bake.insideC ?? undefined, say), inC(say)),
    lineOf(
      "Height",
      items,
      ({ bake: { heightMm } }) => (heightMm === null ? undefined : { words: mm(heightMm), size: heightMm }),
      mm,
    ),
    lineOf("Lost in the oven", items, ({ bake }) => share(lossOf(bake)), points),
    lineOf("Visible cell area of the crumb", items, ({ bake }) => cellArea(bake.crumbs[0]), points),
    lineOf("Largest cell of the crumb", items, ({ bake }) => largestCell(bake.crumbs[0]), mm2),
    lineOf("In their own words", items, ({ bake }) => told(bake.ownWords)),
  ].filter(({ cells }) => cells.some(Boolean))
}

type Warmth = NonNullable<Laid["row"]["warmth"]>
const fingerWords = {
  "straight-back": "springs straight back",
  "slowly-partly": "back slowly, partly",
  stays: "the dent stays",
}

function lineOf(
  head: string,
  items: Laid[],
  of: (item: Laid) => Cell | undefined,
  spread?: (size: number) => string,
): Line {
  const cells = items.map(of)
  const known = cells.filter((cell) => cell !== undefined)
  const differs = new Set(known.map(({ words }) => words)).size > 1
  const sizes = known.flatMap(({ size }) => size ?? [])
  const by = differs && spread && sizes.length > 1 ? spread(Math.max(...sizes) - Math.min(...sizes)) : ""
  return { head, cells, differs, by }
}

/** How long each stage took, whatever revision it is of; its own clock times beside it. */
function stageLines(items: Laid[], say: Say): Line[] {
  const stages = new Map(items.flatMap(({ row }) => row.stages.map((stage) => [stage.key, stage.name])))
  return [...stages]
    .map(([key, name]) => lineOf(name, items, (item) => lasted(item, key, say), say.minutes))
    .filter(({ cells }) => cells.some(Boolean))
}

function lasted({ row, bake }: Laid, key: string, say: Say): Cell | undefined {
  if (bake.skipped.includes(key)) return { words: "skipped" }
  const time = row.times.find(({ stage }) => stage.key === key)
  if (!time?.span) return undefined
  const { span, actualMin, plannedMin } = time
  const starts = say.time(span.startsAt, bake.zone)
  if (actualMin === undefined) return { words: `from ${starts}`, note: "no end marked" }
  const ends = say.time(span.endsAt, bake.zone)
  return {
    words: say.minutes(actualMin),
    size: actualMin,
    note: `${starts} – ${ends}, plan ${say.minutes(plannedMin)}`,
  }
}

const sized = (value: Laid["values"]["day"]): Cell | undefined =>
  value && { words: value.words, note: value.note, ...(typeof value.order === "number" ? { size: value.order } : {}) }
const spreads: Partial<Record<string, (say: Say) => (size: number) => string>> = {
  ...{ kitchen: inC, dough: inC },
  wait: (say) => say.minutes,
}
function inC(say: Say) {
  return (c: number) => degrees(c, say)
}
const temperature = (c: number | undefined, say: Say): Cell | undefined =>
  c === undefined ? undefined : { words: say.temperature(c), size: c }
const share = (value: number | undefined): Cell | undefined =>
  value === undefined ? undefined : { words: percent(value), size: value }
const percent = (value: number) => `${Number((value * 100).toFixed(1))} %`
/** A difference between two per cents. */
const points = (size: number) => `${Number((size * 100).toFixed(1))} points`
const told = (words: string): Cell | undefined => (words ? { words } : undefined)

const lossOf = ({ doughMassG, bakedMassG }: Laid["bake"]) =>
  doughMassG && bakedMassG ? 1 - bakedMassG / doughMassG : undefined

const cellArea = (crumb: CrumbFigures | undefined): Cell | undefined =>
  crumb && {
    words: percent(crumb.share),
    size: crumb.share,
    note: `${percent(crumb.shareRange[0])} to ${percent(crumb.shareRange[1])}${crumb.cautions.length > 0 ? ", with cautions" : ""}`,
  }
