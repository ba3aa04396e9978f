import { crc32, deflateSync } from "node:zlib"
import sharp, { type Sharp } from "sharp"
import { describe, expect, test } from "vitest"
import { largeSide, maxUploadBytes, processPhoto, smallSide, UnreadablePhoto } from "../../server/photos/processing.ts"
import { cornersOf } from "./drawn.ts"
import { sample } from "./heic-file.ts"

const blank = (width: number, height: number, background = "#d9c39a") =>
  sharp({ create: { width, height, channels: 3, background } })

/** Every pixel another colour, so that the file is long and a cut falls into the picture. */
const noisy = (side: number) =>
  sharp(
    Uint8Array.from({ length: side * side * 3 }, (_, i) => (i * 2654435761) >>> 24),
    { raw: { width: side, height: side, channels: 3 } },
  )

/** A square of black in one bit a pixel, written by hand: drawing it would take the memory it is meant to threaten. */
function emptyPng(side: number) {
  const chunk = (name: string, data: Buffer) => {
    const body = Buffer.concat([Buffer.from(name), data])
    const [length, check] = [Buffer.alloc(4), Buffer.alloc(4)]
    length.writeUInt32BE(data.length)
    check.writeUInt32BE(crc32(body))
    return Buffer.concat([length, body, check])
  }
  const header = Buffer.from([0, 0, 0, 0, 0, 0, 0, 0, 1, 0, 0, 0, 0])
  header.writeUInt32BE(side, 0)
  header.writeUInt32BE(side, 4)
  const rows = deflateSync(Buffer.alloc(side * (1 + Math.ceil(side / 8))))
  const signature = Buffer.from("\x89PNG\r\n\x1a\n", "latin1")
  return Buffer.concat([signature, chunk("IHDR", header), chunk("IDAT", rows), chunk("IEND", Buffer.alloc(0))])
}

const sentence = async (upload: Buffer) => {
  const error = await processPhoto(upload).catch((thrown) => thrown)
  expect(error).toBeInstanceOf(UnreadablePhoto)
  expect(error.message).toMatch(/^This .+\.$/)
  return error.message as string
}

const pixel = async (picture: Buffer, left: number, top: number) =>
  Array.from(await sharp(picture).extract({ left, top, width: 1, height: 1 }).raw().toBuffer())

