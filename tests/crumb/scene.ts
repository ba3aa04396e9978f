import { chance } from "../../server/demo/chance.ts"

/** A drawn crumb whose truth is known, 160 × 120 mm at 25 pixels a millimetre, as a 12-megapixel camera sees it. */
export type Scene = {
  /** how light each spot is under even light, at 1600 × 1200 pixels: shrunk from 4000 × 3000 by averaging */
  lightness: Float32Array
  truth: { cells: number; voidShare: number; areasMm2: number[] }
}

export const large = { width: 4000, height: 3000 }
export const small = { width: 1600, height: 1200 }
export const mmPerPx = 0.1
const largePxPerMm = 25

const whiteCrumb = { wall: 195, floor: 75 }

type Recipe = {
  seed?: number
  voidShare?: number
  /** least wall between two cells, in pixels of the large picture */
  gapPx?: number
  medianMm2?: number
  spread?: number
  largestMm2?: number
}

/**
 * Ellipses that do not touch, of log-normal area, largest first, each where a whole one with its wall still fits; soft
 * rims, every seventh cell shallow with half the contrast, a fine texture on the walls.
 */
export function drawScene(recipe: Recipe = {}): Scene {
  const drawn = drawLarge(recipe)
  return { lightness: shrink(drawn.lightness), truth: drawn.truth }
}

/** The same at 4000 × 3000 pixels. */
export function drawLarge({
  seed = 1,
  voidShare = 0.35,
  gapPx = 5,
  medianMm2 = 1.4,
  spread = 0.8,
  largestMm2 = 40,
}: Recipe) {
  const { wall, floor } = whiteCrumb
  const dice = chance(seed)
  const { width, height } = large
  const areas: number[] = []
  for (let sum = 0; sum < voidShare * 160 * 120; ) {
    const area = medianMm2 * Math.exp(spread * dice.normal())
    if (area < 0.15 || area > largestMm2) continue
    areas.push(area)
    sum += area
  }
  areas.sort((a, b) => b - a)

  const lightness = new Float32Array(width * height)
  texture(lightness, wall, dice)
  const taken = new Uint8Array(width * height)
  const placed: number[] = []
  for (const area of areas) {
    const ratio = 1 + Math.min(1.5, Math.abs(dice.normal()) * 0.6)
    const round = Math.sqrt((area * largePxPerMm ** 2) / Math.PI)
    for (let tries = 0; tries < 400; tries++) {
      const turn = dice.between(0, Math.PI)
      const cell = { x: 0, y: 0, long: round * Math.sqrt(ratio), short: round / Math.sqrt(ratio), turn }
      const margin = cell.long + gapPx + 8
      cell.x = dice.between(margin, width - margin)
      cell.y = dice.between(margin, height - margin)
      if (!isFree(taken, cell, gapPx)) continue
      dig(lightness, taken, cell, dice.unit() < 1 / 7 ? (wall + floor) / 2 : floor)
      placed.push(area)
      break
    }
  }
  const shown = placed.reduce((sum, area) => sum + area, 0) / (160 * 120)
  return { lightness, truth: { cells: placed.length, voidShare: shown, areasMm2: placed } }
}

type Ellipse = { x: number; y: number; long: number; short: number; turn: number }

/** How far outside the ellipse a spot is, in pixels, nearly: exact on its rim. `u` and `v` are along its axes. */
function outsidePx({ long, short }: Ellipse, u: number, v: number) {
  const [a, b] = [u / long, v / short]
  const level = Math.sqrt(a * a + b * b)
  if (level === 0) return -short
  return ((level - 1) * level) / Math.sqrt((a / long) ** 2 + (b / short) ** 2)
}

/** Looked at along the rim of the wall around it: larger cells are there already, so none hides inside. */
function isFree(taken: Uint8Array, { x, y, long, short, turn }: Ellipse, gapPx: number) {
  const [reach, width] = [long + gapPx, short + gapPx]
  const isTaken = (px: number, py: number) => taken[Math.round(py) * large.width + Math.round(px)] !== 0
  if (isTaken(x, y)) return false
  const steps = Math.ceil((reach * 2 * Math.PI) / 1.5)
  const [cos, sin] = [Math.cos(turn), Math.sin(turn)]
  for (let i = 0; i < steps; i++) {
    const angle = (2 * Math.PI * i) / steps
    const [u, v] = [reach * Math.cos(angle), width * Math.sin(angle)]
    if (isTaken(x + u * cos - v * sin, y + u * sin + v * cos)) return false
  }
  return true
}

