import { type ExplanationKey, explanations } from "./explanations.ts"
import { cellCount, faults, paces, progresses, progressStep, pullsOfSteps } from "./hypotheses.ts"
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
 * How likely each explanation is. They overlap, as a dough without salt may be over as well. Only a dough that is short
 * because its leaven is weak, missing or held back by salt is not called underproofed too: that would name the symptom.
 */
export function explanationsIn(cells: Float64Array): Chances {
  const chances = Object.fromEntries(Object.keys(explanations).map((key) => [key, 0])) as Chances
  let cell = 0
  for (const [at, fault] of faults.entries())
    for (const pull of pullsOfSteps) {
      const chance = cells[cell++]!
      if (fault) chances[fault] += chance
      if (pull === "over") chances.overproofed += chance
      if (pull === "under" && paces[at]!.at > slows) chances.underproofed += chance
      if (pull === "well" && !fault) chances["nothing wrong"] += chance
    }
  return chances
}
const slows = -0.15