describe("a good picture", () => {
  test.each(["jpeg", "png", "webp"] as const)("%s becomes a large and a small JPEG", async (format) => {
    const photo = await processPhoto(await blank(3200, 2400).toFormat(format).toBuffer())

    expect(await sharp(photo.large).metadata()).toMatchObject({ format: "jpeg", width: largeSide, height: 1200 })
    expect(await sharp(photo.small).metadata()).toMatchObject({ format: "jpeg", width: smallSide, height: 360 })
    expect(photo).toMatchObject({ width: 1600, height: 1200 })
  })

  test("is never enlarged", async () => {
    const photo = await processPhoto(await blank(300, 200).jpeg().toBuffer())
    expect(photo).toMatchObject({ width: 300, height: 200 })
    expect(await sharp(photo.small).metadata()).toMatchObject({ width: 300, height: 200 })
  })

  // Orientations of the Exif standard; 5 and 7, mirrored and lying, are left out because no camera writes them.
  test.each([
    { orientation: 1, stored: (p: Sharp) => p },
    { orientation: 2, stored: (p: Sharp) => p.flop() },
    { orientation: 3, stored: (p: Sharp) => p.rotate(180) },
    { orientation: 4, stored: (p: Sharp) => p.flip() },
    { orientation: 6, stored: (p: Sharp) => p.rotate(270) },
    { orientation: 8, stored: (p: Sharp) => p.rotate(90) },
  ])("is turned upright from orientation $orientation", async ({ orientation, stored }) => {
    const corner = { input: await blank(40, 40, "#d00000").png().toBuffer(), left: 0, top: 0 }
    const upright = await blank(120, 200, "#ffffff").composite([corner]).png().toBuffer()
    const upload = await stored(sharp(upright)).withMetadata({ orientation }).jpeg().toBuffer()

    const { large, small, width, height } = await processPhoto(upload)

    expect([width, height]).toEqual([120, 200])
    for (const picture of [large, small]) {
      const [red, green] = await pixel(picture, 10, 10)
      expect(red).toBeGreaterThan(190)
      expect(green).toBeLessThan(30)
      expect((await pixel(picture, 110, 190))[1]).toBeGreaterThan(240)
    }
  })

  test("keeps no place, no time and no colour profile", async () => {
    const exif = {
      IFD0: { Make: "Oatfield", DateTime: "2031:05:04 10:20:30" },
      IFD3: { GPSLatitudeRef: "N", GPSLatitude: "51/1 30/1 0/1", GPSLongitudeRef: "W", GPSLongitude: "0/1 7/1 0/1" },
    }
    const upload = await blank(800, 600).withExif(exif).withIccProfile("p3").jpeg().toBuffer()
    expect((await sharp(upload).metadata()).exif!.includes("Oatfield")).toBe(true)

    const { large, small } = await processPhoto(upload)

    for (const picture of [large, small]) {
      const { exif, icc, xmp, iptc, orientation, density } = await sharp(picture).metadata()
      expect({ exif, icc, xmp, iptc, orientation }).toEqual({})
      expect(density).toBe(72)
      expect(picture.includes("Exif")).toBe(false)
      expect(picture.includes("Oatfield")).toBe(false)
    }
  })

  test("in a wide colour space is converted, not just relabelled", async () => {
    const upload = await blank(100, 100, "#e02020").withIccProfile("p3").png().toBuffer()
    const stored = await pixel(await sharp(upload, { ignoreIcc: true }).png().toBuffer(), 50, 50)
    expect(stored[0]).toBeLessThan(215)

    const [red, green] = await pixel((await processPhoto(upload)).large, 50, 50)

    expect(Math.abs(red! - 0xe0)).toBeLessThan(5)
    expect(Math.abs(green! - 0x20)).toBeLessThan(8)
  })

  test("with see-through parts lies on white", async () => {
    const clear = { r: 0, g: 0, b: 0, alpha: 0 }
    const upload = await sharp({ create: { width: 60, height: 60, channels: 4, background: clear } })
      .png()
      .toBuffer()
    expect(await pixel((await processPhoto(upload)).large, 30, 30)).toEqual([255, 255, 255])
  })

  test("in grey, in CMYK or in 16 bits comes out in sRGB", async () => {
    const uploads = [
      await blank(50, 50).greyscale().jpeg().toBuffer(),
      await blank(50, 50).toColourspace("cmyk").jpeg().toBuffer(),
      await blank(50, 50).toColourspace("rgb16").png().toBuffer(),
    ]
    for (const upload of uploads) {
      const { large } = await processPhoto(upload)
      expect(await sharp(large).metadata()).toMatchObject({ space: "srgb", depth: "uchar", channels: 3 })
    }
  })

  test("that moves shows its first picture", async () => {
    expect(await sharp(sample("moving.webp")).metadata()).toMatchObject({ pages: 2 })
    const { large, width, height } = await processPhoto(sample("moving.webp"))
    expect([width, height]).toEqual([240, 160])
    expect(await cornersOf(large)).toBe("red green dough blue")
  })

  test("is read although its phone wrote something harmless wrong", async () => {
    const upload = await noisy(300).jpeg().toBuffer()
    const scan = upload.indexOf(Buffer.from([0xff, 0xda]))
    const parameters = scan + 5 + 2 * upload[scan + 4]!
    upload.fill(0, parameters, parameters + 3)
    await expect(sharp(upload, { failOn: "warning" }).toBuffer()).rejects.toThrow(/Invalid SOS/)
    expect(await processPhoto(upload)).toMatchObject({ width: 300, height: 300 })
  })
})

// as an SVG that reads a file of this machine
const drawing = Buffer.from(
  '<svg xmlns="http://www.w3.org/2000/svg" width="9" height="9"><image href="/etc/passwd" width="9" height="9"/></svg>',
)
const film = Buffer.from("\0\0\0\x14ftypqt  \0\0\0\0qt  \0\0\0\0mdat", "latin1")

