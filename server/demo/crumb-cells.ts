import type { Chance } from "./chance.ts"
import type { Point } from "./picture.ts"

/** One cell of the crumb: its rim in picture pixels, and how deep it looks, from 0 to 1. */
export type Cell = { rim: Point[]; depth: number }

// What the trade sees in a cut loaf (common practice, no published source for the numbers): a tight crumb with thick
// walls and a few caverns; an even, fine to medium one; a coarse one pressed together at the base. About 9 px are 1 mm.
const crumbs = {
  under: { radiusPx: 3.1, spread: 0.42, maxPx: 11, wallPx: 3, voidShare: 0.22, caverns: 6 },
  well: { radiusPx: 4.3, spread: 0.5, maxPx: 17, wallPx: 0.9, voidShare: 0.46, caverns: 0 },
  over: { radiusPx: 6.2, spread: 0.62, maxPx: 36, wallPx: 1.2, voidShare: 0.52, caverns: 0 },
}

/** Fills a slice with cells that do not touch, largest first, until the share of void or of patience is reached. */
export function packCells(slice: readonly Point[], proof: keyof typeof crumbs, dice: Chance): Cell[] {
  const crumb = crumbs[proof]
  const box = bounds(slice)
  const radii: number[] = []
  for (let area = 0; area < crumb.voidShare * box.area * 0.93; ) {
    const radius = Math.min(crumb.maxPx, crumb.radiusPx * Math.exp(crumb.spread * dice.normal()))
    radii.push(Math.max(1.9, radius))
    area += Math.PI * radii.at(-1)! ** 2
  }
  radii.sort((a, b) => b - a)

  const depthAt = depthMap(slice, box)
  const taken = new Map<number, Round[]>()
  const cells = shallows(crumb.radiusPx, box, depthAt, dice)
  const place = (round: Round, stretch: number, tilt: number, jagged: number) => {
    for (const bucket of buckets(round, crumb.wallPx)) taken.set(bucket, [...(taken.get(bucket) ?? []), round])
    cells.push({ rim: rim(round, stretch, tilt, jagged, dice), depth: Math.min(1, 0.12 + round.radius / 26) })
  }

  for (let i = 0; i < crumb.caverns; i++) {
    const round = cavern(i, box, dice)
    if (depthAt(round) > round.radius * 0.8 && free(round, taken, 14)) {
      place(round, dice.between(1.3, 2.1), dice.normal() * 0.25, 0.26)
    }
  }
  for (const radius of radii) {
    for (let tries = 0; tries < 20; tries++) {
      const spot = { x: dice.between(box.left, box.right), y: dice.between(box.top, box.bottom) }
      const nearBase = (spot.y - box.top) / (box.bottom - box.top)
      const pressed = proof === "over" && nearBase > dice.between(0.8, 0.9)
      const round = { ...spot, radius: pressed ? Math.min(radius, 7) * 0.6 : radius }
      const inside = depthAt(round)
      if (inside < round.radius * 0.9 || (round.radius > 9 && inside < 30)) continue
      if (!free(round, taken, crumb.wallPx)) continue
      const stretch = pressed ? dice.between(2, 3.2) : 1 + Math.min(1.2, Math.abs(dice.normal()) * 0.6)
      place(round, stretch, pressed ? dice.normal() * 0.12 : flow(spot, box, dice), 0.17)
      break
    }
  }
  return cells
}

/** Small faint hollows everywhere, under the cells proper: the ones a picture cannot quite resolve. */
function shallows(radiusPx: number, box: Box, depthAt: (spot: Point) => number, dice: Chance): Cell[] {
  const cells: Cell[] = []
  for (let i = 0; i < box.area / (radiusPx * 55); i++) {
    const spot = { x: dice.between(box.left, box.right), y: dice.between(box.top, box.bottom) }
    const round = { ...spot, radius: radiusPx * dice.between(0.5, 1.5) }
    if (depthAt(spot) < 6) continue
    cells.push({ rim: rim(round, dice.between(1, 2.2), flow(spot, box, dice), 0.15, dice), depth: 0 })
  }
  return cells
}

type Round = Point & { radius: number }

