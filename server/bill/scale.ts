import type { Scale } from "../dough/formula/weighing.ts"
import { stepG } from "../dough/formula/weighing.ts"
import type { Kitchen } from "../kitchens/kitchen.ts"
import { scales } from "../scaling/scales.ts"

/** Grams are shown one by one by most kitchen scales, ounces in eighths. Our own choice. */
const usual = { g: "1 g", oz: "0.125 oz" }

/** The name of the finest scale there is in somebody's unit that is no finer than their own. */
export function ownScale({ scaleStepG }: Kitchen, unit: "g" | "oz"): string {
  if (!scaleStepG) return usual[unit]
  const inUnit = Object.entries(scales).filter(([, scale]) => scale.unit === unit)
  const asCoarse = inUnit.filter(([, scale]) => stepG(scale) >= scaleStepG.value * 0.99)
  return (asCoarse[0] ?? inUnit.at(-1))?.[0] ?? usual[unit]
}

/** The scale of that name, if there is one. */
export const scaleNamed = (name: string): Scale | undefined => (Object.hasOwn(scales, name) ? scales[name] : undefined)
