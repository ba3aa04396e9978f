import sharp from "sharp"
import { careful } from "./processing.ts"

/** What a camera wrote of when it took a picture: its wall time and, if it knew it, how far that is from UTC ("+01:00"). */
export type CaptureTime = { wallTime: string; offset?: string }

/**
 * The time a camera wrote into a picture that `processPhoto` has taken (EXIF DateTimeOriginal and OffsetTimeOriginal);
 * undefined when there is none. Nothing else of the EXIF is looked at. Source: Exif 2.32 (CIPA DC-008), 4.6.5, and TIFF
 * 6.0, section 2.
 */
export async function readCaptureTime(upload: Buffer): Promise<CaptureTime | undefined> {
  const { exif } = await sharp(upload, careful).metadata()
  try {
    return exif && captureTimeIn(exif)
  } catch (error) {
    if (error instanceof RangeError) return undefined // it points beyond its own end
    throw error
  }
}

const exifDirectory = 0x8769
const dateTimeOriginal = 0x9003
const offsetTimeOriginal = 0x9011

function captureTimeIn(exif: Buffer): CaptureTime | undefined {
  const { field, words } = fieldsIn(exif.toString("latin1", 0, 4) === "Exif" ? exif.subarray(6) : exif)
  const directory = field(exifDirectory)?.at
  if (directory === undefined) return undefined
  const [, day, time] = /^(\d{4}:\d\d:\d\d) (\d\d:\d\d:\d\d)/.exec(words(dateTimeOriginal, directory)) ?? []
  if (!day) return undefined
  const offset = /^[+-]\d\d:\d\d/.exec(words(offsetTimeOriginal, directory))?.[0]
  return { wallTime: `${day.replaceAll(":", "-")}T${time}`, ...(offset && { offset }) }
}

/** The fields of a TIFF's directories; without one it is the first. */
function fieldsIn(tiff: Buffer) {
  const little = tiff.toString("latin1", 0, 2) === "II"
  const short = (at: number) => (little ? tiff.readUInt16LE(at) : tiff.readUInt16BE(at))
  const long = (at: number) => (little ? tiff.readUInt32LE(at) : tiff.readUInt32BE(at))

  const field = (tag: number, directory = long(4)) => {
    const places = Array.from({ length: short(directory) }, (_, index) => directory + 2 + 12 * index)
    const place = places.find((at) => short(at) === tag)
    return place === undefined ? undefined : { count: long(place + 4), at: long(place + 8) }
  }
  const words = (tag: number, directory: number) => {
    const { at, count } = field(tag, directory) ?? { at: 0, count: 0 }
    return tiff.toString("latin1", at, at + Math.min(count, 40))
  }
  return { field, words }
}
