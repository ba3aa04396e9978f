import { execFileSync } from "node:child_process"
import { mkdtemp, rm } from "node:fs/promises"
import { tmpdir } from "node:os"
import { join } from "node:path"
import sharp from "sharp"
import { corners, crumbs } from "../drawn.ts"

// Makes the samples anew; needs heif-enc (Debian: libheif-examples) and exiftool (libimage-exiftool-perl).

const here = (name: string) => new URL(name, import.meta.url).pathname
const folder = await mkdtemp(join(tmpdir(), "samples-"))
const there = (name: string) => join(folder, name)

/** Everything a phone and its owner may leave in a file, of a person and a place that do not exist. */
const told = [
  ...[
    "-Make=Oatfield",
    "-Model=Pocket 3",
    "-SerialNumber=OF-112358",
    "-OwnerName=Wilma Nobody",
    "-Artist=Wilma Nobody",
  ],
  ...["-DateTimeOriginal=2026:11:14 07:30:05", "-OffsetTimeOriginal=+01:00", "-CreateDate=2026:11:14 07:30:05"],
  ...["-GPSLatitude=38.7167", "-GPSLatitudeRef=N", "-GPSLongitude=9.1333", "-GPSLongitudeRef=W", "-GPSAltitude=12"],
  ...["-XMP-dc:Creator=Wilma Nobody", "-XMP-photoshop:City=Nowhere", "-XMP-exif:GPSLatitude=38.7167"],
]
const tell = (name: string, ...more: string[]) =>
  execFileSync("exiftool", ["-q", "-m", "-overwrite_original", ...told, ...more, here(name)])
const heic = (from: string, to: string, ...options: string[]) =>
  execFileSync("heif-enc", [...options, there(from), "-o", here(to)], { stdio: "ignore" })

const upright = corners(240, 160)
await upright.clone().png().toFile(there("corners.png"))
await upright.clone().toColourspace("rgb16").png().toFile(there("corners16.png"))
await upright.clone().ensureAlpha(0.5).png().toFile(there("clear.png"))
await upright.clone().flop().png().toFile(there("mirrored.png"))
await upright.clone().withIccProfile("p3").png().toFile(there("p3.png"))
await crumbs(128, 96).png().toFile(there("crumbs.png"))

// lying, as a phone that was held upright writes it
const lying = () => sharp(there("corners.png")).rotate(270).withIccProfile("p3")
await lying().jpeg({ quality: 90 }).toFile(here("turned.jpg"))
tell(
  "turned.jpg",
  "-Orientation#=6",
  "-IPTC:City=Nowhere",
  "-Comment=Wilma's kitchen",
  `-ThumbnailImage<=${here("turned.jpg")}`,
)
await lying().png({ compressionLevel: 9 }).toFile(here("turned.png"))
tell("turned.png", "-Orientation#=6", "-PNG:Comment=Wilma's kitchen")
await lying().webp({ quality: 80 }).toFile(here("turned.webp"))
tell("turned.webp", "-Orientation#=6")

heic("corners.png", "plain.heic")
heic("corners.png", "told.heic", "-t", "64")
tell("told.heic", "-Orientation#=6")
heic("p3.png", "p3.heic")
heic("corners16.png", "ten-bit.heic", "-b", "10")
heic("corners.png", "full-colour.heic", "-p", "chroma=444")
heic("clear.png", "clear.heic")
execFileSync("heif-enc", [there("corners.png"), there("mirrored.png"), "-o", here("two.heic")], { stdio: "ignore" })
heic("crumbs.png", "crumbs.heic", "-q", "60")
execFileSync("heif-enc", ["-A", there("corners.png"), "-o", there("av1.avif")], { stdio: "ignore" })
execFileSync("cp", [there("av1.avif"), here("av1.heic")])
tell("av1.heic", "-Orientation#=6")

const frames = Buffer.concat(
  await Promise.all([upright.clone(), upright.clone().flop()].map((one) => one.removeAlpha().raw().toBuffer())),
)
const moving = () => sharp(frames, { raw: { width: 240, height: 320, channels: 3, pageHeight: 160 } })
await moving()
  .webp({ delay: [100, 100] })
  .toFile(here("moving.webp"))
await moving()
  .gif({ delay: [100, 100] })
  .toFile(here("moving.gif"))

await rm(folder, { recursive: true })
