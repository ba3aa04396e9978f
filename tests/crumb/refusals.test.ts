import { readFileSync } from "node:fs"
import sharp, { type Sharp } from "sharp"
import { describe, expect, test } from "vitest"
import { type Area, type Grey, measureCrumb, suggestArea } from "../../server/crumb/measure.ts"
import { chance } from "../../server/demo/chance.ts"
import { drawCrumb } from "../../server/demo/crumb-drawing.ts"
import { drawLoaf } from "../../server/demo/loaf-drawing.ts"

const size = { width: 1600, height: 1200 }
const middle: Area = [
  { x: 0.2, y: 0.2 },
  { x: 0.8, y: 0.2 },
  { x: 0.8, y: 0.8 },
  { x: 0.2, y: 0.8 },
]
const cat = new URL("samples/cat.jpg", import.meta.url)

describe("no numbers, but the reason, for", () => {
  test("a cat", async () => {
    expect(refusal(await grey(sharp(readFileSync(cat)).resize(size)))).toContain("not-one-crumb")
  })

  test.each([1, 2])("a whole loaf (%i)", async (seed) => {
    const loaf = await grey(sharp(await drawLoaf({ seed, proof: "well" })))
    expect(refusal(loaf, suggestArea(loaf))).toContain("not-cells")
    expect(refusal(loaf)).toContain("not-one-crumb")
  })

  test("a blank wall", () => {
    expect(refusal(drawn((_x, _y, noise) => 205 + 4 * noise()))).toContain("no-contrast")
    expect(refusal(drawn(() => 128))).toEqual(["no-contrast"])
  })

  test("a black frame, with the noise of a camera and without", () => {
    expect(refusal(drawn((_x, _y, noise) => noise()))).toContain("too-dark")
    expect(refusal(drawn(() => 0))).toEqual(["too-dark"])
  })

  test("a frame in full sun", () => {
    expect(refusal(drawn(() => 255))).toEqual(["too-bright"])
  })

  test("pure noise", () => {
    expect(refusal(drawn((_x, _y, noise) => 128 + 60 * noise()))).toContain("not-cells")
  })

  test("stripes", () => {
    expect(refusal(drawn((x, y) => ((x + 0.3 * y) % 24 < 12 ? 60 : 190)))).toContain("no-cells")
  })

  test("a printed page", async () => {
    const lines = Array.from(
      { length: 40 },
      (_, i) => `<text x="60" y="${i * 30}">Levain, water, flour, salt; rest, fold, shape.</text>`,
    )
    const page = `<svg xmlns="http://www.w3.org/2000/svg" width="1600" height="1200"><rect width="1600" height="1200" fill="#eee"/><g font-size="24" textLength="1500">${lines.join("")}</g></svg>`
    const reasons = refusal(await grey(sharp(Buffer.from(page))))
    expect(reasons.some((code) => code === "not-cells" || code === "no-cells")).toBe(true)
  })
})

// drawn once: drawing takes longer than measuring
const well = sharp(await drawCrumb({ seed: 3, proof: "well" }))

describe("a drawn slice of bread", () => {
  test.each(["under", "well", "over"] as const)("%sproofed is measured in the area suggested", async (proof) => {
    const slice = await grey(proof === "well" ? well.clone() : sharp(await drawCrumb({ seed: 3, proof })))
    const crumb = measureCrumb(slice, suggestArea(slice))
    expect(crumb.kind).toBe("measured")
    if (crumb.kind === "measured") expect(crumb.cautions.map(({ code }) => code)).not.toContain("crust")
  })

  test("under a low lamp says that the light falls from one side", async () => {
    const slice = await grey(well.clone())
    const crumb = measureCrumb(slice, suggestArea(slice))
    expect(crumb.kind === "measured" && crumb.cautions.map(({ code }) => code)).toContain("one-sided-light")
  })

  test("is refused with its crust and the table in the area", async () => {
    const slice = await grey(well.clone())
    const all: Area = middle.map(({ x, y }) => ({ x: x > 0.5 ? 0.95 : 0.05, y: y > 0.5 ? 0.95 : 0.05 }))
    expect(refusal(slice, all)).toContain("not-one-crumb")
  })

  test("is refused when it was sent too small", async () => {
    const slice = await grey(well.clone().resize(1000))
    expect(refusal(slice)).toEqual(["small-picture"])
  })

  test("is refused when the area is a scrap of it", async () => {
    const slice = await grey(well.clone())
    expect(
      refusal(
        slice,
        middle.map(({ x, y }) => ({ x: 0.4 + x * 0.1, y: 0.4 + y * 0.1 })),
      ),
    ).toEqual(["small-area"])
  })

  test("is refused when the camera shook", async () => {
    const slice = await grey(well.clone().blur(8))
    expect(refusal(slice, suggestArea(slice))).toContain("blurred")
  })
})

test.each([
  ["two corners", middle.slice(0, 2)],
  ["a corner outside the picture", [...middle.slice(0, 3), { x: -0.1, y: 0.5 }]],
  ["a corner that is no number", [...middle.slice(0, 3), { x: Number.NaN, y: 0.5 }]],
])("an area with %s is no area", (_, area) => {
  expect(() =>
    measureCrumb(
      drawn(() => 128),
      area,
    ),
  ).toThrow(RangeError)
})

test.each([0, -1, Number.NaN, Number.POSITIVE_INFINITY])("%d mm a pixel is no scale", (mmPerPx) => {
  expect(() =>
    measureCrumb(
      drawn(() => 128),
      middle,
      { mmPerPx },
    ),
  ).toThrow(RangeError)
})

function refusal(picture: Grey, area: Area = middle) {
  const crumb = measureCrumb(picture, area)
  if (crumb.kind === "measured") throw new Error("Measured, though it is no crumb")
  return crumb.reasons.map(({ code }) => code)
}

function drawn(level: (x: number, y: number, noise: () => number) => number): Grey {
  const dice = chance(5)
  const { width, height } = size
  const data = new Uint8Array(width * height)
  for (let i = 0; i < data.length; i++) {
    data[i] = Math.max(0, Math.min(255, Math.round(level(i % width, Math.floor(i / width), dice.normal))))
  }
  return { width, height, data }
}

async function grey(picture: Sharp): Promise<Grey> {
  const { data, info } = await picture.greyscale().extractChannel(0).raw().toBuffer({ resolveWithObject: true })
  return { width: info.width, height: info.height, data: new Uint8Array(data) }
}
