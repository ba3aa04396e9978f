import { type Walls, wallLevel } from "./even-light.ts"
import type { Grey, Mask } from "./picture.ts"

/** Grey under even light; `walls` are the levels that it was divided by, without them the light was left as it was. */
type Even = Grey & { walls?: Walls }

/**
 * The dark pixels inside: those up to the threshold, and the flat floors of shallow cells. Noise would tear such a floor to
 * rags, since it lies as near the threshold as noise reaches, some of it above and some below. A pixel that near, most of
 * whose surroundings are as near, belongs to a floor: walls are too narrow to be flat for so far, and at a rim the grey
 * crosses the threshold at once. `noise` is the deviation of noise in the picture before its light was evened, which made
 * it larger where there was less light. Without noise it is the threshold alone.
 * Source: own measurement on drawn crumbs of known truth. With as much noise as in a dim room, every seventh cell of a
 * coarse crumb fell to pieces, which made 22 % too many; so taken together they are counted within 1 %.
 */
export function darkWithFloors(
  even: Even,
  inside: Mask,
  { threshold, noise }: { threshold: number; noise: number },
): Mask {
  const { width, height, data } = even
  const near = nearThreshold(even, threshold, noise)
  const around = countAround({ width, height, data: near })
  const dark = new Uint8Array(width * height)
  for (let i = 0; i < dark.length; i++) {
    const isDark = data[i]! <= threshold || (near[i] !== 0 && around[i]! > most)
    dark[i] = inside.data[i]! & (isDark ? 1 : 0)
  }
  return { width, height, data: dark }
}

// Our own choices, on drawn crumbs: 9 by 9 pixels find fewer floors, two thirds of the surroundings do too.
const reachPx = 3
const most = (2 * reachPx + 1) ** 2 / 2
// beyond three deviations noise is rare
const deviations = 3

function nearThreshold({ width, height, data, walls }: Even, threshold: number, noise: number) {
  const near = new Uint8Array(width * height)
  for (let y = 0; y < height; y++) {
    const row = walls ? Math.floor((y * walls.rows) / height) * walls.columns : 0
    for (let x = 0, i = y * width; x < width; x++, i++) {
      const gain = walls ? wallLevel / walls.level[row + Math.floor((x * walls.columns) / width)]! : 1
      near[i] = Math.abs(data[i]! - threshold - 0.5) <= deviations * noise * gain ? 1 : 0
    }
  }
  return near
}

/** How many of the pixels around each, itself among them, are marked. */
function countAround({ width, height, data }: Mask) {
  const counts = new Uint8Array(width * height)
  const columns = new Uint8Array(width)
  for (let y = -reachPx; y < height; y++) {
    const [enters, leaves] = [(y + reachPx) * width, (y - reachPx - 1) * width]
    for (let x = 0; x < width; x++) {
      if (y + reachPx < height) columns[x]! += data[enters + x]!
      if (leaves >= 0) columns[x]! -= data[leaves + x]!
    }
    if (y < 0) continue
    let sum = 0
    for (let x = -reachPx; x < width; x++) {
      if (x + reachPx < width) sum += columns[x + reachPx]!
      if (x > reachPx) sum -= columns[x - reachPx - 1]!
      if (x >= 0) counts[y * width + x] = sum
    }
  }
  return counts
}
