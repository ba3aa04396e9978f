import { readFileSync } from "node:fs"
import { createRequire } from "node:module"
import type openCv from "@techstark/opencv-js"
import { computeThreshold, fromMask, Image, Mask as ImageJsMask } from "image-js"
import sharp from "sharp"
import { beforeAll, describe, expect, test } from "vitest"
import { cutOut } from "../../server/crumb/area.ts"
import { boxDimension } from "../../server/crumb/box-dimension.ts"
import { components } from "../../server/crumb/components.ts"
import { squaredDistances } from "../../server/crumb/distance.ts"
import { circularity } from "../../server/crumb/features.ts"
import { findCells } from "../../server/crumb/find-cells.ts"
import { median3 } from "../../server/crumb/median.ts"
import { histogram, otsu } from "../../server/crumb/otsu.ts"
import type { Area, Grey, Mask } from "../../server/crumb/picture.ts"
import { chance } from "../../server/demo/chance.ts"

const whole: Area = [
  { x: 0, y: 0 },
  { x: 1, y: 0 },
  { x: 1, y: 1 },
  { x: 0, y: 1 },
]
const coinsFile = readFileSync(new URL("../crumb/samples/coins.png", import.meta.url))
let coins: Grey
// required, not imported: the module is thenable, so whatever waits for its import waits for ever
const cv: typeof openCv = createRequire(import.meta.url)("@techstark/opencv-js")

beforeAll(async () => {
  const { data, info } = await sharp(coinsFile).extractChannel(0).raw().toBuffer({ resolveWithObject: true })
  coins = { width: info.width, height: info.height, data: new Uint8Array(data) }
  if (!cv.Mat) await new Promise<void>((resolve) => Object.assign(cv, { onRuntimeInitialized: resolve }))
})

describe("Otsu's threshold", () => {
  test("of the classic six-level example is the third level (university teaching example, from memory, arithmetic redone)", () => {
    const { threshold, between } = otsu([8, 7, 2, 6, 9, 4])!
    // that example counts the levels below its threshold as dark, we count ours too
    expect(threshold + 1).toBe(3)
    expect(between).toBeCloseTo(2.6287, 4)
  })

  test("of the coins is 107 (scikit-image 0.19.3, measured)", () => {
    expect(otsu(histogram(coins))!.threshold).toBe(107)
  })

  test.each([1, 2, 3, 4, 5])("of picture %i is that of image-js 1.7.0 and OpenCV 4.5.2", (seed) => {
    const picture = blots(seed)
    const { threshold } = otsu(histogram(picture))!
    expect(threshold).toBe(
      computeThreshold(new Image(picture.width, picture.height, { data: picture.data, colorModel: "GREY" })),
    )
    expect(threshold).toBe(openCvOtsu(picture))
  })
})

test("the median of nine is that of OpenCV 4.5.2, medianBlur 3", () => {
  for (const picture of [coins, blots(6)]) {
    const [from, to] = [cv.matFromArray(picture.height, picture.width, cv.CV_8UC1, picture.data), new cv.Mat()]
    cv.medianBlur(from, to, 3)
    expect(Buffer.compare(median3(picture).data, to.data)).toBe(0)
    from.delete()
    to.delete()
  }
})

test.each([1, 2, 3])(
  "the regions of mask %i are as many as in image-js 1.7.0 and OpenCV 4.5.2, with corners and without",
  (seed) => {
    const mask = marks(seed)
    for (const corners of [true, false]) {
      const { count } = components(mask, { corners })
      const theirs = new ImageJsMask(mask.width, mask.height, { data: mask.data.slice() })
      expect(count).toBe(fromMask(theirs, { allowCorners: corners }).getRois({ kind: "white" }).length)
      expect(count).toBe(openCvComponents(mask, corners ? 8 : 4))
    }
  },
)

describe("the distance to the nearest wall", () => {
  test.each([1, 2, 3])("in mask %i is that of trying every pixel, to 1e-9", (seed) => {
    const mask = marks(seed, { width: 83, height: 61 })
    const ours = squaredDistances(mask)
    for (const [i, nearest] of byTryingAll(mask).entries()) expect(Math.sqrt(ours[i]!)).toBeCloseTo(nearest, 9)
  })

  test("in a mask of half a million pixels is that of OpenCV 4.5.2, DIST_L2 precise, to its single precision", () => {
    const mask = marks(4, { width: 800, height: 600 })
    const ours = squaredDistances(mask)
    const theirs = openCvDistances(mask)
    let most = 0
    for (const [i, distance] of theirs.entries())
      most = Math.max(most, Math.abs(Math.fround(Math.sqrt(ours[i]!)) - distance))
    expect(most).toBeLessThan(1e-5)
  })
})

