import type { XY } from "./ribbon.ts"

/** Points as the path of a drawing, to what an eye can tell apart: none twice, none on the way between two others. */
export function points(all: XY[], xDigits = 0): string {
  const rounded = all.map(([x, y]): XY => [Number(x.toFixed(xDigits)), Number(y.toFixed(1))])
  const kept: XY[] = []
  let passed: XY[] = []
  for (const [index, point] of rounded.entries()) {
    const [before, next] = [kept.at(-1), rounded[index + 1]]
    passed.push(point)
    if (before && next && passed.every((one) => strayFrom(one, before, next) <= leastStray)) continue
    kept.push(point)
    passed = []
  }
  return kept.map(([x, y]) => `${x},${y}`).join(" ")
}
// In units of the drawing, which are about a pixel.
const leastStray = 0.3

/** How far a point lies above or below the straight line between two others; one that turns back or goes straight up is a corner. */
function strayFrom([x, y]: XY, [fromX, fromY]: XY, [toX, toY]: XY) {
  if (x === fromX && y === fromY) return 0
  if (toX <= fromX || x <= fromX || x >= toX) return Number.POSITIVE_INFINITY
  return Math.abs(y - (fromY + ((toY - fromY) * (x - fromX)) / (toX - fromX)))
}

/** Dots as one path: each a line of no length, which round ends make a disc of and square ones a square. */
export const dots = (all: { x: number; y: number }[]) =>
  all.map(({ x, y }) => `M${Math.round(x)} ${Number(y.toFixed(1))}h0`).join("")

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
