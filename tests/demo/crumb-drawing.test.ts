import sharp from "sharp"
import { beforeAll, describe, expect, test } from "vitest"
import { chance } from "../../server/demo/chance.ts"
import { type Cell, packCells } from "../../server/demo/crumb-cells.ts"
import { drawCrumb } from "../../server/demo/crumb-drawing.ts"
import { drawDoughJar } from "../../server/demo/jar-drawing.ts"
import { drawLoaf } from "../../server/demo/loaf-drawing.ts"

// Small enough to be drawn in a moment; places are given on the whole frame, 1600 wide.
const widthPx = 400
const small = (framePx: number) => Math.round((framePx * widthPx) / 1600)

const pixel = async (picture: Buffer, left: number, top: number) => {
  const [red, green, blue] = await sharp(picture)
    .extract({ left: small(left), top: small(top), width: 3, height: 3 })
    .resize(1)
    .raw()
    .toBuffer()
  return { red: red!, green: green!, blue: blue! }
}

describe("cells of the crumb", () => {
  const slice = [
    { x: 400, y: 300 },
    { x: 1200, y: 300 },
    { x: 1200, y: 1100 },
    { x: 400, y: 1100 },
  ]
  const spread = (values: number[]) => Math.max(...values) - Math.min(...values)
  const heightPx = (cell: Cell) => spread(cell.rim.map((p) => p.y))
  const widthPx = (cell: Cell) => spread(cell.rim.map((p) => p.x))
  const areaPx = ({ rim }: Cell) =>
    Math.abs(rim.reduce((sum, p, i) => sum + p.x * rim.at(i - 1)!.y - p.y * rim.at(i - 1)!.x, 0)) / 2
  const middleY = (cell: Cell) => cell.rim.reduce((sum, p) => sum + p.y, 0) / cell.rim.length
  const open = (proof: "under" | "well" | "over") => packCells(slice, proof, chance(4)).filter((cell) => cell.depth > 0)
  const median = (values: number[]) => values.sort((a, b) => a - b)[Math.floor(values.length / 2)]!

  test("grow coarser from under to well to over", () => {
    const [under, well, over] = (["under", "well", "over"] as const).map((proof) => median(open(proof).map(widthPx)))
    expect(under).toBeLessThan(well!)
    expect(well).toBeLessThan(over!)
  })

  test("an underproofed crumb has a few caverns, low or under the top crust, and a well-proofed one none", () => {
    const isCavern = (cell: Cell) => areaPx(cell) > 1500
    const caverns = open("under").filter(isCavern)
    expect(caverns.length).toBeGreaterThanOrEqual(2)
    expect(caverns.length).toBeLessThanOrEqual(6)
    expect(caverns.every((cell) => middleY(cell) < 400 || middleY(cell) > 850)).toBe(true)
    expect(open("well").filter(isCavern)).toEqual([])
  })

  test("an overproofed crumb is pressed flat at its base", () => {
    const flatness = (cells: Cell[]) => median(cells.map((cell) => widthPx(cell) / heightPx(cell)))
    const cells = open("over")
    expect(flatness(cells.filter((cell) => middleY(cell) > 1040))).toBeGreaterThan(1.7)
    expect(flatness(cells.filter((cell) => middleY(cell) < 800))).toBeLessThan(1.4)
  })

  test("all lie within the slice", () => {
    for (const { rim } of open("well")) {
      expect(rim.every(({ x, y }) => x > 390 && x < 1210 && y > 290 && y < 1110)).toBe(true)
    }
  })
})

describe("a slice", () => {
  let slice: Buffer
  beforeAll(async () => {
    slice = await drawCrumb({ seed: 11, proof: "well", widthPx })
  })

  test("is drawn in the same bytes for the same seed, in others for another", async () => {
    expect(slice.equals(await drawCrumb({ seed: 11, proof: "well", widthPx }))).toBe(true)
    expect(slice.equals(await drawCrumb({ seed: 12, proof: "well", widthPx }))).toBe(false)
  })

  test("is light in the middle, with the contrast of cells, and browner at its crust", async () => {
    const [crumb] = (
      await sharp(slice)
        .extract({ left: small(600), top: small(600), width: small(400), height: small(300) })
        .toBuffer()
        .then((part) => sharp(part).stats())
    ).channels
    expect(crumb!.mean).toBeGreaterThan(150)
    expect(crumb!.stdev).toBeGreaterThan(12)
    const column = await sharp(slice)
      .extract({ left: small(795), top: small(150), width: 2, height: small(500) })
      .resize({ width: 1, height: small(500), fit: "fill" })
      .raw()
      .toBuffer()
    const darkest = Math.min(...Array.from({ length: small(500) }, (_, y) => column[3 * y]!))
    expect(darkest).toBeLessThan(crumb!.mean - 60)
  })

  test("comes as wide as asked", async () => {
    expect(await sharp(slice).metadata()).toMatchObject({ format: "jpeg", width: 400, height: 300 })
  })
})

test("dough in the jar stands where its rise says, the band where it began", async () => {
  const picture = await drawDoughJar({ seed: 2, rise: 0.5, widthPx })
  const yellow = async (y: number) => {
    const { red, blue } = await pixel(picture, 800, y)
    return red - blue
  }
  // Started 300 px high on a floor at 1060; half as much again is 450 px.
  expect(await yellow(1060 - 430)).toBeGreaterThan((await yellow(1060 - 520)) + 15)
  const band = await pixel(picture, 800, 760 - 6)
  expect(band.red - band.green).toBeGreaterThan(50)
})

test.each([-0.3, 2, Number.NaN])("a rise of %s does not fit the jar", async (rise) => {
  await expect(drawDoughJar({ seed: 1, rise })).rejects.toThrow(RangeError)
})

test("a well-proofed loaf stands higher than an overproofed one", async () => {
  const crust = async (proof: "well" | "over") => {
    const { red, blue } = await pixel(await drawLoaf({ seed: 6, proof, widthPx }), 800, 450)
    return red - blue
  }
  expect(await crust("well")).toBeGreaterThan((await crust("over")) + 40)
})
