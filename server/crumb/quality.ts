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
  /** how much the share of dark pixels changes when the threshold moves by 5 levels */
  thresholdShift: number
  /** width of the cells' rims, in pixels */
  rimPx: number
  /** how one-sided the light falls: 0 from everywhere alike */
  oneSided: number
  /** share of the area's edge that lies in one dark region */
  darkEdgeShare: number
  /** share of the void in the largest dark region, before touching cells are parted */
  runTogether: number
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
    thresholdShift: thresholdShift(levels, cut.threshold, piece.areaPx),
    rimPx: rimPx(even, dark, piece.inside, contrast),
    oneSided: oneSided(even, piece.inside),
    ...darkRegions(dark, piece.inside),
    fullness: fullness(found),
  }
}

/** Shares of the area that are black or white beyond what the camera could tell apart. */
export function clippedShares(grey: Grey, { inside, areaPx }: Piece) {
  const levels = histogram(grey, inside)
  return { blackShare: (levels[0]! + levels[1]!) / areaPx, whiteShare: (levels[254]! + levels[255]!) / areaPx }
}

function thresholdShift(levels: Uint32Array, threshold: number, areaPx: number) {
  const pixels = (from: number, to: number) => levels.subarray(Math.max(0, from), to).reduce((sum, one) => sum + one, 0)
  return Math.max(pixels(threshold - 4, threshold + 1), pixels(threshold + 1, threshold + 6)) / areaPx
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
 * rise alike; under a low lamp the rim in shade is steep and the lit floor rises slowly, all in one direction. Noise cancels.
 */
function oneSided({ width, height, data }: Grey, inside: Mask) {
  let [cubeX, cubeY, squares, pixels] = [0, 0, 0, 0]
  for (let y = 1; y < height - 1; y++) {
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

function darkRegions(dark: Mask, inside: Mask) {
  const { width } = dark
  const runs = connectedRuns(dark, { of: 1, corners: true })
  const pixels = new Float64Array(runs.regions + 1)
  const atEdge = new Float64Array(runs.regions + 1)
  const isEdge = (i: number) =>
    (inside.data[i - 1]! & inside.data[i + 1]! & inside.data[i - width]! & inside.data[i + width]!) === 0
  for (let run = 0; run < runs.count; run++) {
    const row = runs.row[run]! * width
    const region = runs.region[run]!
    pixels[region]! += runs.end[run]! - runs.start[run]!
    for (let i = row + runs.start[run]!; i < row + runs.end[run]!; i++) if (isEdge(i)) atEdge[region]!++
  }
  let edge = 0
  for (let i = 0; i < inside.data.length; i++) if (inside.data[i] !== 0 && isEdge(i)) edge++
  const all = pixels.reduce((sum, one) => sum + one, 0)
  return {
    darkEdgeShare: atEdge.reduce((most, one) => Math.max(most, one), 0) / edge,
    runTogether: pixels.reduce((most, one) => Math.max(most, one), 0) / all,
  }
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
