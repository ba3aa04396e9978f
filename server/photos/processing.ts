import sharp, { type Sharp, type SharpOptions } from "sharp"

/** A picture that cannot be used; the message is one plain sentence for the person who sent it. */
export class UnreadablePhoto extends Error {}

/** Two JPEGs without any metadata; `width` and `height` in pixels are those of `large`. */
export type ProcessedPhoto = { large: Buffer; small: Buffer; width: number; height: number }

// Fine cells of a crumb are still told apart at 1600 px on the long side (own measurement on drawn crumbs: below 1200 px
// touching cells merge); 480 px fills a card of the class table on a phone. 15 MB and 50 megapixels hold what phones send.
export const largeSide = 1600
export const smallSide = 480
export const maxUploadBytes = 15 * 1024 * 1024
const maxPixels = 5e7
const timeLimitSeconds = 30

// Nothing is read twice, so the cache of operations would only hold memory. One thread a picture and one picture at a
// time keep the peak to a single decoded photo: under glibc many parallel decodes leave memory fragmented for good.
sharp.cache(false)
sharp.concurrency(1)

// "error" refuses what was cut off or is broken, instead of measuring grey rubble, yet bears the harmless irregularities
// some phones write, on which "warning" gives up. The limit belongs on every constructor: there is no global one.
const careful: SharpOptions = { failOn: "error", limitInputPixels: maxPixels }

let previous: Promise<unknown> = Promise.resolve()

/**
 * Turns an upload (JPEG, PNG or WebP, judged by its bytes) into an upright JPEG in sRGB and its small copy. Never
 * enlarges, lays transparent pictures on white, takes the first picture of an animation, and drops EXIF, GPS and all
 * other metadata by encoding anew. Throws UnreadablePhoto.
 */
export function processPhoto(upload: Buffer): Promise<ProcessedPhoto> {
  const mine = previous.then(() => convert(upload))
  previous = mine.catch(() => {})
  return mine
}

async function convert(upload: Buffer): Promise<ProcessedPhoto> {
  if (upload.length === 0) throw new UnreadablePhoto("This file is empty; choose the picture again.")
  if (upload.length > maxUploadBytes)
    throw new UnreadablePhoto("This picture is larger than 15 MB; send a smaller copy.")
  refuseOtherKinds(upload)
  try {
    const large = await shrink(sharp(upload, careful).autoOrient(), largeSide)
    const small = await shrink(sharp(large.data, careful), smallSide)
    return { large: large.data, small: small.data, width: large.info.width, height: large.info.height }
  } catch (error) {
    throw new UnreadablePhoto(reason(error as Error), { cause: error })
  }
}

const shrink = (picture: Sharp, side: number) =>
  picture
    .resize({ width: side, height: side, fit: "inside", withoutEnlargement: true })
    .flatten({ background: "white" })
    .toColourspace("srgb")
    .jpeg({ quality: 85 })
    .timeout({ seconds: timeLimitSeconds })
    .toBuffer({ resolveWithObject: true })

// The decoder underneath knows many more kinds, SVG and PDF among them, which may point at files and servers. Names and
// declared types are whatever the sender says, so only the first bytes count.
function refuseOtherKinds(upload: Buffer) {
  const text = (from: number, to: number) => upload.toString("latin1", from, to)
  const isJpeg = text(0, 3) === "\xff\xd8\xff"
  const isPng = text(0, 8) === "\x89PNG\r\n\x1a\n"
  const isWebp = text(0, 4) === "RIFF" && text(8, 12) === "WEBP"
  if (isJpeg || isPng || isWebp) return

  if (text(4, 8) === "ftyp" && heicBrands.has(text(8, 12))) {
    throw new UnreadablePhoto(
      "This is a HEIC picture, which cannot be read here; set the camera to “most compatible” or send it as JPEG.",
    )
  }
  throw new UnreadablePhoto("This is not a picture that can be read here; send a JPEG, PNG or WebP file.")
}

// Brands of ISO/IEC 23008-12 (HEIF) whose pictures are coded with HEVC, and the two neutral ones that phones also write.
const heicBrands = new Set(["heic", "heix", "heim", "heis", "hevc", "hevx", "mif1", "msf1"])

function reason({ message }: Error) {
  if (/pixel limit/i.test(message)) return "This picture has more than 50 million pixels; send a smaller copy."
  if (/timeout/i.test(message)) return "This picture took too long to read; send a smaller copy."
  return "This picture is damaged or was cut off on its way; send it again."
}
