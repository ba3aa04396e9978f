import { saltGate } from "../fermentation/gates.ts"
import { type FaultKey, faultKeys } from "./explanations.ts"
import type { Pull } from "./verdict.ts"

/**
 * What could be true of a bake, cell by cell: how far its dough had come when it met the oven, as the natural logarithm of
 * fermentation over what was intended, and at most one fault beside it.
 */
export const faults: (FaultKey | undefined)[] = [undefined, ...faultKeys]

/**
 * Log progress from −1.6 to 1.6, a fifth of what was intended to five times as much, in steps whose middles stand for them;
 * the well-proofed band begins and ends between two.
 */
export const progressStep = 0.05
/** The middles of those steps. */
export const progresses = Array.from({ length: 64 }, (_, at) => (at - 31.5) * progressStep)
export const cellCount = faults.length * progresses.length

/** Log progress within ± this is well proofed: about 18 % short to 22 % long. Our own judgement, no published source. */
export const wellBand = 0.2

/** On which side of the well-proofed band each step lies, or in it. */
export const pullsOfSteps = progresses.map((x): Pull => (x < -wellBand ? "under" : x > wellBand ? "over" : "well"))

/**
 * How much faster a dough works with this fault, as a logarithm, with how far that differs from dough to dough. Salt by the
 * straight line of `saltGate`, from the usual 2 % to none and to 4 %, the two that bakers told. A weak levain works at
 * some 60 %, a leaven that is missing or nearly so at a fifth and less: our own judgement, as are the widths.
 */
function paceOf(fault: FaultKey | undefined): { at: number; sd: number } {
  switch (fault) {
    case "salt short":
      return { at: Math.log(saltGate("yeast", 0) / saltGate("yeast", usualSalt)), sd: 0.1 }
    case "salt too much":
      return { at: Math.log(saltGate("yeast", 2 * usualSalt) / saltGate("yeast", usualSalt)), sd: 0.1 }
    case "levain weak":
      return { at: -0.5, sd: 0.25 }
    case "yeast missing":
      return { at: -1.5, sd: 0.4 }
    default:
      return { at: 0, sd: 0 }
  }
}
const usualSalt = 0.02
export const paces = faults.map(paceOf)

/**
 * Before anything is told. A fault beside fermentation: in 18 of 57 bakes that bakers told in public, each kind as likely
 * as another, but for weak levains, of which there are more: levains differ by some 30 %, see fermentation/activity.ts. Both
 * are our own judgement. Progress scatters by `spread` around what was intended, times the dough's own pace, as most go by
 * the clock; less where a fault already explains the bread, as two causes at once are rarer. The spreads are our own
 * judgement: one bake in three within the well-proofed band, a third on either side.
 */
const prior = { fault: 18 / 57, spread: 0.5, spreadBesideFault: 0.4, weakLevains: 4 }

const shareOf = (fault: FaultKey) =>
  (fault === "levain weak" ? prior.weakLevains : 1) / (faultKeys.length - 1 + prior.weakLevains)

/** Logarithm of each cell's chance before anything is told, but for a constant. */
export const logPrior = priorLogs()

function priorLogs() {
  const logs = perCell((x, fault, at) => {
    const pace = paces[at]!
    const spread = Math.hypot(fault ? prior.spreadBesideFault : prior.spread, pace.sd)
    return -0.5 * ((x - pace.at) / spread) ** 2
  })
  // each fault has its share, however much of its bell lies on the line
  for (const [at, fault] of faults.entries()) {
    const row = logs.subarray(at * progresses.length, (at + 1) * progresses.length)
    const total = row.reduce((sum, one) => sum + Math.exp(one), 0)
    const chance = fault ? prior.fault * shareOf(fault) : 1 - prior.fault
    for (let i = 0; i < row.length; i++) row[i]! += Math.log(chance / total)
  }
  return logs
}

/** A number for every cell, fault by fault. `at` is the fault's place in `faults`. */
export function perCell(valueAt: (x: number, fault: FaultKey | undefined, at: number) => number): Float64Array {
  const cells = new Float64Array(cellCount)
  let cell = 0
  for (const [at, fault] of faults.entries()) for (const x of progresses) cells[cell++] = valueAt(x, fault, at)
  return cells
}

/** Chances of all cells from what their logarithms add up to; they sum to 1. */
export function normalised(logs: Float64Array): Float64Array {
  let most = Number.NEGATIVE_INFINITY
  for (const one of logs) if (one > most) most = one
  const chances = new Float64Array(logs.length)
  let total = 0
  for (let cell = 0; cell < logs.length; cell++) {
    // e^−40 of the likeliest is nothing, and exp is what takes the time
    const below = logs[cell]! - most
    if (below > -40) total += chances[cell] = Math.exp(below)
  }
  for (let cell = 0; cell < chances.length; cell++) chances[cell]! /= total
  return chances
}

export const priorChances = normalised(logPrior)
