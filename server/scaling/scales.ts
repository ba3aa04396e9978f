import type { Scale } from "../dough/formula/weighing.ts"
import { gramsPerOunce } from "../dough/quantity/measures.ts"

/** What kitchen scales show, by the name that stands in the address. */
export const scales: Record<string, Scale> = Object.fromEntries(
  [
    ...[0.01, 0.1, 0.5, 1, 2, 5].map((step): Scale => ({ step, unit: "g" })),
    ...[0.005, 0.05, 0.1, 0.5, 1].map((step): Scale => ({ step, unit: "oz" })),
  ].map((scale) => [`${scale.step} ${scale.unit}`, scale]),
)

/** What most kitchens have. Our own choice. */
export const usualScale = { g: "1 g", oz: "0.1 oz" }

/** Grams as that scale shows them: "468.0 g", "1 lb 0.5 oz". They must be whole steps of it. */
export const shownBy = (scale: Scale, g: number): string => told(g, scale, (value) => value.toFixed(decimalsOf(scale)))

/** Grams finely enough to see half a step of the scale; as masses are told where that would leave them one digit. */
export function exactlyFor(scale: Scale, unit: "g" | "oz", mass: (g: number) => string): (g: number) => string {
  if (scale.unit !== unit) return mass
  const decimals = Math.max(0, -Math.floor(Math.log10(scale.step / 2)))
  const finely = (value: number) => String(Number(value.toFixed(decimals)))
  return (g) => (g / gramsOf[unit] < 10 ** (1 - decimals) ? mass(g) : told(g, scale, finely))
}

const gramsOf = { g: 1, oz: gramsPerOunce }
const decimalsOf = ({ step }: Scale) => String(step).split(".")[1]?.length ?? 0

/** In the scale's unit, with pounds from one up; `digits` rounds and writes a number. */
function told(g: number, { unit }: Scale, digits: (value: number) => string) {
  if (unit === "g") return `${digits(g)} g`
  const oz = Number(digits(g / gramsPerOunce))
  const lb = Math.floor(oz / 16)
  const rest = digits(oz - 16 * lb)
  return lb ? `${lb} lb${Number(rest) ? ` ${rest} oz` : ""}` : `${rest} oz`
}
