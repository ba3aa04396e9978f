import { UnreadablePhoto } from "./unreadable.ts"

export type Kind = "jpeg" | "png" | "webp" | "heif"

// Brands of ISO/IEC 23008-12 and 23000-22 (HEIF, MIAF), and of the AV1 image format, which lives in the same container.
const heifBrands = /^(hei[cxms]|hev[cxms]|mif[12]|msf1|miaf|avi[fs])$/

/**
 * What a file is by its first bytes; names and declared types are whatever the sender says. The decoder underneath knows
 * many more kinds, SVG and PDF among them, which may point at files and servers: they never reach it. Throws
 * UnreadablePhoto for all that is no photo.
 */
export function kindOf(upload: Buffer): Kind {
  const text = (from: number, to: number) => upload.toString("latin1", from, to)
  if (text(0, 3) === "\xff\xd8\xff") return "jpeg"
  if (text(0, 8) === "\x89PNG\r\n\x1a\n") return "png"
  if (text(0, 4) === "RIFF" && text(8, 12) === "WEBP") return "webp"
  if (text(4, 8) === "ftyp" && brandsOf(upload).some((brand) => heifBrands.test(brand))) return "heif"
  throw new UnreadablePhoto(`${described(upload, text)}; send a JPEG, PNG, WebP or HEIC picture.`)
}

/** The major brand and the compatible ones: some phones name a neutral brand first. */
function brandsOf(upload: Buffer) {
  const end = Math.min(upload.readUInt32BE(0), upload.length, 256)
  const fourAt = (at: number) => upload.toString("latin1", at, at + 4)
  return [fourAt(8), ...Array.from({ length: Math.max(0, (end - 16) >> 2) }, (_, i) => fourAt(16 + 4 * i))]
}

function described(upload: Buffer, text: (from: number, to: number) => string) {
  if (text(4, 8) === "ftyp" || text(4, 8) === "moov") return "This is a film and not a photo"
  if (text(0, 4) === "GIF8") return "This is a GIF, which cannot be used here"
  if (text(0, 5) === "%PDF-") return "This is a PDF and not a picture"
  if (/^\s*<(\?xml|!--|!doctype svg|svg)/i.test(upload.toString("utf8", 0, 256).replace("\ufeff", "")))
    return "This is a drawing (SVG) and not a photo"
  return "This is not a picture that can be read here"
}
