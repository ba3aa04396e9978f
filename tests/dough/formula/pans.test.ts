import { describe, expect, test } from "vitest"
import { type PanShape, panMeasures, panShapes, readPan } from "../../../server/dough/formula/pan-measures.ts"
import {
  baseAreaMm2,
  doughForPanG,
  fullWith,
  type Pan,
  shapedForTin,
  volumeMl,
} from "../../../server/dough/formula/pans.ts"

describe("a pan is read as somebody measures it", () => {
  test.each<[PanShape, string, Pan]>([
    ["round", "24 × 5 cm", { outline: "round", topMm: 240, bottomMm: 240, heightMm: 50 }],
    ["round", "26/24 x 50 mm", { outline: "round", topMm: 26, bottomMm: 24, heightMm: 50 }],
    ["round", "26 cm / 24 cm x 50 mm", { outline: "round", topMm: 260, bottomMm: 240, heightMm: 50 }],
    ["round", "30 cm", { outline: "round", topMm: 300, bottomMm: 300, heightMm: undefined }],
    [
      "square",
      "8 by 2,5 in",
      { outline: "rectangle", topMm: [203.2, 203.2], bottomMm: [203.2, 203.2], heightMm: 63.5 },
    ],
    ["square", '10" × 2"', { outline: "rectangle", topMm: [254, 254], bottomMm: [254, 254], heightMm: 50.8 }],
    ["rectangle", "40 x 30 cm", { outline: "rectangle", topMm: [400, 300], bottomMm: [400, 300], heightMm: undefined }],
    [
      "rectangle",
      "21 × 11 / 19 × 9 × 7 cm",
      { outline: "rectangle", topMm: [210, 110], bottomMm: [190, 90], heightMm: 70 },
    ],
  ])("%s %s", (shape, text, pan) => {
    expect(readPan(shape, text)).toEqual({ pan })
  })
})

test.each<[PanShape, string, RegExp]>([
  ["round", "24 × 5", /with mm, cm or in/],
  ["round", "about 24 cm", /Give across × height/],
  ["round", "24 × 5 × 3 cm", /Give across × height/],
  ["rectangle", "24 cm", /Give length × width × height/],
  ["rectangle", "21 × 11 × 7 / 19 × 9 × 7 cm", /Give length/],
  ["square", "24 × 5 mm", /check the unit/],
  ["round", "24/26 × 5 cm", /give the rim first/],
])("%s %s is asked about", (shape, text, problem) => {
  expect(readPan(shape, text)).toEqual({ problem: expect.stringMatching(problem) })
})

test("a tin's dough comes from its volume, how full it is to be and what a gram takes up", () => {
  const tin: Pan = { outline: "rectangle", topMm: [200, 100], bottomMm: [200, 100], heightMm: 100 }
  expect(doughForPanG(tin, { full: 0.6, mlPerG: 1.2 })).toBeCloseTo(1000, 9)
  expect(fullWith(tin, 1000, 1.2)).toBeCloseTo(0.6, 9)
  expect(shapedForTin.source).toBe("common practice, no published source")
})

test("flat breads are compared by the base, which needs no height", () => {
  const tray: Pan = { outline: "rectangle", topMm: [410, 310], bottomMm: [400, 300] }
  expect(baseAreaMm2(tray)).toBe(120_000)
  expect(() => volumeMl(tray)).toThrow(RangeError)
})

test("a pan without size is refused", () => {
  expect(() => volumeMl({ outline: "round", topMm: 0, bottomMm: 100, heightMm: 50 })).toThrow(RangeError)
})

test.each(panShapes)("what cannot be read says how a %s pan is measured", (shape) => {
  expect(readPan(shape, "")).toEqual({ problem: expect.stringContaining(panMeasures[shape]) })
})