test.each([32, 40, 48])(
  "the 24 coins, four rows of six counted by eye, are 24 with tiles of %i pixels (the picture `coins` of scikit-image 0.19.3)",
  (tilePx) => {
    const dark = { ...coins, data: coins.data.map((level) => 255 - level) }
    expect(
      findCells(cutOut(dark, whole), { tilePx, leastPx: 100, largestHolePx: Number.POSITIVE_INFINITY })!.cells,
    ).toHaveLength(24)
  },
)

describe("geometry", () => {
  test("a square has a circularity of π/4, a circle of 1", () => {
    expect(circularity(100, 40)).toBeCloseTo(0.7854, 4)
    expect(circularity(Math.PI, 2 * Math.PI)).toBeCloseTo(1, 12)
  })

  test("Sierpinski's carpet has the box dimension log 8 / log 3, his triangle log 3 / log 2 (textbook)", () => {
    const side = 729
    const carpet = mask(side, (x, y) => {
      for (let [a, b] = [x, y]; a > 0 || b > 0; [a, b] = [Math.floor(a / 3), Math.floor(b / 3)]) {
        if (a % 3 === 1 && b % 3 === 1) return false
      }
      return true
    })
    expect(Math.abs(boxDimension(carpet)! - Math.log(8) / Math.log(3))).toBeLessThan(0.03)
    expect(boxDimension(mask(512, (x, y) => (x & y) === 0))).toBeCloseTo(Math.log(3) / Math.log(2), 12)
  })
})

const mask = (side: number, isMarked: (x: number, y: number) => boolean): Mask => ({
  width: side,
  height: side,
  data: Uint8Array.from({ length: side * side }, (_, i) => (isMarked(i % side, Math.floor(i / side)) ? 1 : 0)),
})

/** Light and dark blots of two sizes. */
function blots(seed: number, { width, height } = { width: 400, height: 300 }): Grey {
  const dice = chance(seed)
  const coarse = Array.from({ length: 5000 }, () => (dice.flip(0.35) ? 70 : 190) + 18 * dice.normal())
  const data = Uint8Array.from({ length: width * height }, (_, i) => {
    const [x, y] = [i % width, Math.floor(i / width)]
    return coarse[(Math.floor(y / 6) * 67 + Math.floor(x / 7)) % coarse.length]! + 9 * dice.normal()
  })
  return { width, height, data }
}

/** A mask of ragged regions, large and small, with nothing marked at its edge. */
function marks(seed: number, size?: { width: number; height: number }): Mask {
  const { width, height, data } = median3(blots(seed, size))
  const dark = data.map((level, i) => {
    const [x, y] = [i % width, Math.floor(i / width)]
    return level < 128 && x > 0 && y > 0 && x < width - 1 && y < height - 1 ? 1 : 0
  })
  return { width, height, data: dark }
}

function byTryingAll({ width, data }: Mask) {
  const walls = [...data.keys()].filter((i) => data[i] === 0).map((i) => [i % width, Math.floor(i / width)] as const)
  return [...data.keys()].map((i) => {
    const [x, y] = [i % width, Math.floor(i / width)]
    return data[i] === 0 ? 0 : Math.min(...walls.map(([a, b]) => Math.hypot(x - a, y - b)))
  })
}

function openCvOtsu({ width, height, data }: Grey) {
  const [from, to] = [cv.matFromArray(height, width, cv.CV_8UC1, data), new cv.Mat()]
  const threshold = cv.threshold(from, to, 0, 255, cv.THRESH_BINARY | cv.THRESH_OTSU)
  from.delete()
  to.delete()
  return threshold
}

function openCvComponents({ width, height, data }: Mask, connectivity: 4 | 8) {
  const [from, labels] = [cv.matFromArray(height, width, cv.CV_8UC1, data), new cv.Mat()]
  const count = cv.connectedComponents(from, labels, connectivity, cv.CV_32S) - 1
  from.delete()
  labels.delete()
  return count
}

function openCvDistances({ width, height, data }: Mask) {
  const [from, to] = [cv.matFromArray(height, width, cv.CV_8UC1, data), new cv.Mat()]
  cv.distanceTransform(from, to, cv.DIST_L2, cv.DIST_MASK_PRECISE)
  const distances = Float32Array.from(to.data32F)
  from.delete()
  to.delete()
  return distances
}
