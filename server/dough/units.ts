import type { Range } from "./amounts.ts"
import { gramsPerOunce } from "./quantity/measures.ts"

/** °C to °F. The scales are exact by definition: NIST SP 811, Appendix B.8. */
export function cToF(c: number): number {
  return (c * 9) / 5 + 32
}

/** °F to °C, see cToF. */
export function fToC(f: number): number {
  return ((f - 32) * 5) / 9
}

/** "24.5 °C", "75 °F": to a tenth of a degree, as kitchen thermometers read, without a trailing zero. */
export function showTemperature(c: number, unit: "C" | "F"): string {
  return `${rounded(unit === "C" ? c : cToF(c), 1)} °${unit}`
}

/**
 * "468 g", "27.4 g", "0.3 g"; or "8.5 oz", "1 lb 0.5 oz". Grams are whole from 100 g up and to a tenth below; ounces to
 * a tenth; under 1 g or 1 oz two digits count, because a pinch of yeast is a real amount.
 */
export function showMass(g: number, unit: "g" | "oz"): string {
  if (unit === "g") return `${small(g) ?? rounded(g, g < 100 ? 1 : 0)} g`
  const oz = g / gramsPerOunce
  const tenths = nearest(oz * 10, 0)
  if (tenths < 160 || !Number.isFinite(tenths)) return `${small(oz) ?? rounded(oz, 1)} oz`
  const rest = (tenths % 160) / 10
  return `${Math.floor(tenths / 160)} lb${rest ? ` ${rest} oz` : ""}`
}

/** "350 ml", "1.9 l": whole millilitres below a litre, tenths of a litre from there. */
export function showVolume(ml: number): string {
  return nearest(ml, 0) < 1000 ? `${rounded(ml, 0)} ml` : `${rounded(ml / 1000, 1)} l`
}

/** "68.4 %", "1.97 %": a share as a percentage, to a hundredth below 10 %, where salt and yeast are, else to a tenth. */
export function showShare(share: number): string {
  return `${rounded(share * 100, Math.abs(share) < 0.1 ? 2 : 1)} %`
}

/** "60–90 g", or a single "60 g" when both ends look the same. `show` is one of the functions above, bound to its unit. */
export function showRange(range: Range, show: (value: number) => string): string {
  const low = show(range.low)
  const high = show(range.high)
  if (low === high) return low
  const [lowNumber, lowUnit] = split(low)
  const [, highUnit] = split(high)
  if (lowNumber.startsWith("−")) return `${low} to ${high}`
  return lowUnit === highUnit && !/\d/.test(lowUnit) ? `${lowNumber}–${high}` : `${low} – ${high}`
}

function split(shown: string): [string, string] {
  const space = shown.indexOf(" ")
  return [shown.slice(0, space), shown.slice(space + 1)]
}

/** Fixed decimals without trailing zeros, and with a true minus sign. */
function rounded(value: number, decimals: number) {
  if (!Number.isFinite(value)) throw new RangeError(`cannot show ${value}`)
  return String(nearest(value, decimals) + 0).replace("-", "−")
}

function small(value: number) {
  return value > 0 && value < 1 ? rounded(value, 1 - Math.floor(Math.log10(value))) : undefined
}

/**
 * Half goes away from zero. Twelve digits first, so that the noise of binary sums decides no digit that is shown: 1.005,
 * kept as 1.00499…, is shown as 1.01.
 */
function nearest(value: number, decimals: number) {
  const shifted = Math.abs(value) * 10 ** decimals
  return (Math.sign(value) * Math.round(Number(shifted.toPrecision(12)))) / 10 ** decimals
}