/** Caverns lie low, or just under the upper crust. */
function cavern(i: number, box: Box, dice: Chance): Round {
  const radius = dice.between(24, 52)
  const high = i % 3 === 2
  const y = high ? box.top + radius + dice.between(4, 30) : box.bottom - radius - dice.between(10, 150)
  return { x: dice.between(box.left + 80, box.right - 80), y, radius }
}

/** Cells lie along the way the dough moved: upright at the walls, flat in the middle. */
function flow(spot: Point, box: Box, dice: Chance) {
  const side = Math.abs(spot.x - 800) / ((box.right - box.left) / 2)
  return Math.sign(spot.x - 800) * side ** 2 * 1.3 + dice.normal() * 0.5
}

function rim({ x, y, radius }: Round, stretch: number, tilt: number, jagged: number, dice: Chance): Point[] {
  const corners = radius > 7 ? 11 : 8
  const [long, short] = [radius * Math.sqrt(stretch), radius / Math.sqrt(stretch)]
  return Array.from({ length: corners }, (_, i) => {
    const angle = ((i + dice.between(-0.3, 0.3)) / corners) * 2 * Math.PI
    const reach = 1.08 + dice.normal() * jagged
    const [u, v] = [Math.cos(angle) * long * reach, Math.sin(angle) * short * reach]
    return { x: x + u * Math.cos(tilt) - v * Math.sin(tilt), y: y + u * Math.sin(tilt) + v * Math.cos(tilt) }
  })
}

// A coarse grid keeps the search for neighbours short.
const gridPx = 40
function buckets({ x, y, radius }: Round, wallPx: number) {
  const found: number[] = []
  const reach = radius + wallPx
  for (let row = Math.floor((y - reach) / gridPx); row <= Math.floor((y + reach) / gridPx); row++) {
    for (let column = Math.floor((x - reach) / gridPx); column <= Math.floor((x + reach) / gridPx); column++) {
      found.push(row * 1000 + column)
    }
  }
  return found
}
const free = (round: Round, taken: Map<number, Round[]>, wallPx: number) =>
  buckets(round, wallPx).every((bucket) =>
    (taken.get(bucket) ?? []).every(
      (other) => (other.x - round.x) ** 2 + (other.y - round.y) ** 2 > (other.radius + round.radius + wallPx) ** 2,
    ),
  )

function bounds(ring: readonly Point[]) {
  const [xs, ys] = [ring.map((p) => p.x), ring.map((p) => p.y)]
  const [left, right, top, bottom] = [Math.min(...xs), Math.max(...xs), Math.min(...ys), Math.max(...ys)]
  return { left, right, top, bottom, area: (right - left) * (bottom - top) }
}

type Box = ReturnType<typeof bounds>

/** `depthInside`, looked up on a grid: asked for each of some fifty thousand tries, it would take most of the time. */
function depthMap(ring: readonly Point[], { left, right, top, bottom }: Box) {
  const stepPx = 6
  const columns = Math.ceil((right - left) / stepPx) + 1
  const rows = Math.ceil((bottom - top) / stepPx) + 1
  const depths = Array.from({ length: columns * rows }, (_, i) =>
    depthInside({ x: left + (i % columns) * stepPx, y: top + Math.floor(i / columns) * stepPx }, ring),
  )
  return ({ x, y }: Point) =>
    depths[Math.round((y - top) / stepPx) * columns + Math.round((x - left) / stepPx)] ?? Number.NEGATIVE_INFINITY
}

/** How far a spot lies from the ring's edge; negative outside. */
function depthInside({ x, y }: Point, ring: readonly Point[]) {
  let inside = false
  let nearestSquared = Number.POSITIVE_INFINITY
  for (let i = 0, a = ring.at(-1)!; i < ring.length; a = ring[i++]!) {
    const b = ring[i]!
    if (a.y > y !== b.y > y && x < a.x + ((y - a.y) / (b.y - a.y)) * (b.x - a.x)) inside = !inside
    const [dx, dy] = [b.x - a.x, b.y - a.y]
    const along = Math.max(0, Math.min(1, ((x - a.x) * dx + (y - a.y) * dy) / (dx * dx + dy * dy || 1)))
    nearestSquared = Math.min(nearestSquared, (a.x + along * dx - x) ** 2 + (a.y + along * dy - y) ** 2)
  }
  return inside ? Math.sqrt(nearestSquared) : -Math.sqrt(nearestSquared)
}
