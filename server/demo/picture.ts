import sharp from "sharp"
import type { Chance } from "./chance.ts"

export const frame = { width: 1600, height: 1200 }

/** SVG text of the whole frame around `body`; `defs` holds gradients, patterns and filters. */
export const drawing = (defs: string, body: string) =>
  `<svg xmlns="http://www.w3.org/2000/svg" width="${frame.width}" height="${frame.height}"><defs>${defs}</defs>${body}</svg>`

/** A closed path running smoothly past the points: each is the control point between two midpoints. */
export function smooth(points: readonly Point[]) {
  const middle = (a: Point, b: Point) => `${((a.x + b.x) / 2).toFixed(1)} ${((a.y + b.y) / 2).toFixed(1)}`
  const curves = points.map((p, i) => {
    const next = points[(i + 1) % points.length]!
    return `Q${p.x.toFixed(1)} ${p.y.toFixed(1)} ${middle(p, next)}`
  })
  return `M${middle(points.at(-1)!, points[0]!)}${curves.join("")}Z`
}
export type Point = { x: number; y: number }

/**
 * Takes a picture of two drawings. `colour` is what each spot is painted; `relief` is its surface: red is how deep it
 * lies (0 at the front), green how rough it is. Lamp at the upper left. The result is a JPEG `widthPx` wide.
 */
export async function takePicture({ colour, relief, widthPx, dice }: Scene): Promise<Buffer> {
  const scale = widthPx / frame.width
  const size = { width: widthPx, height: Math.round(frame.height * scale) }
  const { width, height } = size
  const [paint, surface, fine, medium, broad] = await Promise.all([
    pixels(colour, "white", size),
    pixels(relief, "black", size),
    noise(dice, 1, size),
    noise(dice, 4 * scale, size),
    noise(dice, 90 * scale, size),
  ])

  const depth = new Float32Array(width * height)
  for (let i = 0; i < depth.length; i++) {
    const rough = surface[3 * i + 1]! / 255
    depth[i] = surface[3 * i]! * 0.085 + rough * (fine[i]! * 0.011 + medium[i]! * 0.02)
  }

  const exposure = dice.between(1.05, 1.13)
  const warmth = dice.between(-0.02, 0.03)
  const out = Buffer.alloc(width * height * 3)
  for (let y = 0, i = 0; y < height; y++) {
    for (let x = 0; x < width; x++, i++) {
      const slopeX = scale * (depth[y * width + Math.min(x + 1, width - 1)]! - depth[y * width + Math.max(x - 1, 0)]!)
      const slopeY = scale * (depth[Math.min(y + 1, height - 1) * width + x]! - depth[Math.max(y - 1, 0) * width + x]!)
      // Light falls along (0.5, 0.6, 0.9): a wall falling away to the lower right is the one in shade.
      const facing = (0.9 - 0.25 * slopeX - 0.3 * slopeY) / Math.sqrt(1 + (slopeX * slopeX + slopeY * slopeY) / 4) / 0.9
      const hollow = 1 - (surface[3 * i]! / 255) * 0.6
      const falloff = 1.06 - 0.16 * (x / width) - 0.1 * (y / height)
      const mottle = 1 + (broad[i]! - 128) * 0.00045 + (fine[i]! - 128) * 0.00022
      const light = exposure * falloff * mottle * hollow * (0.5 + 0.5 * Math.max(0, facing))
      // Shade is a little warmer than light.
      out[3 * i] = byte(paint[3 * i]! * (1 + warmth) * light * (1.17 - 0.17 * light))
      out[3 * i + 1] = byte(paint[3 * i + 1]! * light)
      out[3 * i + 2] = byte(paint[3 * i + 2]! * (1 - warmth) * light * (0.79 + 0.21 * light))
    }
  }
  return sharp(out, { raw: { ...size, channels: 3 } })
    .blur(0.6)
    .jpeg({ quality: 86 })
    .toBuffer()
}
type Scene = { colour: string; relief: string; widthPx: number; dice: Chance }

const byte = (value: number) => Math.max(0, Math.min(255, Math.round(value)))

/** Drawn at its final size from the start: a drawing takes as long as it has pixels. 72 dots an inch are the whole frame. */
const pixels = (svg: string, background: string, size: Size) =>
  sharp(Buffer.from(svg), { density: (72 * size.width) / frame.width })
    .resize({ ...size, fit: "fill" })
    .flatten({ background })
    .removeAlpha()
    .raw()
    .toBuffer()
type Size = { width: number; height: number }

/** One random grey a pixel, around 128, in soft blots about `blotPx` wide. */
async function noise(dice: Chance, blotPx: number, size: Size) {
  const [width, height] = [Math.ceil(size.width / blotPx), Math.ceil(size.height / blotPx)]
  const spots = Buffer.alloc(width * height)
  for (let i = 0; i < spots.length; i++) spots[i] = dice.unit() * 256
  return sharp(spots, { raw: { width, height, channels: 1 } })
    .resize({ ...size, fit: "fill", kernel: "cubic" })
    .extractChannel(0)
    .raw()
    .toBuffer()
}

/** What the bread lies on: a baker's cloth with its two woven stripes, or a board. */
export function ground(dice: Chance) {
  const seed = dice.whole() % 1000
  const turn = dice.between(-4, 4).toFixed(2)
  return dice.flip() ? cloth(turn, dice.between(90, 190)) : board(seed, turn)
}

function cloth(turn: string, stripeY: number) {
  const about = `rotate(${turn} 800 600)`
  // Threads as dashed lines: a turned pattern looks the same and takes sixty times as long to draw.
  const threads = (offset: number, shade: string) => {
    const rows = Array.from({ length: 150 }, (_, i) => `M${-100 + offset} ${-150 + offset + 10 * i}H1700`)
    return `<path d="${rows.join("")}" stroke="${shade}" stroke-width="4.4" stroke-dasharray="4 6" transform="${about}"/>`
  }
  const stripe = (y: number, tall: number, fill: string) =>
    `<rect x="-200" y="${y.toFixed(0)}" width="2000" height="${tall}" fill="${fill}" fill-opacity="0.85" transform="${about}"/>`
  return {
    defs: "",
    colour: `<rect width="1600" height="1200" fill="#e0d6c2"/>${stripe(1200 - stripeY, 34, "#3d4f7d")}${stripe(1252 - stripeY, 16, "#98433f")}`,
    relief: `<rect width="1600" height="1200" fill="#4c5000"/>${threads(0, "#364600")}${threads(5, "#364600")}`,
  }
}

function board(seed: number, turn: string) {
  const grain = `<filter id="grain" x="0" y="0" width="1" height="1"><feTurbulence type="fractalNoise" baseFrequency="0.003 0.11" numOctaves="2" seed="${seed}"/>
    <feColorMatrix values="0.62 0 0 0 0.12  0.52 0 0 0 0.03  0.4 0 0 0 -0.02  0 0 0 0 1"/></filter>`
  const seam = (y: number) => `<rect x="-200" y="${y}" width="2000" height="5" fill="#2a1a0e" fill-opacity="0.75"/>`
  return {
    defs: grain,
    colour: `<g transform="rotate(${turn} 800 600)"><rect x="-200" y="-200" width="2000" height="1600" filter="url(#grain)"/>${seam(180)}${seam(610)}${seam(1040)}</g>`,
    relief: `<rect width="1600" height="1200" fill="#301800"/>`,
  }
}
