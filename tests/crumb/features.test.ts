import { describe, expect, test } from "vitest"
import { cutOut, innerPart } from "../../server/crumb/area.ts"
import { describeCells } from "../../server/crumb/cells.ts"
import { components } from "../../server/crumb/components.ts"
import { squaredDistances } from "../../server/crumb/distance.ts"
import { evenLight, percentile } from "../../server/crumb/even-light.ts"
import { circularity, featuresOf, scaledFeatures } from "../../server/crumb/features.ts"
import { darkWithFloors } from "../../server/crumb/floors.ts"
import { fillHoles } from "../../server/crumb/holes.ts"
import { median3 } from "../../server/crumb/median.ts"
import { leftByMedian3, noiseOf } from "../../server/crumb/noise.ts"
import { otsu } from "../../server/crumb/otsu.ts"
import { outline, outlineLengths, outlinePath } from "../../server/crumb/outlines.ts"
import type { Area, Mask } from "../../server/crumb/picture.ts"
import { coefficientOfVariation, gini, median, shareOfLargest, weightedMedian } from "../../server/crumb/spread.ts"
import { partTouching } from "../../server/crumb/touching.ts"
import { meanWallPx } from "../../server/crumb/walls.ts"
import { chance } from "../../server/demo/chance.ts"

type Round = { x: number; y: number; long: number; short?: number; turn?: number }
const whole: Area = [
  { x: 0, y: 0 },
  { x: 1, y: 0 },
  { x: 1, y: 1 },
  { x: 0, y: 1 },
]

describe("one cell", () => {
  test.each([0, 0.4, 1.2])("an ellipse of 2 to 1 turned by %d has that axis ratio and lies that way", (turn) => {
    const { cells } = found([{ x: 60, y: 60, long: 40, short: 20, turn }])
    expect(Math.abs(cells[0]!.axisRatio - 2)).toBeLessThan(0.03)
    expect(cells[0]!.turn).toBeCloseTo(turn, 2)
    expect(cells[0]!.areaPx / (Math.PI * 800)).toBeCloseTo(1, 2)
    expect(cells[0]!.x).toBeCloseTo(60, 1)
  })

  test.each([8, 15, 30, 50])("a circle of radius %i has a circularity within 0.05 of 1", (long) => {
    const { cells, outlines } = found([{ x: 60, y: 60, long }])
    expect(Math.abs(circularity(cells[0]!.areaPx, outlineLengths(outlines)[0]!) - 1)).toBeLessThan(0.05)
  })

  test("a square is outlined by its four corners, less half a pixel", () => {
    const square = masked((x, y) => x >= 20 && x < 60 && y >= 30 && y < 70)
    const outlines = outline({ ...square, ...components(square) })
    expect(outlinePath(outlines)).toMatch(/^M20\.5 30l\S+ \S+ .*z$/)
    expect(Math.abs(circularity(1600, outlineLengths(outlines)[0]!) - Math.PI / 4)).toBeLessThan(0.02)
  })

  test("pixels that meet at a corner are one cell with one outline", () => {
    const steps = masked((x, y) => x === y && x > 9 && x < 13)
    const labels = components(steps)
    expect(labels.count).toBe(1)
    const { corners } = outline({ ...steps, ...labels }, 0)
    expect([Math.min(...corners), Math.max(...corners)]).toEqual([10, 13])
  })
})

describe("cells that touch", () => {
  test("are two when the neck between them is narrow", () => {
    expect(
      found([
        { x: 40, y: 60, long: 20 },
        { x: 76, y: 60, long: 20 },
      ]).cells,
    ).toHaveLength(2)
  })

  test("are one when it is nearly as wide as they are", () => {
    expect(
      found([
        { x: 50, y: 60, long: 20 },
        { x: 60, y: 60, long: 20 },
      ]).cells,
    ).toHaveLength(1)
  })

  test("keep all their pixels between them", () => {
    const mask = shapes([
      { x: 40, y: 60, long: 20 },
      { x: 76, y: 60, long: 20 },
    ])
    const { labels } = partTouching(mask, squaredDistances(mask))
    expect(labels.filter((label) => label > 0)).toHaveLength(mask.data.filter((one) => one === 1).length)
  })

  test("may not lie at the picture's edge", () => {
    const mask = masked((x) => x < 5)
    expect(() => partTouching(mask, squaredDistances(mask))).toThrow(RangeError)
  })
})

