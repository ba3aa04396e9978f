import type { Share } from "../amounts.ts"
import { gramsPerOunce } from "../quantity/measures.ts"
import { positive } from "./positive.ts"

/** What a scale shows: every `step` grams or ounces. */
export type Scale = { step: number; unit: "g" | "oz" }

/** One step in grams. Throws RangeError for a step that is not above 0. */
export const stepG = ({ step, unit }: Scale): number => positive(step, "a step") * (unit === "oz" ? gramsPerOunce : 1)

/**
 * An amount as a scale shows it: `g` is a whole number of steps, `errorG` and `errorShare` what that adds to what was
 * wanted, the second as a share of it. `unsure` is how far off it may be anyway, half a step, as a share; where that is
 * too much to bear the scale is `tooCoarse`.
 */
export type Weighed = { g: number; errorG: number; errorShare: Share; unsure: Share; tooCoarse: boolean }

// A tenth more or less yeast or salt is noticed. Our own limit, no published source.
const mostUnsure = 0.1

/** Rounds to what the scale can show, half upwards. Throws RangeError for an amount that is not above 0. */
export function weigh(wantedG: number, scale: Scale): Weighed {
  const g = toSteps(positive(wantedG), scale)
  const errorG = g - wantedG
  const unsure = stepG(scale) / 2 / wantedG
  return { g, errorG, errorShare: errorG / wantedG, unsure, tooCoarse: unsure > mostUnsure }
}

/** The whole steps that a scale shows of an amount, g; nothing of nothing. Throws RangeError for one below 0. */
export const onScale = (g: number, scale: Scale): number => (g === 0 ? 0 : weigh(g, scale).g)

/** Twelve digits first, so that binary noise decides no step. */
function toSteps(g: number, scale: Scale) {
  return Math.round(Number((g / stepG(scale)).toPrecision(12))) * stepG(scale)
}

/**
 * A small amount by way of a bigger one: stir `stirG` of it into `waterG` of the dough's water and use `useG` of that, in
 * which there are then `waterInItG` of water and `gotG` of what was wanted. `errorShare` is how far off that may be: the
 * rounding, and half a step at each of the three weighings, all in the same direction.
 */
export type Dilution = {
  stirG: number
  waterG: number
  useG: number
  gotG: number
  waterInItG: number
  errorShare: Share
}

// In steps of the scale: round totals, and no more stirred in than needed. Our own choice.
const totals = [50, 100, 200, 500, 1000]
const stirred = [2, 3, 4, 5, 6, 8, 10]
// Nearer than this is not worth throwing more away. Our own limit.
const goodEnough = 0.2

/**
 * A dilution that this scale can weigh with at most `waterG` of water: the one that wastes least among those that are off
 * by a fifth or less, else the surest. undefined when none is surer than weighing it outright. For what dissolves or can
 * be stirred in, such as yeast, salt or malt. Throws RangeError for an amount that is not above 0.
 */
export function dilutionFor(wantedG: number, scale: Scale, waterG: number): Dilution | undefined {
  const { errorShare, unsure } = weigh(wantedG, scale)
  const possible = stirred
    .flatMap((stir) => totals.map((total) => diluted(wantedG, stir, total, scale)))
    .filter((one) => one.useG > 0 && one.useG <= one.stirG + one.waterG && one.waterG <= waterG)
    .filter((one) => one.errorShare < Math.abs(errorShare) + unsure)
  const good = possible.filter((one) => one.errorShare <= goodEnough)
  const wastes = ({ stirG, waterG }: Dilution) => stirG * 1000 + waterG
  if (good.length) return good.toSorted((a, b) => wastes(a) - wastes(b))[0]
  return possible.toSorted((a, b) => a.errorShare - b.errorShare)[0]
}

function diluted(wantedG: number, stirSteps: number, totalSteps: number, scale: Scale): Dilution {
  const one = stepG(scale)
  const [stirG, totalG] = [stirSteps * one, totalSteps * one]
  const useG = toSteps((wantedG * totalG) / stirG, scale)
  const gotG = (useG * stirG) / totalG
  const weighings = one / 2 / stirG + one / 2 / totalG + one / 2 / useG
  return {
    ...{ stirG, useG, gotG },
    waterG: totalG - stirG,
    waterInItG: useG - gotG,
    errorShare: Math.abs(gotG - wantedG) / wantedG + weighings,
  }
}
