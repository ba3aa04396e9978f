import exifr from "exifr"
import sharp from "sharp"
import { expect, test } from "vitest"
import { readCaptureTime } from "../../server/photos/capture-time.ts"
import { sample } from "./heic-file.ts"

const taken = (exif: Record<string, string>) =>
  sharp({ create: { width: 8, height: 8, channels: 3, background: "#d9c39a" } })
    .withExif({ IFD2: exif })
    .jpeg()
    .toBuffer()

test.each(["turned.jpg", "turned.png", "turned.webp", "told.heic", "av1.heic"])(
  "the time of %s, with its offset",
  async (name) => {
    expect(await readCaptureTime(sample(name))).toEqual({ wallTime: "2026-11-14T07:30:05", offset: "+01:00" })
  },
)

test("is what another reader finds", async () => {
  for (const name of ["turned.jpg", "told.heic"]) {
    const found = await exifr.parse(sample(name), {
      reviveValues: false,
      pick: ["DateTimeOriginal", "OffsetTimeOriginal"],
    })
    expect(found).toEqual({ DateTimeOriginal: "2026:11:14 07:30:05", OffsetTimeOriginal: "+01:00" })
  }
})

test("without an offset is a wall time only", async () => {
  expect(await readCaptureTime(await taken({ DateTimeOriginal: "2026:11:14 07:30:05" }))).toEqual({
    wallTime: "2026-11-14T07:30:05",
  })
})

test.each(["    :  :     :  :  ", " ", "yesterday"])("%j is none", async (DateTimeOriginal) => {
  expect(await readCaptureTime(await taken({ DateTimeOriginal }))).toBeUndefined()
})

test("a picture without EXIF has none", async () => {
  expect(await readCaptureTime(sample("plain.heic"))).toBeUndefined()
})

test("EXIF that points beyond its end is read as far as it goes", async () => {
  const whole = sample("turned.jpg")
  const from = whole.indexOf("Exif\0\0")
  for (let at = from + 6; at < from + 200; at++) {
    for (const byte of [0, 255]) {
      const broken = Buffer.from(whole)
      broken[at] = byte
      const time = await readCaptureTime(broken)
      expect(["undefined", "string"]).toContain(typeof time?.wallTime)
    }
  }
})
