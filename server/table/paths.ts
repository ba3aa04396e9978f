import type { XY } from "./ribbon.ts"

/** Points as the path of a drawing, to what an eye can tell apart. */
export const points = (all: XY[]) => all.map(([x, y]) => `${Math.round(x)},${tenths(y)}`).join(" ")
/** Dots as one path: each a line of no length, which round ends make a disc of and square ones a square. */
export const dots = (all: { x: number; y: number }[]) =>
  all.map(({ x, y }) => `M${Math.round(x)} ${tenths(y)}h0`).join("")
const tenths = (value: number) => Number(value.toFixed(1))

/** Dots far enough apart to be told from each other, the last of all among them; the numbers below a drawing have every one. */
export function thinned<Dot extends { x: number }>(all: Dot[]): Dot[] {
  const kept: Dot[] = []
  for (const dot of all) if (!kept.length || dot.x - kept.at(-1)!.x >= apart) kept.push(dot)
  const last = all.at(-1)
  if (!last || last === kept.at(-1)) return kept
  return [...(kept.length > 1 ? kept.slice(0, -1) : kept), last]
}
// Of the thousand that a strip is wide.
const apart = 14
