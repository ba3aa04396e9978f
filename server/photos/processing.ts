import sharp, { type JpegOptions, type Sharp, type SharpOptions } from "sharp"
import { decodeHeic } from "./heic.ts"
import { isWhole } from "./heif-whole.ts"
import { type Kind, kindOf } from "./kinds.ts"
import { damaged, tookTooLong, tooManyPixels, UnreadablePhoto, unreadableHeic } from "./unreadable.ts"

export { UnreadablePhoto } from "./unreadable.ts"

/** Two JPEGs without any metadata; `width` and `height` in pixels are those of `large`. */
export type ProcessedPhoto = { large: Buffer; small: Buffer; width: number; height: number }

// Fine cells of a crumb are still told apart at 1600 px on the long side (own measurement on drawn crumbs: below 1200 px
// touching cells merge); 480 px fills a card of the class table on a phone. 15 MB and 50 megapixels hold what phones send.
export const largeSide = 1600
export const smallSide = 480
// four of them come with a bench, over a slow network; nothing is measured on them
const thrifty: JpegOptions = { quality: 60, mozjpeg: true }
export const maxUploadBytes = 15 * 1024 * 1024
const maxPixels = 5e7
const timeLimitSeconds = 30

// Nothing is read twice, so the cache of operations would only hold memory. One thread a picture and one picture at a
// time keep the peak to a single decoded photo: under glibc many parallel decodes leave memory fragmented for good.
sharp.cache(false)
sharp.concurrency(1)

// "error" refuses what was cut off or is broken, instead of measuring grey rubble, yet bears the harmless irregularities
// some phones write, on which "warning" gives up. The limit belongs on every constructor: there is no global one.
export const careful: SharpOptions = { failOn: "error", limitInputPixels: maxPixels }
// Of what a JPEG is warned about, only this speaks of lost parts of the picture; and no second try makes it quicker.
const final = /premature end of data segment|bad huffman code|timeout/i

let previous: Promise<unknown> = Promise.resolve()

/**
 * Turns an upload (JPEG, PNG, WebP, HEIC or AVIF, judged by its bytes) into an upright JPEG in sRGB and its small copy.
 * Never enlarges, lays transparent pictures on white, takes the first picture of an animation and the primary one of
 * several, and drops EXIF, GPS and all other metadata by encoding anew. Throws UnreadablePhoto.
 */
export function processPhoto(upload: Buffer, seconds = timeLimitSeconds): Promise<ProcessedPhoto> {
  const mine = previous.then(() => convert(upload, seconds))
  previous = mine.catch(() => {})
  return mine
}

async function convert(upload: Buffer, seconds: number): Promise<ProcessedPhoto> {
  if (upload.length === 0) throw new UnreadablePhoto("This file is empty; choose the picture again.")
  if (upload.length > maxUploadBytes)
    throw new UnreadablePhoto("This picture is larger than 15 MB; send a smaller copy.")
  const kind = kindOf(upload)
  try {
    const large = await (kind === "heif" ? shrinkHeif(upload, seconds) : shrinkUpright(upload, kind, seconds))
    const small = await shrink(sharp(large.data, careful), smallSide, seconds, thrifty)
    return { large: large.data, small: small.data, width: large.info.width, height: large.info.height }
  } catch (error) {
    if (error instanceof UnreadablePhoto) throw error
    throw new UnreadablePhoto(reason(error as Error, kind === "heif" ? unreadableHeic : damaged), { cause: error })
  }
}

async function shrinkUpright(upload: Buffer, kind: Kind, seconds: number) {
  // a file may begin as one kind and read as another
  const { format } = await sharp(upload, careful).metadata()
  if (format !== kind) throw new UnreadablePhoto(damaged)
  const upright = (failOn: SharpOptions["failOn"]) =>
    shrink(sharp(upload, { ...careful, failOn }).autoOrient(), largeSide, seconds)
  if (kind !== "jpeg") return upright("error")
  return upright("warning").catch((error: Error) => {
    if (final.test(error.message)) throw error
    return upright("error")
  })
}

/** The container says itself how its picture is turned, and both decoders turn it so; turning by EXIF would be once more. */
async function shrinkHeif(upload: Buffer, seconds: number) {
  const { pagePrimary: page = 0 } = await sharp(upload, careful).metadata()
  const { format, compression, icc = Buffer.alloc(0) } = await sharp(upload, { ...careful, page }).metadata()
  if (format !== "heif" || !isWhole(upload)) throw new UnreadablePhoto(damaged)
  if (compression === "av1") return shrink(sharp(upload, { ...careful, page }), largeSide, seconds)
  // the prebuilt decoder has no HEVC
  const picture = await decodeHeic(upload, icc, { mostPixels: maxPixels, seconds })
  return shrink(sharp(picture, careful), largeSide, seconds)
}

const shrink = (picture: Sharp, side: number, seconds: number, jpeg: JpegOptions = { quality: 85 }) =>
  picture
    .resize({ width: side, height: side, fit: "inside", withoutEnlargement: true })
    .flatten({ background: "white" })
    .toColourspace("srgb")
    .jpeg(jpeg)
    .timeout({ seconds: Math.ceil(seconds) })
    .toBuffer({ resolveWithObject: true })

function reason({ message }: Error, otherwise: string) {
  if (/pixel limit/i.test(message)) return tooManyPixels
  if (/timeout/i.test(message)) return tookTooLong
  return otherwise
}
