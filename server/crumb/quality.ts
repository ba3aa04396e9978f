import type { Piece } from "./area.ts"
import { connectedRuns } from "./components.ts"
import type { FoundCells } from "./find-cells.ts"
import { histogram } from "./otsu.ts"
import type { Grey, Mask } from "./picture.ts"

/** How well the picture can be measured, in numbers; what each says and its limits are in `reasons.ts`. */
export type Quality = {
  blackShare: number
  whiteShare: number
  /** levels between cells and walls under even light, where walls are at 200 */
  contrast: number
  /** how much smaller the share of dark pixels is when the threshold lies 5 levels lower, and how much larger 5 higher */
  shareLess: number
  shareMore: number
  /** width of the cells' rims, in pixels */
  rimPx: number
  /** how one-sided the light falls: 0 from everywhere alike */
  oneSided: number
  /** share of the area's edge that lies in one dark region */
  darkEdgeShare: number
  /** share of the light pixels that hang together as one net of walls, as they do in crumb */
  oneNet: number
  /** share of the cells' void that the largest circles within them fill: 1 for circles, little for strokes */
  fullness: number
}

/** All of it, for an area in which cells were found. The measures are our own judgement; where not, their source is said. */
export function qualityOf(piece: Piece, found: FoundCells): Quality {
  const { smoothed, even, levels, cut, dark } = found
  const contrast = cut.lightMean - cut.darkMean
  return {
    ...clippedShares(smoothed, piece),
    contrast,
    ...thresholdShift(levels, cut.threshold, piece.areaPx),
    rimPx: rimPx(even, dark, piece.inside, contrast),
    oneSided: oneSided(even, piece.inside),
    darkEdgeShare: darkEdgeShare(dark, piece.inside),
    oneNet: oneNet(dark, piece.inside),
    fullness: fullness(found),
  }
}

/** Shares of the area that are black or white beyond what the camera could tell apart. */
export function clippedShares(grey: Grey, { inside, areaPx }: Piece) {
  const levels = histogram(grey, inside)
  return { blackShare: (levels[0]! + levels[1]!) / areaPx, whiteShare: (levels[254]! + levels[255]!) / areaPx }
}

function thresholdShift(levels: Uint32Array, threshold: number, areaPx: number) {
  const share = (from: number, to: number) =>
    levels.subarray(Math.max(0, from), to).reduce((sum, pixels) => sum + pixels, 0) / areaPx
  return { shareLess: share(threshold - 4, threshold + 1), shareMore: share(threshold + 1, threshold + 6) }
}

/**
 * Contrast by the mean step from the last dark pixel to the first light one along rows and columns. A rim is crossed at all
 * angles, so that step is π/4 of the steepest one.
 */
function rimPx(even: Grey, { width, data }: Mask, inside: Mask, contrast: number) {
  let steps = 0
  let sum = 0
  for (let i = 0; i < data.length - width; i++) {
    if (inside.data[i] === 0) continue
    if (inside.data[i + 1] !== 0 && data[i] !== data[i + 1]) {
      sum += data[i] !== 0 ? even.data[i + 1]! - even.data[i]! : even.data[i]! - even.data[i + 1]!
      steps++
    }
    if (inside.data[i + width] !== 0 && data[i] !== data[i + width]) {
      sum += data[i] !== 0 ? even.data[i + width]! - even.data[i]! : even.data[i]! - even.data[i + width]!
      steps++
    }
  }
  return sum > 0 ? (contrast * Math.PI * steps) / (4 * sum) : Number.POSITIVE_INFINITY
}

/**
 * How skewed the slopes of the grey levels are, as a vector's length. Under light from all around, a cell's rims fall and
 * rise alike; under a low lamp the rim in shade is steep and the lit floor rises slowly, all in one direction. Noise cancels. Every
 * other row is enough.
 */
function oneSided({ width, height, data }: Grey, inside: Mask) {
  let [cubeX, cubeY, squares, pixels] = [0, 0, 0, 0]
  for (let y = 1; y < height - 1; y += 2) {
    for (let x = 1, i = y * width + 1; x < width - 1; x++, i++) {
      if ((inside.data[i - 1]! & inside.data[i + 1]! & inside.data[i - width]! & inside.data[i + width]!) === 0)
        continue
      const across = data[i + 1]! - data[i - 1]!
      const down = data[i + width]! - data[i - width]!
      const square = across * across + down * down
      cubeX += square * across
      cubeY += square * down
      squares += square
      pixels++
    }
  }
  return squares === 0 ? 0 : (Math.hypot(cubeX, cubeY) * Math.sqrt(pixels)) / squares ** 1.5
}

function darkEdgeShare(dark: Mask, inside: Mask) {
  const { width } = dark
  const isEdge = (i: number) =>
    (inside.data[i - 1]! & inside.data[i + 1]! & inside.data[i - width]! & inside.data[i + width]!) === 0
  const runs = connectedRuns(dark, { of: 1, corners: true })
  const atEdge = new Float64Array(runs.regions + 1)
  for (let run = 0; run < runs.count; run++) {
    const row = runs.row[run]! * width
    for (let i = row + runs.start[run]!; i < row + runs.end[run]!; i++) if (isEdge(i)) atEdge[runs.region[run]!]!++
  }
  let edge = 0
  for (let i = 0; i < inside.data.length; i++) if (inside.data[i] !== 0 && isEdge(i)) edge++
  return largest(atEdge) / edge
}

function oneNet(dark: Mask, inside: Mask) {
  const light = new Uint8Array(inside.data.length)
  for (let i = 0; i < light.length; i++) light[i] = inside.data[i]! & ~dark.data[i]!
  const runs = connectedRuns({ ...inside, data: light }, { of: 1, corners: false })
  const pixels = new Float64Array(runs.regions + 1)
  let all = 0
  for (let run = 0; run < runs.count; run++) {
    const long = runs.end[run]! - runs.start[run]!
    pixels[runs.region[run]!]! += long
    all += long
  }
  return all > 0 ? largest(pixels) / all : 0
}

function fullness({ labels, squared, cells }: FoundCells) {
  const deepest = new Int32Array(cells.length + 1)
  for (let i = 0; i < labels.length; i++) {
    if (labels[i] !== 0 && squared[i]! > deepest[labels[i]!]!) deepest[labels[i]!] = squared[i]!
  }
  let [circles, all] = [0, 0]
  for (const [i, { areaPx }] of cells.entries()) {
    // from the centre of a pixel to the near edge of the first one of the wall
    circles += Math.PI * (Math.sqrt(deepest[i + 1]!) - 0.5) ** 2
    all += areaPx
  }
  return all > 0 ? circles / all : 0
}

// spread over an argument list, a million regions would be too many
const largest = (values: Float64Array) => values.reduce((most, one) => Math.max(most, one), 0)
