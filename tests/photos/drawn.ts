import sharp from "sharp"

const colours = { red: [200, 20, 20], green: [20, 160, 20], blue: [20, 20, 200], dough: [200, 180, 140] }

/** A picture whose corners tell how it was turned: red at the top left, green at the top right, blue at the bottom right. */
export function corners(width: number, height: number) {
  const pixels = Buffer.alloc(width * height * 3)
  for (let y = 0; y < height; y++) {
    for (let x = 0; x < width; x++) {
      const [left, right, top, bottom] = [x < width / 4, x >= (width * 3) / 4, y < height / 4, y >= (height * 3) / 4]
      const name = top && left ? "red" : top && right ? "green" : bottom && right ? "blue" : "dough"
      pixels.set(colours[name], (y * width + x) * 3)
    }
  }
  return sharp(pixels, { raw: { width, height, channels: 3 } })
}

/** Every pixel another shade, so that the file is long and a cut falls into the picture. */
export function crumbs(width: number, height: number) {
  const pixels = Uint8Array.from({ length: width * height * 3 }, (_, i) => 90 + (Math.imul(i, 2654435761) >>> 25))
  return sharp(pixels, { raw: { width, height, channels: 3 } })
}

/** Which corner of a picture has which colour: "red green dough blue" is upright, read from the top left as one reads. */
export async function cornersOf(picture: Buffer) {
  const { data, info } = await sharp(picture).removeAlpha().raw().toBuffer({ resolveWithObject: true })
  const at = (x: number, y: number) => nameOf([...data.subarray((y * info.width + x) * 3).subarray(0, 3)])
  const [right, bottom] = [info.width - 8, info.height - 8]
  return [at(8, 8), at(right, 8), at(8, bottom), at(right, bottom)].join(" ")
}

function nameOf(pixel: number[]) {
  const near = (colour: number[]) => colour.every((value, i) => Math.abs(value - pixel[i]!) < 40)
  return Object.entries(colours).find(([, colour]) => near(colour))?.[0] ?? pixel.join("/")
}
