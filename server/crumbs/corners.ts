import type { PointInPhoto } from "../schema.ts"

/** Which share of the picture a polygon covers. */
export function sizeOf(corners: readonly PointInPhoto[]) {
  let twice = 0
  for (const [i, a] of corners.entries()) {
    const b = corners[(i + 1) % corners.length]!
    twice += a.x * b.y - b.x * a.y
  }
  return Math.abs(twice) / 2
}

/** Whether any two edges of a polygon meet other than at a shared corner. */
export function crosses(corners: readonly PointInPhoto[]) {
  const edges = corners.map((a, i) => [a, corners[(i + 1) % corners.length]!] as const)
  return edges.some((one, i) =>
    edges.some((other, j) => j > i + 1 && !(i === 0 && j === edges.length - 1) && meet(one, other)),
  )
}

type Edge = readonly [PointInPhoto, PointInPhoto]
function meet([a, b]: Edge, [c, d]: Edge) {
  const side = (from: PointInPhoto, to: PointInPhoto, of: PointInPhoto) =>
    Math.sign((to.x - from.x) * (of.y - from.y) - (to.y - from.y) * (of.x - from.x))
  return side(a, b, c) !== side(a, b, d) && side(c, d, a) !== side(c, d, b)
}

/** Whether a place lies within a polygon. */
export function isInside({ x, y }: PointInPhoto, corners: readonly PointInPhoto[]) {
  let inside = false
  for (const [i, a] of corners.entries()) {
    const b = corners[(i + 1) % corners.length]!
    if (a.y > y !== b.y > y && x < a.x + ((y - a.y) / (b.y - a.y)) * (b.x - a.x)) inside = !inside
  }
  return inside
}

/** The area to start with where nothing was measured yet: the middle of the picture. */
export const middle: PointInPhoto[] = [
  { x: 0.2, y: 0.2 },
  { x: 0.8, y: 0.2 },
  { x: 0.8, y: 0.8 },
  { x: 0.2, y: 0.8 },
]