describe("a file that cannot be used is refused in one sentence", () => {
  test("empty", async () => expect(await sentence(Buffer.alloc(0))).toMatch(/empty/))

  test("over 15 MB", async () => expect(await sentence(Buffer.alloc(maxUploadBytes + 1))).toMatch(/15 MB/))

  test.each([
    ["GIF", sample("moving.gif"), "This is a GIF, which cannot be used here; send a JPEG, PNG, WebP or HEIC picture."],
    ["SVG", drawing, "This is a drawing (SVG) and not a photo; send a JPEG, PNG, WebP or HEIC picture."],
    [
      "PDF",
      Buffer.from("%PDF-1.7 not a picture"),
      "This is a PDF and not a picture; send a JPEG, PNG, WebP or HEIC picture.",
    ],
    ["a film", film, "This is a film and not a photo; send a JPEG, PNG, WebP or HEIC picture."],
    [
      "text",
      Buffer.from("Flour 500 g, water 350 g"),
      "This is not a picture that can be read here; send a JPEG, PNG, WebP or HEIC picture.",
    ],
  ])("%s, with what to send instead", async (_kind, upload, words) => expect(await sentence(upload)).toBe(words))

  test("a drawing behind an XML heading, a comment or a byte order mark", async () => {
    for (const before of ['<?xml version="1.0"?>\n', "<!-- flour -->", "\ufeff", "  \n"])
      expect(await sentence(Buffer.concat([Buffer.from(before), drawing]))).toMatch(/drawing/)
  })

  test("TIFF, whatever the decoder underneath could do with it", async () => {
    expect(await sentence(await blank(32, 32).tiff().toBuffer())).toMatch(/JPEG, PNG, WebP or HEIC/)
  })

  test("the first bytes of a JPEG before a drawing or plain text", async () => {
    for (const rest of ['<svg xmlns="http://www.w3.org/2000/svg" width="9" height="9"/>', "only notes"]) {
      expect(await sentence(Buffer.concat([Buffer.from([0xff, 0xd8, 0xff]), Buffer.from(rest)]))).toMatch(/damaged/)
    }
  })

  test.each([
    ["jpeg", {}],
    ["jpeg", { progressive: true }],
    ["png", {}],
    ["webp", {}],
  ] as const)("%s %o cut off on its way, wherever", async (format, options) => {
    const whole = await noisy(600).toFormat(format, options).toBuffer()
    await processPhoto(whole)
    for (const kept of [0.02, 0.3, 0.6, 0.9, 0.999])
      expect(await sentence(whole.subarray(0, whole.length * kept)), `${kept}`).toMatch(/cut off/)
  })

  test("a JPEG that was cut off, though its metadata reads as if nothing were missing", async () => {
    const cut = (await noisy(600).jpeg().toBuffer()).subarray(0, 2000)
    expect(await sharp(cut).metadata()).toMatchObject({ width: 600, height: 600 })
    expect(await sharp(cut, { failOn: "none" }).jpeg().toBuffer()).not.toHaveLength(0)
    expect(await sentence(cut)).toMatch(/cut off/)
  })

  test("a JPEG with a hole in its middle, which would show as grey", async () => {
    const whole = await noisy(600).jpeg().toBuffer()
    const holed = Buffer.from(whole).fill(0, whole.length >> 2, whole.length >> 1)
    expect(await sharp(holed, { failOn: "error" }).jpeg().toBuffer()).not.toHaveLength(0)
    expect(await sentence(holed)).toMatch(/damaged/)
  })

  test("31 KB of PNG that unfold into 256 million pixels, before they do", async () => {
    const upload = emptyPng(16_000)
    expect(upload.length).toBeLessThan(40_000)
    expect(await sentence(upload)).toMatch(/50 million pixels/)
    expect(await sentence(emptyPng(20_000))).toMatch(/50 million pixels/)
  })

  test("the same empty PNG is fine within the limit", async () => {
    expect(await processPhoto(emptyPng(1000))).toMatchObject({ width: 1000, height: 1000 })
  })

  test("and the next picture is read as usual", async () => {
    const [bad, good] = await Promise.allSettled([
      processPhoto(Buffer.from("notes")),
      processPhoto(await blank(20, 20).jpeg().toBuffer()),
    ])
    expect([bad.status, good.status]).toEqual(["rejected", "fulfilled"])
  })
})
