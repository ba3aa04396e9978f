import exifr from "exifr"
import sharp from "sharp"
import { describe, expect, test } from "vitest"
import { processPhoto } from "../../server/photos/processing.ts"
import { cornersOf } from "./drawn.ts"
import { sample, tiledHeic, turnedHeic } from "./heic-file.ts"

// exifr shares no code with the decoder or with our own reader of capture times
const everything = {
  ...{ tiff: true, ifd0: {}, ifd1: true, exif: true, gps: true, interop: true, makerNote: true, userComment: true },
  ...{ xmp: true, icc: true, iptc: true, jfif: false, ihdr: false },
} as const

const traces = [
  "Exif",
  "GPS",
  "Oatfield",
  "Wilma",
  "Nowhere",
  "adobe",
  "http:",
  "photoshop",
  "xpacket",
  "ICC_PROFILE",
  "8BIM",
  "OF-112358",
  "2026:11:14",
]

describe("no metadata is in any byte that is kept", () => {
  test.each([
    ...["turned.jpg", "turned.png", "turned.webp", "told.heic", "av1.heic"].map(
      (name) => [name, sample(name)] as const,
    ),
    ...[
      "plain.heic",
      "p3.heic",
      "ten-bit.heic",
      "full-colour.heic",
      "clear.heic",
      "two.heic",
      "crumbs.heic",
      "moving.webp",
    ].map((name) => [name, sample(name)] as const),
    ["a turned HEIC", turnedHeic("plain.heic", { quarters: 1 })] as const,
    ["a HEIC in tiles", tiledHeic("plain.heic", { rows: 1, columns: 2, width: 400, height: 160 })] as const,
  ])("of %s", async (_name, upload) => {
    const { large, small } = await processPhoto(upload)
    for (const kept of [large, small]) {
      expect(await exifr.parse(kept, everything)).toBeUndefined()
      expect(await exifr.gps(kept).catch(() => undefined)).toBeUndefined()
      for (const trace of traces) expect(kept.includes(trace), trace).toBe(false)
      expect(markersOf(kept).filter((marker) => marker !== 0xe0 && marker >= 0xe0)).toEqual([])
      const { exif, icc, xmp, iptc, orientation, comments } = await sharp(kept).metadata()
      expect({ exif, icc, xmp, iptc, orientation, comments }).toEqual({})
    }
  })
})

test.each(["turned.jpg", "told.heic"])("%s had much to tell", async (name) => {
  const found = await exifr.parse(sample(name), { ...everything, mergeOutput: true })
  expect(found).toMatchObject({ Make: "Oatfield", GPSLatitudeRef: "N" })
  for (const trace of ["GPS", "Exif", "Wilma"].slice(1)) expect(sample(name).includes(trace)).toBe(true)
})

test.each(["turned.jpg", "turned.png", "turned.webp"])("%s, held upright, stands upright", async (name) => {
  const stored = await sharp(sample(name)).metadata()
  expect(stored).toMatchObject({ width: 160, height: 240, autoOrient: { width: 240, height: 160 } })
  const { large, small, width, height } = await processPhoto(sample(name))
  expect([width, height]).toEqual([240, 160])
  for (const picture of [large, small]) expect(await cornersOf(picture)).toBe("red green dough blue")
})

/** The segments of a JPEG up to its picture data; 0xe0 is JFIF, the other 0xe… and 0xfe hold metadata and comments. */
function markersOf(jpeg: Buffer) {
  const markers: number[] = []
  for (let at = 2; jpeg[at] === 0xff && jpeg[at + 1] !== 0xda; at += 2 + jpeg.readUInt16BE(at + 2))
    markers.push(jpeg[at + 1]!)
  return markers
}
