import { type ExplanationKey, explanations } from "./explanations.ts"
import { cellCount, faults, paces, priorChances, progresses, progressStep, pullsOfSteps } from "./hypotheses.ts"
import type { Pull } from "./verdict.ts"

/** What the cells say of progress: the three chances, the middle and width of log progress, and its density. */
export type Progress = {
  chances: Record<Pull, number>
  mean: number
  sd: number
  hill: { progress: number; density: number }[]
}

/** Sums the cells up over the faults. */
export function progressIn(cells: Float64Array): Progress {
  const across = new Float64Array(progresses.length)
  for (let cell = 0; cell < cellCount; cell++) across[cell % progresses.length]! += cells[cell]!
  const mean = sumOf((x) => x)
  const chanceOf = (pull: Pull) => sumOf((_x, i) => (pullsOfSteps[i] === pull ? 1 : 0))
  return {
    chances: { under: chanceOf("under"), well: chanceOf("well"), over: chanceOf("over") },
    mean,
    sd: Math.sqrt(sumOf((x) => (x - mean) ** 2)),
    hill: progresses.map((progress, i) => ({ progress, density: across[i]! / progressStep })),
  }

  function sumOf(value: (x: number, i: number) => number) {
    return across.reduce((sum, chance, i) => sum + chance * value(progresses[i]!, i), 0)
  }
}

export type Chances = Record<ExplanationKey, number>

/**
 * How likely each explanation is. They overlap: a dough without salt may be over as well. But beside a fault that explains
 * the bread, under- and overproofed count only as far as the evidence makes them likelier than they are with such a fault
 * anyway. A dough that is short because its leaven is weak, missing or held back by salt is not called underproofed too:
 * that would name the symptom.
 */
export function explanationsIn(cells: Float64Array): Chances {
  const chances = Object.fromEntries(Object.keys(explanations).map((key) => [key, 0])) as Chances
  for (const [at, fault] of faults.entries()) {
    const beside = besideFault(cells, at)
    if (!fault) {
      chances.underproofed += beside.under
      chances.overproofed += beside.over
      chances["nothing wrong"] = beside.well
      continue
    }
    const total = beside.under + beside.well + beside.over
    chances[fault] = total
    if (paces[at]!.at > slows) chances.underproofed += total * excess(beside.under / total, anyway[at]!.under)
    chances.overproofed += total * excess(beside.over / total, anyway[at]!.over)
  }
  return chances
}

/** A logarithm of pace; all that is slower slows a dough to speak of. Our own judgement. */
const slows = -0.15

/** How far a chance has come from what it was anyway toward 1. */
const excess = (now: number, before: number) => Math.max(0, (now - before) / (1 - before))

function besideFault(cells: Float64Array, at: number): Record<Pull, number> {
  const chances = { under: 0, well: 0, over: 0 }
  for (const [i, pull] of pullsOfSteps.entries()) chances[pull] += cells[at * progresses.length + i]!
  return chances
}

/** Of each fault, how likely the dough is short or over before anything is told. */
const anyway = faults.map((_, at) => {
  const beside = besideFault(priorChances, at)
  const total = beside.under + beside.well + beside.over
  return { under: beside.under / total, over: beside.over / total }
})
