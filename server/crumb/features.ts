import { fillPolygon, innerPart, type Piece } from "./area.ts"
import { boxDimension } from "./box-dimension.ts"
import type { Cell } from "./cells.ts"
import type { Mask } from "./picture.ts"
import { coefficientOfVariation, gini, median, shareOfLargest, weightedMedian } from "./spread.ts"
import { meanWallPx } from "./walls.ts"

/**
 * What needs no scale. Sizes and shapes are those of whole cells; a cell cut by the area's edge counts half in numbers of
 * cells and with all that is seen of it in areas of void. A number is missing when there is nothing to take it from.
 * Which features: as listed for crumb by Sapirstein, Roller and Bushuk 1994, Cereal Chem. 71:383–391, Crowley, Grau and
 * Arendt 2000 and Scheuer et al. 2015 (from memory and abstracts).
 */
export type Features = {
  /** void that a photo can show, by area: not the porosity, which is far higher, for most walls are too thin to see */
  visibleCellShare: number
  wholeCells: number
  cutCells: number
  /** whole cells and half of the cut ones, in a square as high as the area */
  cellsPerHeightSquared: number
  meanCellPx?: number
  medianCellPx?: number
  /** how unequal the cells' areas are: 0 all equal */
  gini?: number
  coefficientOfVariation?: number
  /** share of the whole cells' void that lies in the largest 5 % of them */
  voidInLargest5Percent?: number
  /** diameter of the round cell below which half of the void lies, by the area's height */
  typicalDiameterByHeight?: number
  /** long by short axis, the middle of all cells large enough to have a shape */
  axisRatio?: number
  /** the way the cells lie, weighed by area: radians from level, positive falling to the right */
  lieRad?: number
  /** how much they lie that one way: 0 no way more than another, 1 all the same way */
  lieStrength?: number
  /** 4π·area by outline squared, the middle of all cells large enough: 1 for a circle, less when drawn out or ragged */
  circularity?: number
  /** share of void in the upper half by that in the lower half */
  topToBottom?: number
  /** share of void in the inner half of the area by that in the outer half */
  centreToEdge?: number
  largestCellShare?: number
  /** mean way through the wall from cell to cell, along rows and columns */
  wallPx?: number
  boxDimension?: number
}

/** What needs a scale: cells per cm², areas in mm², lengths in mm. */
export type ScaledFeatures = {
  cellsPerCm2: number
  meanCellMm2?: number
  medianCellMm2?: number
  largestCellMm2?: number
  wallMm?: number
  /** number of cells smaller than 4 mm² by number of larger ones (the cut of Sapirstein et al. 1994, from memory) */
  smallToLarge?: number
}

export type Found = { piece: Piece; labels: Int32Array; cells: readonly Cell[]; outlinesPx: Float64Array }

// A cell of fewer pixels has the shape of its pixels: our own judgement, about six pixels across.
const shapePx = 30

export function featuresOf({ piece, labels, cells, outlinesPx }: Found): Features {
  const { inside, areaPx, heightPx } = piece
  const whole = cells.filter(({ edgePx }) => edgePx === 0)
  const cutCells = cells.length - whole.length
  const sizes = whole.map((cell) => cell.areaPx)
  const shapes = whole.filter((cell) => cell.areaPx >= shapePx)
  const round = cells.flatMap(({ areaPx, edgePx }, i) =>
    edgePx === 0 && areaPx >= shapePx ? [circularity(areaPx, outlinesPx[i]!)] : [],
  )
  const typicalPx = weightedMedian(sizes.map((size) => ({ value: diameter(size), weight: size })))
  return {
    visibleCellShare: cells.reduce((sum, cell) => sum + cell.areaPx, 0) / areaPx,
    wholeCells: whole.length,
    cutCells,
    cellsPerHeightSquared: ((whole.length + cutCells / 2) / areaPx) * heightPx ** 2,
    meanCellPx: sizes.length > 0 ? sizes.reduce((sum, size) => sum + size, 0) / sizes.length : undefined,
    medianCellPx: median(sizes),
    gini: gini(sizes),
    coefficientOfVariation: coefficientOfVariation(sizes),
    voidInLargest5Percent: shareOfLargest(sizes, 0.05),
    typicalDiameterByHeight: typicalPx && typicalPx / heightPx,
    axisRatio: median(shapes.map((cell) => cell.axisRatio)),
    ...lie(shapes),
    circularity: median(round),
    ...voidByPlace(labels, piece),
    largestCellShare: sizes.length > 0 ? Math.max(...sizes) / areaPx : undefined,
    wallPx: meanWallPx(labels, inside),
    boxDimension: boxDimension(seen(labels, inside)),
  }
}

