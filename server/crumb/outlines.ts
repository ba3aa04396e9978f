/**
 * The outlines of numbered regions, for drawing. The corners of region n (from 1) are the pairs of numbers from
 * `starts[n - 1]` up to `starts[n]`: x and y in pixels, 0, 0 being the first pixel's outer corner.
 */
export type Outlines = { starts: Int32Array; corners: Float32Array }
type Labels = { width: number; height: number; labels: Int32Array; count: number }

/**
 * The outer outline of each region, clockwise, through the middles of the pixels' outer edges and then thinned to the
 * corners that matter: no line strays from there by more than `strayPx`. Regions are 8-connected; holes are not outlined.
 * The picture's outermost pixels must belong to no region. A raster circle comes out within 3 % of its circumference; a
 * right corner loses half a pixel.
 * Source: following the cracks between pixels, and thinning by Ramer 1972 and Douglas and Peucker 1973 (from memory).
 */
export function outline(labels: Labels, strayPx = 0.75): Outlines {
  const starts = new Int32Array(labels.count + 1)
  const path = growingPath()
  const first = firstPixels(labels)
  const kept: Kept = { corners: new Float32Array(8192), length: 0 }
  for (let region = 1; region <= labels.count; region++) {
    follow(labels, first[region]!, path)
    thin(path, 2 * strayPx, kept)
    starts[region] = kept.length
  }
  return { starts, corners: kept.corners.slice(0, kept.length) }
}

/** The length of each outline in pixels, in the order of the regions. */
export const outlineLengths = ({ starts, corners }: Outlines) =>
  Float64Array.from({ length: starts.length - 1 }, (_, i) => {
    let length = 0
    let [x, y] = [corners[starts[i + 1]! - 2]!, corners[starts[i + 1]! - 1]!]
    for (let at = starts[i]!; at < starts[i + 1]!; at += 2) {
      length += Math.hypot(corners[at]! - x, corners[at + 1]! - y)
      x = corners[at]!
      y = corners[at + 1]!
    }
    return length
  })

/** All outlines as one SVG path, in pixels of the picture: closed shapes, written relative so that it stays short. */
export function outlinePath({ starts, corners }: Outlines) {
  const parts: string[] = []
  for (let i = 0; i + 1 < starts.length; i++) {
    let [x, y] = [0, 0]
    for (let at = starts[i]!; at < starts[i + 1]!; at += 2) {
      const [toX, toY] = [corners[at]!, corners[at + 1]!]
      const begin = at === starts[i]
      const dy = toY - y
      parts.push(begin ? `M${toX} ${toY}l` : `${toX - x}${dy < 0 ? "" : " "}${dy} `)
      x = toX
      y = toY
    }
    parts[parts.length - 1] = `${parts.at(-1)!.trimEnd()}z`
  }
  return parts.join("")
}

function firstPixels({ labels, count }: Labels) {
  const first = new Int32Array(count + 1).fill(-1)
  for (let i = 0, found = 0; i < labels.length && found < count; i++) {
    const region = labels[i]!
    if (region === 0 || first[region]! >= 0) continue
    first[region] = i
    found++
  }
  return first
}

type Path = { x: Int32Array; y: Int32Array; length: number; grow: () => void }
function growingPath(): Path {
  return {
    x: new Int32Array(4096),
    y: new Int32Array(4096),
    length: 0,
    grow() {
      const [x, y] = [this.x, this.y]
      this.x = new Int32Array(2 * x.length)
      this.y = new Int32Array(2 * x.length)
      this.x.set(x)
      this.y.set(y)
    },
  }
}

// right, down, left, up
const stepX = [1, 0, -1, 0]
const stepY = [0, 1, 0, -1]

/** Walks along the region's edge with the region on the right; notes, in half pixels, the middles next to each turn. */
function follow({ width, labels }: Labels, first: number, path: Path) {
  const region = labels[first]!
  const startX = first % width
  const startY = (first - startX) / width
  let [x, y, way] = [startX, startY, 0]
  path.length = 0
  do {
    const [fromX, fromY] = [x, y]
    let turned = way
    do {
      x += stepX[way]!
      y += stepY[way]!
      // the two pixels ahead, on the left and on the right of the way
      const below = y * width + x
      const above = below - width
      const left = labels[way === 0 ? above : way === 1 ? below : way === 2 ? below - 1 : above - 1] === region
      const right = labels[way === 0 ? below : way === 1 ? below - 1 : way === 2 ? above - 1 : above] === region
      // at a corner where two pixels meet, the other one belongs to the region too
      if (left) turned = (way + 3) % 4
      else if (!right) turned = (way + 1) % 4
    } while (turned === way)
    if (path.length + 2 > path.x.length) path.grow()
    path.x[path.length] = 2 * fromX + stepX[way]!
    path.y[path.length++] = 2 * fromY + stepY[way]!
    if (Math.abs(x - fromX + y - fromY) > 1) {
      path.x[path.length] = 2 * x - stepX[way]!
      path.y[path.length++] = 2 * y - stepY[way]!
    }
    way = turned
  } while (x !== startX || y !== startY || way !== 0)
}

/** Adds to `kept` the corners of the closed path that are needed to stay within `stray` of it. */
function thin({ x, y, length }: Path, stray: number, kept: Kept) {
  let far = 0
  let farthest = -1
  for (let i = 1; i < length; i++) {
    const away = (x[i]! - x[0]!) ** 2 + (y[i]! - y[0]!) ** 2
    if (away > farthest) [far, farthest] = [i, away]
  }
  const needed = (from: number, to: number) => {
    const end = to % length
    const [dx, dy] = [x[end]! - x[from]!, y[end]! - y[from]!]
    const long = dx * dx + dy * dy
    let worst = -1
    let most = stray * stray
    for (let i = from + 1; i < to; i++) {
      const [px, py] = [x[i]! - x[from]!, y[i]! - y[from]!]
      const along = long === 0 ? 0 : Math.max(0, Math.min(1, (px * dx + py * dy) / long))
      const off = (px - along * dx) ** 2 + (py - along * dy) ** 2
      if (off > most) [worst, most] = [i, off]
    }
    if (worst < 0) return
    needed(from, worst)
    keep(kept, x[worst]!, y[worst]!)
    needed(worst, to)
  }
  keep(kept, x[0]!, y[0]!)
  needed(0, far)
  keep(kept, x[far]!, y[far]!)
  needed(far, length)
}

type Kept = { corners: Float32Array; length: number }
function keep(kept: Kept, halfX: number, halfY: number) {
  if (kept.length === kept.corners.length) {
    const older = kept.corners
    kept.corners = new Float32Array(2 * older.length)
    kept.corners.set(older)
  }
  kept.corners[kept.length++] = halfX / 2
  kept.corners[kept.length++] = halfY / 2
}