describe("an area", () => {
  test("leaves the cells it cuts out of the sizes, but not out of the void", () => {
    const { features } = found([
      { x: 60, y: 60, long: 20 },
      { x: 119, y: 60, long: 10 },
    ])
    expect([features.wholeCells, features.cutCells]).toEqual([1, 1])
    expect(features.meanCellPx! / (Math.PI * 400)).toBeCloseTo(1, 1)
    expect(features.visibleCellShare * 14400).toBeGreaterThan(features.meanCellPx! + 100)
  })

  test("tells top from bottom and middle from edge", () => {
    const { features } = found([
      { x: 60, y: 30, long: 20 },
      { x: 60, y: 90, long: 10 },
    ])
    expect(features.topToBottom).toBeCloseTo(4, 0)
    const centred = found([
      { x: 60, y: 60, long: 30 },
      { x: 15, y: 15, long: 8 },
    ])
    expect(centred.features.centreToEdge).toBeGreaterThan(4)
  })

  test("has half of its own size left when it is drawn in by half", () => {
    const inner = innerPart(whole, 0.5)
    expect((inner[1]!.x - inner[0]!.x) * (inner[2]!.y - inner[1]!.y)).toBeCloseTo(0.5, 12)
  })

  test("covers the pixels whose centre it holds, wherever it lies", () => {
    const grey = { width: 100, height: 50, data: new Uint8Array(5000) }
    expect(cutOut(grey, whole).areaPx).toBe(5000)
    expect(
      cutOut(grey, [
        { x: 0, y: 0 },
        { x: 1, y: 0 },
        { x: 0, y: 1 },
      ]).areaPx,
    ).toBe(2500)
  })
})

test("the scale turns pixels into cells per cm², mm² and mm", () => {
  const { cells, features, piece } = found([
    { x: 40, y: 60, long: 20 },
    { x: 90, y: 60, long: 10 },
  ])
  const scaled = scaledFeatures(cells, features, piece.areaPx, 0.1)
  expect(scaled.cellsPerCm2).toBeCloseTo(2 / 1.44, 12)
  expect(scaled.largestCellMm2! / (Math.PI * 4)).toBeCloseTo(1, 1)
  expect(scaled.smallToLarge).toBe(1)
  expect(scaled.wallMm).toBeCloseTo(features.wallPx! * 0.1, 12)
})

test("the wall is the mean way from cell to cell along rows and columns", () => {
  const bars = masked((x, y) => y > 10 && y < 20 && ((x > 20 && x < 30) || (x > 36 && x < 50)))
  const inside = masked(() => true)
  expect(meanWallPx(components(bars).labels, inside)).toBe(7)
  expect(meanWallPx(components(masked(() => false)).labels, inside)).toBeUndefined()
})

test("holes are filled up to the size asked for, and bays are not", () => {
  const ring = masked((x, y) => Math.abs(Math.hypot(x - 50, y - 50) - 20) < 4)
  const disc = fillHoles(ring).data.filter((one) => one === 1).length
  expect(disc / (Math.PI * 24 ** 2)).toBeCloseTo(1, 1)
  expect(fillHoles(ring, { largestPx: 100 })).toEqual(ring)
  const bay = masked((x, y) => Math.abs(Math.hypot(x - 50, y - 50) - 20) < 4 && x < 55)
  expect(fillHoles(bay)).toEqual(bay)
})

test("light that falls off evenly is taken out, but for the outermost half tile", () => {
  const data = Uint8Array.from({ length: 640 * 640 }, (_, i) => 220 * (1 - (0.6 * (i % 640)) / 640))
  const grey = { width: 640, height: 640, data }
  const row = evenLight(grey, { ...grey, data: data.map(() => 1) }).data.subarray(96, 544)
  expect(data[96]! - data[544]!).toBeGreaterThan(90)
  expect(Math.max(...row) - Math.min(...row)).toBeLessThan(25)
})