/** `mmPerPx` is the size of a pixel of the picture that was measured, above 0. */
export function scaledFeatures(
  cells: readonly Cell[],
  features: Features,
  areaPx: number,
  mmPerPx: number,
): ScaledFeatures {
  const mm2 = mmPerPx ** 2
  const sizes = cells.flatMap(({ areaPx, edgePx }) => (edgePx === 0 ? [areaPx * mm2] : []))
  const large = sizes.filter((size) => size >= smallBelowMm2).length
  const { wholeCells, cutCells, meanCellPx, medianCellPx, wallPx } = features
  return {
    cellsPerCm2: (wholeCells + cutCells / 2) / ((areaPx * mm2) / 100),
    meanCellMm2: meanCellPx && meanCellPx * mm2,
    medianCellMm2: medianCellPx && medianCellPx * mm2,
    largestCellMm2: sizes.length > 0 ? Math.max(...sizes) : undefined,
    wallMm: wallPx && wallPx * mmPerPx,
    smallToLarge: large > 0 ? (sizes.length - large) / large : undefined,
  }
}
const smallBelowMm2 = 4

/** 4π·area by the square of the outline's length: 1 for a circle, π/4 for a square. Both in the same unit. */
export const circularity = (area: number, outline: number) => (4 * Math.PI * area) / outline ** 2

/** Diameter of the circle of the same area. */
const diameter = (area: number) => 2 * Math.sqrt(area / Math.PI)

/** The mean of directions that are the same when turned by half a circle: of doubled angles, weighed by area. */
function lie(cells: readonly Cell[]) {
  let [across, up, total] = [0, 0, 0]
  for (const { turn, areaPx, axisRatio } of cells) {
    // a round cell points nowhere
    const weight = areaPx * (1 - 1 / axisRatio)
    across += weight * Math.cos(2 * turn)
    up += weight * Math.sin(2 * turn)
    total += weight
  }
  if (total === 0) return {}
  return { lieRad: Math.atan2(up, across) / 2, lieStrength: Math.hypot(across, up) / total }
}

function voidByPlace(labels: Int32Array, { inside, corners }: Piece) {
  const { width, height } = inside
  const core = fillPolygon(innerPart(corners, 0.5), inside)
  // void and all, by upper or lower half and inner or outer part
  const counts = new Float64Array(8)
  for (let y = 0, i = 0; y < height; y++) {
    const half = y + 0.5 < height / 2 ? 0 : 4
    for (let x = 0; x < width; x++, i++) {
      if (inside.data[i] === 0) continue
      const at = half + (core.data[i] !== 0 ? 0 : 2)
      counts[at]!++
      if (labels[i] !== 0) counts[at + 1]!++
    }
  }
  const share = (...parts: number[]) => {
    const all = parts.reduce((sum, part) => sum + counts[part]!, 0)
    return parts.reduce((sum, part) => sum + counts[part + 1]!, 0) / all
  }
  return { topToBottom: ratio(share(0, 2), share(4, 6)), centreToEdge: ratio(share(0, 4), share(2, 6)) }
}

const ratio = (one: number, other: number) => (one >= 0 && other > 0 ? one / other : undefined)

function seen(labels: Int32Array, { width, height }: Mask): Mask {
  const data = new Uint8Array(labels.length)
  for (let i = 0; i < data.length; i++) data[i] = labels[i] === 0 ? 0 : 1
  return { width, height, data }
}
