import type { Range } from "./quantity.ts"

export function cToF(c: number): number {
  return (c * 9) / 5 + 32
}

export function fToC(f: number): number {
  return ((f - 32) * 5) / 9
}

export function showTemperature(c: number, unit: "C" | "F"): string {
  throw new Error(`not built yet: ${c}, ${unit}`)
}

export function showMass(g: number, unit: "g" | "oz"): string {
  throw new Error(`not built yet: ${g}, ${unit}`)
}

export function showRange(range: Range, show: (value: number) => string): string {
  throw new Error(`not built yet: ${show(range.low)}`)
}