describe("noise", () => {
  const inside = masked(() => true)
  // on a slope, as uneven light has it
  const noisy = (deviation: number) => {
    const dice = chance(3)
    const data = inside.data.map((_, i) => Math.round(100 + (i % inside.width) / 4 + deviation * dice.normal()))
    return { ...inside, data }
  }
  const deviationOf = (data: Uint8Array) => {
    const rests = [...data].map((level, i) => level - 100 - (i % inside.width) / 4)
    return Math.sqrt(rests.reduce((sum, rest) => sum + rest * rest, 0) / rests.length)
  }

  test.each([2, 5, 12])("of %i levels is found within a tenth", (deviation) => {
    expect(noiseOf(noisy(deviation), inside) / deviation).toBeCloseTo(1, 1)
  })

  test("is none in a picture without any", () => {
    expect(noiseOf(noisy(0), inside)).toBeLessThan(0.5)
  })

  test("is left by the median of nine in the share that is said", () => {
    expect(deviationOf(median3(noisy(12)).data) / 12).toBeCloseTo(leftByMedian3, 1)
  })

  test("does not tear a flat floor near the limit, nor widen a rim", () => {
    const dice = chance(5)
    const square = masked((x, y) => x >= 20 && x < 60 && y >= 30 && y < 70)
    const grey = { ...square, data: square.data.map((at) => (at ? 100 : 200) + Math.round(4 * dice.normal())) }
    const pixels = ({ data }: Mask) => data.reduce((sum, at) => sum + at, 0)
    expect(pixels(darkWithFloors(grey, inside, { threshold: 99, noise: 4 }))).toBeGreaterThan(0.95 * 1600)
    expect(pixels(darkWithFloors(grey, inside, { threshold: 99, noise: 0 }))).toBeLessThan(0.6 * 1600)
    expect(pixels(darkWithFloors(grey, inside, { threshold: 150, noise: 4 }))).toBe(1600)
  })
})

test("one grey level cannot be told apart", () => {
  expect(otsu([0, 0, 9, 0])).toBeUndefined()
  expect(percentile([0, 4, 4, 0], 0.5)).toBe(1.5)
  expect(() => percentile([0, 0], 0.5)).toThrow(RangeError)
})

test("every pixel marked leaves nothing to be distant from", () => {
  expect(() => squaredDistances(masked(() => true))).toThrow(RangeError)
})

describe("spread", () => {
  test("of equal sizes is none, of one that holds all nearly full", () => {
    expect(gini([3, 3, 3])).toBe(0)
    expect(gini([0, 0, 0, 8])).toBe(0.75)
    expect(coefficientOfVariation([2, 2])).toBe(0)
    expect(coefficientOfVariation([1, 3])).toBe(0.5)
  })

  test("is unknown without sizes", () => {
    expect([gini([]), coefficientOfVariation([]), median([]), weightedMedian([]), shareOfLargest([], 0.05)]).toEqual(
      Array(5).fill(undefined),
    )
  })

  test("weighed by area the middle is that of the void", () => {
    expect(weightedMedian([1, 1, 1, 5].map((value) => ({ value, weight: value })))).toBe(5)
    expect(shareOfLargest([...Array(19).fill(1), 6], 0.05)).toBe(0.24)
    expect(median([4, 1, 3, 2])).toBe(2.5)
  })
})

function masked(isMarked: (x: number, y: number) => boolean): Mask {
  const data = Uint8Array.from({ length: 120 * 120 }, (_, i) => (isMarked(i % 120, Math.floor(i / 120)) ? 1 : 0))
  return { width: 120, height: 120, data }
}

function shapes(rounds: Round[]) {
  return masked((column, row) =>
    rounds.some(({ x, y, long, short = long, turn = 0 }) => {
      const [dx, dy] = [column + 0.5 - x, row + 0.5 - y]
      const u = dx * Math.cos(turn) + dy * Math.sin(turn)
      const v = dy * Math.cos(turn) - dx * Math.sin(turn)
      return Math.hypot(u / long, v / short) <= 1
    }),
  )
}

/** The features of drawn cells, the area being the whole picture. */
function found(rounds: Round[]) {
  const mask = shapes(rounds)
  const piece = cutOut({ ...mask, data: mask.data.map((one) => (one === 1 ? 0 : 200)) }, whole)
  const dark = { ...piece.inside, data: piece.grey.data.map((level, i) => (level === 0 ? piece.inside.data[i]! : 0)) }
  const { labels, count } = partTouching(dark, squaredDistances(dark))
  const cells = describeCells(labels, count, piece.inside, 6)
  const outlines = outline({ ...dark, labels, count: cells.length })
  const features = featuresOf({ piece, labels, cells, outlinesPx: outlineLengths(outlines) })
  return {
    cells: cells.map((cell) => ({ ...cell, x: cell.x + piece.left, y: cell.y + piece.top })),
    outlines,
    features,
    piece,
  }
}
