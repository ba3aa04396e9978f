import type { Stage } from "../dough/schedule.ts"
import type { Pause } from "../schema.ts"

export type Marked = {
  stageKey: string
  startedAt: Date
  endedAt: Date | null
  startedAboutMin: number | null
  pauses: Pause[]
}

/**
 * The time from mixing to shaping, in which a dough rises to its target. `metAt` is when leaven met flour; `zeroAt` is the
 * volume that its rise is counted from, give or take `zeroAboutMin`. `endedAt` once it has been shaped, or its last stage ended.
 */
export type Rising = { stages: Stage[]; metAt: Date; zeroAt: Date; zeroAboutMin: number; endedAt?: Date }

/** How far the rising has come; undefined while nothing of it has begun, or when the stages are marked out of order. */
export function risingOf(stages: Stage[], marks: Marked[]): Rising | undefined {
  const rising = risingStages(stages)
  const markOf = (stage: Stage | undefined) => marks.find(({ stageKey }) => stageKey === stage?.key)
  const begun = rising.map(markOf).filter((mark) => mark !== undefined)
  const mixed = markOf(mixingOf(stages, rising[0]))
  const zero = begun.toSorted((a, b) => +a.startedAt - +b.startedAt)[0] ?? mixed
  if (!rising[0] || !zero) return undefined
  const { startedAt: zeroAt, startedAboutMin } = zero
  const gapMs = mixed ? +zeroAt - +mixed.startedAt : 0
  const metAt = mixed && gapMs > 0 && gapMs <= longestMixingMs ? mixed.startedAt : zeroAt
  const endedAt = endOf(stages, rising, marks)
  if (endedAt && endedAt < zeroAt) return undefined
  return { stages: rising, metAt, zeroAt, zeroAboutMin: startedAboutMin ?? 0, ...(endedAt ? { endedAt } : {}) }
}
// What was mixed longer before the dough began to rise was not this dough. Our own choice.
const longestMixingMs = 3 * 3_600_000

/**
 * Bulk and folds with all that lies between them and the shaping; where there is neither, a rest that temperature drives,
 * or one in the fridge before the shaping.
 */
export function risingStages(stages: Stage[]): Stage[] {
  const bulk = stages.findIndex((stage) => (stage.kind === "bulk" || stage.kind === "fold") && !isLevain(stage))
  const mixed = stages.findLastIndex(({ kind }) => kind === "mix")
  const shaping = stages.findLastIndex(({ kind }) => kind === "divide" || kind === "shape")
  const rest = stages.findIndex(
    (stage, at) =>
      at > mixed &&
      !isLevain(stage) &&
      ((stage.kind === "rest" && stage.drivenByTemperature) || (stage.kind === "retard" && at < shaping)),
  )
  const first = bulk >= 0 ? bulk : rest
  if (first < 0) return []
  const after = stages.findIndex(({ kind }, at) => at > first && afterRising.includes(kind))
  return stages.slice(first, after < 0 ? undefined : after)
}
const afterRising = ["divide", "shape", "proof", "bake", "cool"]
/** A stage that is of the levain, or whatever is mixed ahead, told by its name. */
export const isLevain = ({ name }: Stage) => /levain|leaven|starter|sponge|prefer?ment|poolish|biga|\bfeed/i.test(name)

/** The stage that brought leaven and flour together: the last mixing before the rising; not what comes before an autolyse. */
function mixingOf(stages: Stage[], first: Stage | undefined): Stage | undefined {
  const before = stages.slice(0, first ? stages.indexOf(first) : 0)
  const mixed = before.findLastIndex((stage) => stage.kind === "mix" && !isLevain(stage))
  const autolyse = before.findLastIndex(({ name }) => /autoly/i.test(name))
  return mixed > autolyse ? before[mixed] : undefined
}

/** The start of the first stage after it that was marked, or the end of its last one. */
function endOf(stages: Stage[], rising: Stage[], marks: Marked[]): Date | undefined {
  const last = rising.at(-1)
  const later = stages.slice(stages.indexOf(last!) + 1)
  const next = later.flatMap(({ key }) => marks.filter(({ stageKey }) => stageKey === key))
  const starts = next.map(({ startedAt }) => startedAt).sort((a, b) => +a - +b)
  const ended = marks.find(({ stageKey }) => stageKey === last?.key)?.endedAt
  return starts[0] ?? ended ?? undefined
}
