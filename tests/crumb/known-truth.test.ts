import { isDeepStrictEqual } from "node:util"
import sharp, { type Sharp } from "sharp"
import { describe, expect, test } from "vitest"
import { cutOut } from "../../server/crumb/area.ts"
import { findCells } from "../../server/crumb/find-cells.ts"
import { type Area, type Grey, type MeasuredCrumb, measureCrumb } from "../../server/crumb/measure.ts"
import { drawScene, mmPerPx, photograph, type Scene, small, tinted } from "./scene.ts"

const whole: Area = [
  { x: 0, y: 0 },
  { x: 1, y: 0 },
  { x: 1, y: 1 },
  { x: 0, y: 1 },
]
// drawn once for all tests here: a scene takes longer to draw than to measure
const crumb = drawScene()
const brown = tinted(crumb, { wall: 135, floor: 62 })
const fall40 = { fall: 0.4, noise: 6 }
const fall60 = { fall: 0.6, noise: 12 }
const photo = photograph(crumb, fall40)
const upright = measured(photo)

describe("a drawn crumb of known truth", () => {
  test.each([
    ["even light", () => measured(photograph(crumb))],
    ["a fall of 40 % with noise", () => upright],
    ["a fall of 60 % with much noise", () => measured(photograph(crumb, fall60))],
  ])("under %s is counted within 5 %, its visible cells within −8 to +2 %", (_, measure) => {
    const { count, share } = errors(crumb, measure())
    expect(Math.abs(count)).toBeLessThan(5)
    expect(share).toBeGreaterThan(-8)
    expect(share).toBeLessThan(2)
  })

  test.each([
    ["coarse", { voidShare: 0.45, medianMm2: 4, largestMm2: 60 }],
    ["open", { voidShare: 0.45, medianMm2: 3, spread: 1.1, largestMm2: 250 }],
    ["fine", { voidShare: 0.4, medianMm2: 0.7, spread: 0.6, largestMm2: 10 }],
  ])("that is %s is counted as well, in whatever light", (_, recipe) => {
    const scene = drawScene(recipe)
    for (const light of [{}, fall40, fall60, { noise: 20 }]) {
      const { count, share } = errors(scene, measured(photograph(scene, light)))
      expect(Math.abs(count)).toBeLessThan(5)
      expect(share).toBeGreaterThan(-8)
      expect(share).toBeLessThan(2)
    }
  })

  test("without the step that evens the light, a fall of 60 % spoils it", () => {
    const piece = cutOut(photograph(crumb, fall60), whole)
    const found = findCells(piece, { even: false, leastPx: 10 })!
    expect((found.cells.length / crumb.truth.cells - 1) * 100).toBeLessThan(-10)
  })

  test("with walls of less than a pixel is counted within 8 %", () => {
    const thin = drawScene({ voidShare: 0.45, gapPx: 2 })
    for (const light of [{}, fall40, fall60])
      expect(Math.abs(errors(thin, measured(photograph(thin, light))).count)).toBeLessThan(8)
  })

  test("baked brown is counted within 10 %, its visible cells within 15 %", () => {
    const { count, share } = errors(brown, measured(photograph(brown, fall40)))
    expect(Math.abs(count)).toBeLessThan(10)
    expect(Math.abs(share)).toBeLessThan(15)
  })

  test("has the sizes it was drawn with", () => {
    const { features, scaled } = upright
    const areas = crumb.truth.areasMm2
    const mean = areas.reduce((sum, area) => sum + area, 0) / areas.length
    expect(scaled!.cellsPerCm2 / (areas.length / 192)).toBeCloseTo(1, 1)
    expect(scaled!.meanCellMm2! / mean).toBeCloseTo(1, 1)
    // a log-normal law of deviation 0.8 has a Gini of 0.43, cut at 0.15 and 40 mm² nearly so
    expect(features.gini).toBeCloseTo(0.43, 1)
    expect(features.lieStrength).toBeLessThan(0.05)
    expect(features.topToBottom).toBeCloseTo(1, 1)
  })

  test("comes without a caution", () => {
    expect(upright.cautions).toEqual([])
  })
})

describe("the same crumb", () => {
  test.each([90, 180, 270])("turned by %i° has the same cells", async (angle) => {
    const turned = measured(await turn(photo, angle))
    expectSame(turned, upright, { count: 0.005, share: 0.001 })
  })

  test.each([0.5, 1.2])("at %d times the brightness has the same cells", (brightness) => {
    const data = photo.data.map((level) => Math.min(255, Math.round(level * brightness)))
    expectSame(measured({ ...photo, data }), upright, { count: 0.01, share: 0.005 })
  })

  test("kept as JPEG of quality 60 has the same cells", async () => {
    const kept = await sharp(photo.data, { raw: { ...small, channels: 1 } })
      .jpeg({ quality: 60 })
      .toBuffer()
    expectSame(measured(await grey(sharp(kept))), upright, { count: 0.01, share: 0.005 })
  })

  test("measured again gives the same numbers to the last digit", () => {
    expect(isDeepStrictEqual(measured(photo), upright)).toBe(true)
  })
})

function measured(photo: Grey): MeasuredCrumb {
  const crumb = measureCrumb(photo, whole, { mmPerPx })
  if (crumb.kind === "cannot") throw new Error(crumb.reasons.map(({ says }) => says).join(" "))
  return crumb
}

/** In percent of the truth. */
function errors({ truth }: Scene, { features }: MeasuredCrumb) {
  return {
    count: ((features.wholeCells + features.cutCells) / truth.cells - 1) * 100,
    share: (features.visibleCellShare / truth.voidShare - 1) * 100,
  }
}

function expectSame(one: MeasuredCrumb, other: MeasuredCrumb, within: { count: number; share: number }) {
  expect(Math.abs(one.cells.length / other.cells.length - 1)).toBeLessThanOrEqual(within.count)
  expect(Math.abs(one.features.visibleCellShare - other.features.visibleCellShare)).toBeLessThanOrEqual(within.share)
}

const turn = ({ data, width, height }: Grey, angle: number) =>
  grey(sharp(data, { raw: { width, height, channels: 1 } }).rotate(angle))

async function grey(picture: Sharp): Promise<Grey> {
  const { data, info } = await picture.greyscale().raw().toBuffer({ resolveWithObject: true })
  if (info.channels !== 1) throw new Error(`${info.channels} channels`)
  return { width: info.width, height: info.height, data: new Uint8Array(data) }
}
