import { type Scale, stepG } from "../dough/formula/weighing.ts"
import type { Kitchen } from "../kitchens/kitchen.ts"
import { scales, usualScale } from "../scaling/scales.ts"

/** The scale of a kitchen in its person's unit, the nearest that there are for one told in grams; the usual where nothing is told. */
export function scaleIn({ scaleStepG }: Kitchen, unit: "g" | "oz"): { scale: Scale; told: boolean } {
  if (!scaleStepG) return { scale: scales[usualScale[unit]]!, told: false }
  if (unit === "g") return { scale: { step: scaleStepG.value, unit }, told: true }
  const off = (one: Scale) => Math.abs(Math.log(stepG(one) / scaleStepG.value))
  const [nearest] = Object.values(scales)
    .filter((one) => one.unit === unit)
    .toSorted((a, b) => off(a) - off(b))
  return { scale: nearest!, told: true }
}
