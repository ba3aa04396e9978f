import sharp from "sharp"
import { describe, expect, test } from "vitest"
import { decodeHeic } from "../../server/photos/heic.ts"
import { isWhole } from "../../server/photos/heif-whole.ts"
import { processPhoto, UnreadablePhoto } from "../../server/photos/processing.ts"
import { cornersOf } from "./drawn.ts"
import { sample, secondOfTwo, tiledHeic, turnedHeic } from "./heic-file.ts"

const upright = "red green dough blue"
const refusal = async (upload: Buffer) => {
  const error = await processPhoto(upload).catch((thrown) => thrown)
  expect(error).toBeInstanceOf(UnreadablePhoto)
  return error.message as string
}

describe("a HEIC picture", () => {
  test.each(["plain.heic", "p3.heic", "ten-bit.heic", "full-colour.heic", "two.heic", "told.heic", "av1.heic"])(
    "%s is read, whatever its name",
    async (name) => {
      const { large, small, width, height } = await processPhoto(sample(name))
      expect([width, height]).toEqual([240, 160])
      for (const picture of [large, small]) expect(await cornersOf(picture)).toBe(upright)
      expect(await sharp(large).metadata()).toMatchObject({
        format: "jpeg",
        space: "srgb",
        depth: "uchar",
        channels: 3,
      })
    },
  )

  // what each corner shows then, from the top left as one reads
  test.each([
    [{ quarters: 1 }, 160, "green blue red dough"],
    [{ quarters: 2 }, 240, "blue dough green red"],
    [{ quarters: 3 }, 160, "dough red blue green"],
    [{ mirror: "left-right" }, 240, "green red blue dough"],
    [{ mirror: "top-bottom" }, 240, "dough blue red green"],
    [{ quarters: 1, mirror: "left-right" }, 160, "blue green dough red"],
  ] as const)("is turned as its own boxes say: %o", async (turn, width, corners) => {
    const photo = await processPhoto(turnedHeic("plain.heic", turn))
    expect(photo).toMatchObject({ width, height: 400 - width })
    expect(await cornersOf(photo.large)).toBe(corners)
  })

  test.each(["told.heic", "av1.heic"])("%s is not turned by its EXIF, which says 6", async (name) => {
    const { exif } = await sharp(sample(name)).metadata()
    expect(exif!.readUInt16BE(6 + 10 + 2 * 12 + 8)).toBe(6)
    expect(await cornersOf((await processPhoto(sample(name))).large)).toBe(upright)
  })

  test("in a phone's wide colours is converted to sRGB", async () => {
    const seen = await sharp((await processPhoto(sample("p3.heic"))).large)
      .extract({ left: 120, top: 80, width: 1, height: 1 })
      .raw()
      .toBuffer()
    const [red, green, blue] = seen
    expect(Math.abs(red! - 200) + Math.abs(green! - 180) + Math.abs(blue! - 140)).toBeLessThan(12)
  })

  test("lies on white where it is see-through", async () => {
    const { large } = await processPhoto(sample("clear.heic"))
    const [red, green, blue] = await sharp(large).extract({ left: 120, top: 80, width: 1, height: 1 }).raw().toBuffer()
    expect([red! > 220, green! > 210, blue! > 190]).toEqual([true, true, true])
  })

  test("of several shows the primary one, not the first", async () => {
    const photo = await processPhoto(secondOfTwo("crumbs.heic", "plain.heic"))
    expect(photo).toMatchObject({ width: 240, height: 160 })
    expect(await cornersOf(photo.large)).toBe(upright)
  })

  test("in tiles, as phones write it, is put together and cut to its size", async () => {
    const photo = await processPhoto(tiledHeic("plain.heic", { rows: 2, columns: 2, width: 400, height: 300 }))
    expect(photo).toMatchObject({ width: 400, height: 300 })
    expect(await cornersOf(photo.large)).toBe("red dough dough dough")
  })
})

describe("a HEIC file that cannot be read is refused", () => {
  const tiled = tiledHeic("crumbs.heic", { rows: 2, columns: 2, width: 200, height: 150 })

  test("cut off anywhere, though the decoder would paint the missing tiles green", async () => {
    for (const kept of [0.01, 0.1, 0.3, 0.5, 0.7, 0.9, 0.999])
      expect(await refusal(tiled.subarray(0, tiled.length * kept)), `${kept}`).toMatch(/damaged|not a picture/)
  })

  test("with a hole that was never filled in", async () => {
    const holed = Buffer.from(tiled).fill(0, 14_000, 14_200)
    expect(await refusal(holed)).toMatch(/damaged/)
  })

  test("without what its decoder must know, or in a coding of its own", async () => {
    for (const [from, to] of [
      ["hvcC", "free"],
      ["hvc1", "vvc1"],
      ["hvc1", "xyz1"],
    ] as const) {
      const altered = Buffer.from(sample("plain.heic").toString("latin1").replaceAll(from, to), "latin1")
      expect(await refusal(altered)).toMatch(
        /^This HEIC picture is damaged, or made in a way that cannot be read here;/,
      )
    }
  })

  test("that says it is smaller than it is", async () => {
    expect(await refusal(withSize(sample("plain.heic"), 24, 16))).toMatch(/damaged/)
  })

  test("that says it has 400 million pixels, before anything is decoded", async () => {
    expect(await refusal(withSize(sample("plain.heic"), 20_000, 20_000))).toMatch(/50 million pixels/)
  })

  test("with nothing behind its first bytes", async () => {
    for (const brand of ["heic", "heix", "mif1", "avif"])
      expect(
        await refusal(Buffer.concat([Buffer.from([0, 0, 0, 24]), Buffer.from(`ftyp${brand}`), Buffer.alloc(16)])),
      ).toMatch(/HEIC.+JPEG/)
  })

  test("when it takes too long or too much memory, and the next one is read as usual", async () => {
    const limits = { mostPixels: 5e7, seconds: 30 }
    const decode = (changes: object, picture = sample("plain.heic")) =>
      decodeHeic(picture, Buffer.alloc(0), { ...limits, ...changes }).then(
        () => "read",
        ({ message }) => message,
      )
    expect(await decode({ seconds: 0.001 })).toMatch(/took too long/)
    expect(
      await decode({ mostMemory: 0 }, tiledHeic("plain.heic", { rows: 12, columns: 12, width: 2880, height: 1920 })),
    ).toMatch(/more memory/)
    expect(await decode({ mostPixels: 100 })).toMatch(/50 million pixels/)
    expect(await decode({})).toBe("read")
  })

  test("a list in it that would take for ever to follow is refused at once", () => {
    const file = Buffer.from(tiled)
    const iloc = file.indexOf("iloc") + 4
    file.writeUInt16BE(0, iloc + 4)
    file.writeUInt16BE(65_535, iloc + 6)
    expect(isWhole(file)).toBe(false)
  })

  test("and rubbish in its lists breaks nothing", () => {
    const whole = sample("plain.heic")
    for (let at = 24; at < whole.length; at++)
      for (const byte of [0, 1, 127, 255]) {
        const broken = Buffer.from(whole)
        broken[at] = byte
        expect(typeof isWhole(broken)).toBe("boolean")
      }
  })
})

function withSize(file: Buffer, width: number, height: number) {
  const changed = Buffer.from(file)
  const ispe = changed.indexOf("ispe") + 8
  changed.writeUInt32BE(width, ispe)
  changed.writeUInt32BE(height, ispe + 4)
  return changed
}
