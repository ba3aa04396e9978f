import { createRequire } from "node:module"
import type openCv from "@techstark/opencv-js"
import { Image, threshold, waterShed } from "image-js"
import sharp from "sharp"
import { squaredDistances } from "../../server/crumb/distance.ts"
import { evenLight } from "../../server/crumb/even-light.ts"
import type { Grey } from "../../server/crumb/picture.ts"
import { chance } from "../../server/demo/chance.ts"
import { drawLarge, large } from "../crumb/scene.ts"

// required, not imported: the module is thenable, so whatever waits for its import waits for ever
const cv: typeof openCv = createRequire(import.meta.url)("@techstark/opencv-js")
if (!cv.Mat) await new Promise<void>((resolve) => Object.assign(cv, { onRuntimeInitialized: resolve }))

/** A drawn crumb under a fall of light of 40 % with noise, as a JPEG of 12 megapixels. */
export async function drawPhoto() {
  const { lightness } = drawLarge({})
  const dice = chance(11)
  const grain = Float32Array.from({ length: 1 << 18 }, () => 6 * dice.normal())
  const data = new Uint8Array(3 * lightness.length)
  for (let i = 0; i < lightness.length; i++) {
    const light = 1 - (0.4 * (i % large.width)) / large.width
    const level = Math.max(0, Math.min(255, lightness[i]! * light + grain[(i * 7 + (i >> 9)) & (grain.length - 1)]!))
    data[3 * i] = level
    data[3 * i + 1] = level * 0.96
    data[3 * i + 2] = level * 0.85
  }
  return sharp(data, { raw: { ...large, channels: 3 } })
    .jpeg({ quality: 90 })
    .toBuffer()
}

/**
 * The steps of the measure with OpenCV: median, even light (ours: it has none by percentile), Otsu, holes filled by
 * contours, exact distances, parting by its watershed from the distance's tops, area, moments and outline of each cell.
 */
export function withOpenCv(grey: Grey) {
  const kept: { delete(): void }[] = []
  const mat = () => {
    const fresh = new cv.Mat()
    kept.push(fresh)
    return fresh
  }
  const { width, height } = grey
  const from = cv.matFromArray(height, width, cv.CV_8UC1, grey.data)
  kept.push(from)
  const smooth = mat()
  cv.medianBlur(from, smooth, 3)
  const all = { width, height, data: new Uint8Array(width * height).fill(1) }
  const even = cv.matFromArray(height, width, cv.CV_8UC1, evenLight({ width, height, data: smooth.data }, all).data)
  kept.push(even)
  const dark = mat()
  cv.threshold(even, dark, 0, 255, cv.THRESH_BINARY_INV | cv.THRESH_OTSU)

  const contours = new cv.MatVector()
  kept.push(contours)
  cv.findContours(dark, contours, mat(), cv.RETR_EXTERNAL, cv.CHAIN_APPROX_SIMPLE)
  cv.drawContours(dark, contours, -1, new cv.Scalar(255), cv.FILLED)

  const distance = mat()
  cv.distanceTransform(dark, distance, cv.DIST_L2, cv.DIST_MASK_PRECISE)
  const [widest, tops, tops8, markers] = [mat(), mat(), mat(), mat()]
  cv.dilate(distance, widest, cv.Mat.ones(7, 7, cv.CV_8U))
  cv.subtract(widest, distance, widest)
  cv.threshold(widest, tops, 0.5, 255, cv.THRESH_BINARY_INV)
  tops.convertTo(tops8, cv.CV_8U)
  cv.bitwise_and(tops8, dark, tops8)
  const cells = cv.connectedComponents(tops8, markers, 8, cv.CV_32S)
  const colour = mat()
  cv.cvtColor(even, colour, cv.COLOR_GRAY2BGR)
  const light = dark.data
  for (let i = 0; i < light.length; i++) if (light[i] === 0) markers.data32S[i] = cells
  cv.watershed(colour, markers)

  const parted = cv.matFromArray(height, width, cv.CV_8UC1, new Uint8Array(width * height))
  kept.push(parted)
  for (let i = 0; i < light.length; i++) parted.data[i] = light[i]! > 0 && markers.data32S[i]! > 0 ? 255 : 0
  const outlines = new cv.MatVector()
  kept.push(outlines)
  cv.findContours(parted, outlines, mat(), cv.RETR_EXTERNAL, cv.CHAIN_APPROX_NONE)
  let found = 0
  for (let i = 0; i < (outlines.size() as unknown as number); i++) {
    const outline = outlines.get(i)
    if (cv.moments(outline, false).m00 >= 6 && cv.arcLength(outline, true) > 0) found++
    outline.delete()
  }
  for (const one of kept) one.delete()
  return found
}

/**
 * The steps of the measure with image-js: median, even light and distances (ours: it has neither), Otsu, holes, parting by
 * its watershed on the distances, area, perimeter and ellipse of each cell.
 */
export function withImageJs(grey: Grey) {
  const { width, height } = grey
  const smooth = new Image(width, height, { data: Uint8Array.from(grey.data), colorModel: "GREY" }).medianFilter({
    cellSize: 3,
  })
  const all = { width, height, data: new Uint8Array(width * height).fill(1) }
  const even = evenLight({ width, height, data: smooth.getRawImage().data as Uint8Array }, all)
  const dark = threshold(new Image(width, height, { data: even.data, colorModel: "GREY" }))
    .invert()
    .solidFill()
  const marked = { width, height, data: dark.getRawImage().data }
  const depth = Uint8Array.from(squaredDistances(marked), (squared) => 255 - Math.min(255, 4 * Math.sqrt(squared)))
  const parted = waterShed(new Image(width, height, { data: depth, colorModel: "GREY" }), { mask: dark.invert() })
  return parted.getRois({ kind: "black" }).filter((roi) => roi.surface >= 6 && roi.perimeter > 0 && roi.ellipse).length
}