const softPx = 2
function dig(lightness: Float32Array, taken: Uint8Array, cell: Ellipse, floor: number) {
  const reach = Math.ceil(cell.long + softPx + 1)
  const [cos, sin] = [Math.cos(cell.turn), Math.sin(cell.turn)]
  for (let y = Math.floor(cell.y) - reach; y <= cell.y + reach; y++) {
    for (let x = Math.floor(cell.x) - reach; x <= cell.x + reach; x++) {
      const [right, below] = [x - cell.x, y - cell.y]
      const outside = outsidePx(cell, right * cos + below * sin, below * cos - right * sin)
      if (outside > softPx) continue
      const i = y * large.width + x
      const share = (1 - outside / softPx) / 2
      const depth = share >= 1 ? 1 : share * share * (3 - 2 * share)
      lightness[i] = lightness[i]! + (floor - lightness[i]!) * depth
      if (outside <= 0) taken[i] = 1
    }
  }
}

/** Blots of 8 pixels, lighter and darker by a few levels. */
function texture(lightness: Float32Array, wall: number, dice: ReturnType<typeof chance>) {
  const [columns, rows] = [large.width / 8 + 2, large.height / 8 + 2]
  const blots = Float32Array.from({ length: columns * rows }, () => wall + 7 * dice.normal())
  for (let y = 0, i = 0; y < large.height; y++) {
    const row = (y >> 3) * columns
    const down = (y & 7) / 8
    for (let x = 0; x < large.width; x++, i++) {
      const at = row + (x >> 3)
      const across = (x & 7) / 8
      const above = blots[at]! + (blots[at + 1]! - blots[at]!) * across
      const below = blots[at + columns]! + (blots[at + columns + 1]! - blots[at + columns]!) * across
      lightness[i] = above + (below - above) * down
    }
  }
}

/** Averages 2.5 × 2.5 pixels into one. */
function shrink(from: Float32Array) {
  const halves = new Float32Array(large.width * small.height)
  for (let y = 0; y < small.height; y++) {
    const [first, odd] = [(y >> 1) * 5 + (y & 1) * 2, y & 1]
    const weights = odd ? [0.5, 1, 1] : [1, 1, 0.5]
    for (let x = 0; x < large.width; x++) {
      const at = first * large.width + x
      halves[y * large.width + x] =
        (weights[0]! * from[at]! + weights[1]! * from[at + large.width]! + weights[2]! * from[at + 2 * large.width]!) /
        2.5
    }
  }
  const out = new Float32Array(small.width * small.height)
  for (let y = 0, i = 0; y < small.height; y++) {
    for (let x = 0; x < small.width; x++, i++) {
      const odd = x & 1
      const at = y * large.width + (x >> 1) * 5 + odd * 2
      out[i] = odd
        ? (0.5 * halves[at]! + halves[at + 1]! + halves[at + 2]!) / 2.5
        : (halves[at]! + halves[at + 1]! + 0.5 * halves[at + 2]!) / 2.5
    }
  }
  return out
}

/**
 * The scene under a lamp: `fall` is the share of light lost from the left edge to the right one, `vignette` that lost in
 * the corners; `noise` is the camera's, in grey levels at 12 megapixels, of which averaging leaves a share of 1 / 2.5.
 */
export function photograph(
  { lightness }: Scene,
  {
    fall = 0,
    vignette = 0.15,
    noise = 2,
    seed = 7,
  }: { fall?: number; vignette?: number; noise?: number; seed?: number } = {},
) {
  const { width, height } = small
  const dice = chance(seed)
  // drawn once and repeated from different beginnings, a normal draw a pixel takes most of the time
  const grain = Float32Array.from({ length: 262_147 }, () => (dice.normal() * noise) / 2.5)
  const data = new Uint8Array(width * height)
  for (let y = 0, i = 0; y < height; y++) {
    const skip = Math.floor(dice.unit() * grain.length)
    for (let x = 0; x < width; x++, i++) {
      const corner = ((x / width - 0.5) ** 2 + (y / height - 0.5) ** 2) * 2
      const light = (1 - (fall * x) / width) * (1 - vignette * corner)
      const grey = lightness[i]! * light + grain[(skip + x) % grain.length]! + 0.5
      data[i] = Math.max(0, Math.min(255, grey))
    }
  }
  return { width, height, data }
}

/** The same cells in a darker, less lively crumb: wall and floor at other levels. */
export function tinted({ lightness, truth }: Scene, { wall, floor }: { wall: number; floor: number }): Scene {
  const scale = (wall - floor) / (whiteCrumb.wall - whiteCrumb.floor)
  return { lightness: lightness.map((level) => floor + (level - whiteCrumb.floor) * scale), truth }
}
