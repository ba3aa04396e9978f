/** The middle of a circle, from the middle of what it lies in. */
export type Spot = { x: number; y: number }

// Circles may touch: binary noise must not part those that do.
const hair = 1e-9
const times = (length: number, one: number) => Math.floor(length / one + hair)

/**
 * Ways to lay circles 1 across in rows along the width of a rectangle: straight, or every other row shifted. Lengths are
 * in the circles' own diameter.
 */
export function stackedRows(length: number, width: number): Spot[][] {
  const most = times(width, 1)
  if (most < 1 || times(length, 1) < 1) return []
  const layouts = [rows(length, width, { inRow: [most, most], apart: 1, shift: 0, rowsApart: 1 })]
  for (const inRow of [most, most - 1].filter((count) => count > 0)) {
    // as many in every row, drawn apart until the rows fill the width; or, as they touch, shifted by what is left of it
    const apart = Math.max((width - 1) / (inRow - 1 / 2), inRow > 1 ? 1 : 0)
    layouts.push(staggered(length, width, [inRow, inRow], apart, width - 1 - (inRow - 1) * apart))
    const apartIfLess = (width - 1) / (inRow - 1)
    if (inRow > 1) layouts.push(staggered(length, width, [inRow, inRow - 1], apartIfLess, apartIfLess / 2))
  }
  return layouts
}

type Rows = { inRow: [number, number]; apart: number; shift: number; rowsApart: number }

function staggered(length: number, width: number, inRow: [number, number], apart: number, shift: number): Spot[] {
  const nearest = inRow[0] > 1 ? Math.min(shift, apart - shift) : shift
  // far enough from the row before, and from the one before that, which lies straight behind
  const rowsApart = Math.max(Math.sqrt(Math.max(0, 1 - nearest ** 2)), 1 / 2)
  return rows(length, width, { inRow, apart, shift, rowsApart })
}

function rows(length: number, width: number, { inRow, apart, shift, rowsApart }: Rows): Spot[] {
  const count = 1 + times(length - 1, rowsApart)
  return Array.from({ length: count }, (_, row) => {
    const x = -length / 2 + 1 / 2 + row * rowsApart
    const start = -width / 2 + 1 / 2 + (row % 2 ? shift : 0)
    return Array.from({ length: inRow[row % 2 ? 1 : 0] }, (_, at) => ({ x, y: start + at * apart }))
  }).flat()
}

/** Hexagonal and square lattices of circles 1 across, cut out by a circle of this radius around several middles. */
export function lattices(radius: number): Spot[][] {
  const hexagonal = { x: 1 / 2, y: Math.sqrt(3) / 2 }
  const square = { x: 0, y: 1 }
  return [
    cutOut(radius, hexagonal, { x: 0, y: 0 }),
    cutOut(radius, hexagonal, { x: 1 / 2, y: 0 }),
    cutOut(radius, hexagonal, { x: 1 / 2, y: Math.sqrt(3) / 6 }),
    cutOut(radius, square, { x: 0, y: 0 }),
    cutOut(radius, square, { x: 1 / 2, y: 1 / 2 }),
  ]
}

/** Row after row, each moved on by `step`. */
function cutOut(radius: number, step: Spot, middle: Spot): Spot[] {
  const reach = radius - 1 / 2 + hair
  const most = Math.ceil(radius / step.y) + 1
  const around = Array.from({ length: 2 * most + 1 }, (_, at) => at - most)
  return around.flatMap((row) => {
    const y = row * step.y - middle.y
    const offset = row * step.x - middle.x
    const first = -Math.floor(offset + reach)
    return Array.from({ length: 2 * most + 2 }, (_, at) => ({ x: offset + first + at, y })).filter(
      (spot) => Math.hypot(spot.x, spot.y) <= reach,
    )
  })
}

// Beyond this a lattice holds as many, and trying rings takes long. Our own limit.
const mostRingsRadius = 3

/**
 * Circles 1 across in rings around the middle of a circle of this radius, each ring as wide as it can be or drawn together
 * until its circles touch, and turned until it fits inside the one before. The fullest way found, alone in the list.
 */
export function inRings(radius: number): Spot[][] {
  if (radius < 1 / 2 - hair || radius > mostRingsRadius) return []
  return [inside({ radius: radius + 1 / 2, spots: [] }, 1)]
}

type Ring = { radius: number; spots: Spot[] }

/** The most circles that fit inside a ring whose circles they may come as near as `nearest`, from ring to ring. */
function inside(outer: Ring, nearest: number): Spot[] {
  const widest = outer.radius - 1
  if (widest < -hair) return []
  const most = mostInRing(outer.radius - nearest)
  const counts = [most, most - 1, most - 2, 1].filter((count) => count > 0)
  const rings = counts.flatMap((count) => ringsOf(count, widest).flatMap((ring) => turned(ring, outer) ?? []))
  return rings.reduce<Spot[]>((best, ring) => {
    const layout = ring.radius > 1 / 2 - hair ? [...ring.spots, ...inside(ring, nearestRings)] : ring.spots
    return layout.length > best.length ? layout : best
  }, [])
}

// Rings that mesh like a hexagonal lattice are this far apart at the least.
const nearestRings = Math.sqrt(3) / 2

const mostInRing = (radius: number) =>
  radius < 1 / 2 - hair ? 1 : times(Math.PI, Math.asin(Math.min(1, 1 / 2 / radius)))

/** A ring of so many: as wide as is clear of the one outside in any turn, and drawn together. */
function ringsOf(count: number, widest: number): Ring[] {
  const together = count === 1 ? 0 : 1 / 2 / Math.sin(Math.PI / count)
  const radii = count > 1 && widest > together ? [widest, together] : [together]
  return radii.map((radius) => ({ radius, spots: circlesAt(radius, count, 0) }))
}

const circlesAt = (radius: number, count: number, turn: number): Spot[] =>
  Array.from({ length: count }, (_, at) => {
    const angle = ((at + turn) / count) * 2 * Math.PI
    return { x: radius * Math.cos(angle), y: radius * Math.sin(angle) }
  })

const turns = Array.from({ length: 12 }, (_, at) => at / 12)

/** The ring turned so that it is clear of the one outside, if there is such a turn. */
function turned({ radius, spots }: Ring, outer: Ring): Ring | undefined {
  const all = turns.map((turn) => circlesAt(radius, spots.length, turn))
  const clear = all.find((ring) => ring.every((spot) => outer.spots.every((other) => isClear(spot, other))))
  return clear && { radius, spots: clear }
}

const isClear = (one: Spot, other: Spot) => Math.hypot(one.x - other.x, one.y - other.y) >= 1 - hair
