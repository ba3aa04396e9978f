import type { Share } from "../amounts.ts"
import { type Dilution, dilutionFor, type Scale, stepG, weigh } from "../formula/weighing.ts"
import type { Ingredient } from "../ingredients/ingredient.ts"
import { millilitresOf } from "../quantity/measures.ts"
import type { Measures } from "../quantity/reading.ts"

/** Ten times as much weighed, and a tenth of it taken by eye. */
export type Tenth = { weighG: number; errorShare: Share }
/** So many level spoons, which hold about `g`. */
export type Spoon = { count: string; unit: "tsp" | "tbsp"; g: number; errorShare: Share }

/** What to do where a scale is too coarse for an amount; each `errorShare` is how far off the result may be. */
export type WaysOut = { dissolve?: Dilution; tenth?: Tenth; spoon?: Spoon }

/** A small amount of something. `waterG` is the water at hand to stir it into, 0 for what cannot be stirred in. */
export type Small = { g: number; waterG: number; ingredient?: Pick<Ingredient, "portions">; measures?: Measures }

// Twice as sure is worth another bowl. Our own choice.
const worthIt = 0.5
// Ten heaps made by eye are not alike. Our own judgement, no published source.
const byEye = 0.15
// A level spoon of the same thing is not always as heavy. Our own judgement, no published source.
const levelSpoon = 0.15
// Further off, a spoon is no help. Our own limit.
const mostBySpoon = 0.4

/**
 * Ways to a small amount other than weighing it outright. Dissolving or, where that does not pay, taking a tenth are
 * offered where they are twice as sure; a spoon, less exact, where a published weight tells what it holds. Throws RangeError for an amount that is not above 0.
 */
export function waysOut(small: Small, scale: Scale): WaysOut {
  const { g, waterG } = small
  const { errorShare, unsure } = weigh(g, scale)
  const outright = Math.abs(errorShare) + unsure
  const pays = <Way extends { errorShare: Share }>(way: Way | undefined) =>
    way && way.errorShare <= worthIt * outright ? way : undefined
  const dissolve = pays(waterG > 0 ? dilutionFor(g, scale, waterG) : undefined)
  const tenth = dissolve ? undefined : pays(tenthOf(g, scale))
  const spoon = spoonFor(small)
  return { ...(dissolve && { dissolve }), ...(tenth && { tenth }), ...(spoon && { spoon }) }
}

function tenthOf(g: number, scale: Scale): Tenth | undefined {
  const weighed = weigh(10 * g, scale)
  if (weighed.g === 0) return undefined
  const unsure = stepG(scale) / 2 / weighed.g
  return { weighG: weighed.g, errorShare: Math.abs(weighed.errorShare) + unsure + byEye }
}

const spoons: [number, string][] = [
  [0.125, "1/8"],
  [0.25, "1/4"],
  [0.5, "1/2"],
  [0.75, "3/4"],
  [1, "1"],
  [1.25, "1 1/4"],
  [1.5, "1 1/2"],
  [1.75, "1 3/4"],
  [2, "2"],
  [2.25, "2 1/4"],
  [2.5, "2 1/2"],
  [3, "3"],
]

function spoonFor({ g, ingredient, measures = "us" }: Small): Spoon | undefined {
  const candidates = (["tsp", "tbsp"] as const).flatMap((unit) => {
    const one = spoonG(unit, ingredient, measures)
    return one === undefined
      ? []
      : spoons.map(([share, count]) => ({ count, unit, g: share * one, errorShare: off(share * one, g) }))
  })
  const nearest = candidates.toSorted((a, b) => a.errorShare - b.errorShare)[0]
  return nearest && nearest.errorShare <= mostBySpoon ? nearest : undefined
}

const off = (gotG: number, g: number) => Math.abs(gotG - g) / g + levelSpoon

/** What a level one of that person's spoons holds; the catalogue's are US ones. */
function spoonG(unit: "tsp" | "tbsp", ingredient: Small["ingredient"], measures: Measures): number | undefined {
  const portion = ingredient?.portions.find((one) => one.unit === unit)
  const [us, theirs] = [millilitresOf(unit, "us"), millilitresOf(unit, measures)]
  return portion && us && theirs ? portion.g * theirs.div(us).valueOf() : undefined
}
