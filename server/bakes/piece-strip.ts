import type { Range } from "../dough/amounts.ts"

/** x from 0 at the left to 360, y downward from the top; both in units of the drawing. */
export type PieceStrip = {
  height: number
  groundY: number
  radius: number
  marks: { x: number; y: number; outside: boolean }[]
  lowestX: number
  highestX: number
  /** What the formula asks for, and what it allows. */
  asked?: Bar
  allowed?: Bar
}
type Bar = { x: number; width: number }

const stripWidth = 360
const margin = 14
const mark = 11
const lowest = 3 * mark
const tallest = 12 * mark
const labels = 20

/**
 * Pieces as marks over an axis of mass, one above the other where they would touch; those that would grow too high are
 * drawn smaller and closer. `outside` are the places in the list of those beyond what was allowed.
 */
export function drawPieces(
  massesG: number[],
  outside: number[],
  asked: { eachG?: Range; allowedG?: Range } = {},
): PieceStrip {
  const { eachG, allowedG } = asked
  const x = scaleFor([...massesG, ...ends(eachG), ...ends(allowedG)])
  const bar = (range: Range | undefined) => range && { x: x(range.low), width: x(range.high) - x(range.low) }
  const levels = stack(massesG.map(x))
  const count = Math.max(...levels) + 1
  const step = Math.min(mark, tallest / count)
  const groundY = Math.max(lowest, count * step + mark / 2)
  return {
    height: groundY + labels,
    groundY,
    radius: Math.max(1.5, 0.42 * step),
    marks: massesG.map((g, at) => ({
      x: x(g),
      y: groundY - step * (levels[at]! + 0.5),
      outside: outside.includes(at),
    })),
    lowestX: x(Math.min(...massesG)),
    highestX: x(Math.max(...massesG)),
    asked: bar(eachG),
    allowed: bar(allowedG),
  }
}

const ends = (range: Range | undefined) => (range ? [range.low, range.high] : [])

/** All of the masses between the margins; at least a twentieth of a mass from end to end, so that equal ones look equal. */
function scaleFor(massesG: number[]) {
  const [low, high] = [Math.min(...massesG), Math.max(...massesG)]
  const middle = (low + high) / 2
  const across = Math.max(high - low, middle / 20)
  return (g: number) => stripWidth / 2 + ((g - middle) / across) * (stripWidth - 2 * margin)
}

/** For each x the lowest level on which it touches none to its left. */
function stack(xs: number[]): number[] {
  const lastOn: number[] = []
  const levels: number[] = []
  for (const at of [...xs.keys()].sort((a, b) => xs[a]! - xs[b]!)) {
    const free = lastOn.findIndex((last) => xs[at]! - last >= mark)
    levels[at] = free === -1 ? lastOn.length : free
    lastOn[levels[at]] = xs[at]!
  }
  return levels
}
