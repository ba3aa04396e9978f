import type { Scale } from "../dough/formula/weighing.ts"
import { gramsPerOunce } from "../dough/quantity/measures.ts"

/** What kitchen scales show, by the name that stands in the address. */
export const scales: Record<string, Scale> = Object.fromEntries(
  [
    ...[0.01, 0.1, 0.5, 1, 2, 5].map((step): Scale => ({ step, unit: "g" })),
    ...[0.005, 0.05, 0.1, 0.125, 0.25, 0.5, 1].map((step): Scale => ({ step, unit: "oz" })),
  ].map((scale) => [`${scale.step} ${scale.unit}`, scale]),
)

/** What most kitchens have. Our own choice. */
export const usualScale = { g: "1 g", oz: "0.1 oz" }

/** "1 g", "1/8 oz": the step as that scale has it. */
export const scaleName = ({ step, unit }: Scale): string =>
  `${isInFractions({ step, unit }) ? inFractions(step) : step} ${unit}`

/** Grams as that scale shows them: "468.0 g", "1 lb 0.5 oz", "1 lb 3 1/8 oz". They must be whole steps of it. */
export const shownBy = (scale: Scale, g: number): string =>
  told(g, scale, isInFractions(scale) ? inFractions : (value) => value.toFixed(decimalsOf(scale)))

/** A number with the eighths that American scales and cups have: "3 1/8". It must be whole eighths. */
export function inFractions(value: number): string {
  const eighths = Math.round(value * 8)
  const [whole, rest] = [Math.floor(eighths / 8), eighths % 8]
  return [whole || "", fractions[rest]].filter(Boolean).join(" ") || "0"
}
const fractions = ["", "1/8", "1/4", "3/8", "1/2", "5/8", "3/4", "7/8"]
const isInFractions = ({ step, unit }: Scale) => unit === "oz" && (step === 0.125 || step === 0.25)

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
  const oz = g / gramsPerOunce
  const lb = Math.floor(Number(oz.toFixed(6)) / 16)
  const rest = digits(oz - 16 * lb)
  if (rest === digits(16)) return `${lb + 1} lb`
  return lb ? `${lb} lb${rest === digits(0) ? "" : ` ${rest} oz`}` : `${rest} oz`
}
