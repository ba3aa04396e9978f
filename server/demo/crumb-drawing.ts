import { type Chance, chance } from "./chance.ts"
import { type Cell, packCells } from "./crumb-cells.ts"
import { drawing, ground, type Point, smooth, takePicture } from "./picture.ts"

export type Proof = "under" | "well" | "over"

/** An invented photo (JPEG) of the cut face of a tin loaf; the same seed and proof give the same bytes. */
export async function drawCrumb({ seed, proof, widthPx = 1600 }: { seed: number; proof: Proof; widthPx?: number }) {
  const dice = chance(seed)
  const outline = sliceOutline(proof, dice)
  const crumb = inset(outline, (p) => crustPx(p, outline) * 1.25)
  const cells = packCells(crumb, proof, dice)
  const [open, faint] = [cells.filter(({ depth }) => depth > 0), cells.filter(({ depth }) => depth === 0)]
  const under = ground(dice)
  const burst = outline.filter((p) => p.torn)
  const turn = `rotate(${dice.between(-2.5, 2.5).toFixed(2)} 800 640)`
  const tone = crumbTones[Math.floor(dice.unit() * crumbTones.length)]!

  const colour = drawing(
    under.defs + crustColours,
    `${under.colour}<g transform="${turn}">
      ${shadow(outline)}<path d="${smooth(outline)}" fill="url(#crust)"/>${fade(outline, 0.25, 0.65, "#b98549")}
      <path d="${burst.map((p, i) => `${i ? "L" : "M"}${p.x.toFixed(1)} ${p.y.toFixed(1)}`).join("")}" fill="none" stroke="#d9b07a" stroke-width="13" stroke-linecap="round" stroke-linejoin="round"/>
      ${fade(outline, 0.65, 1.2, tone.edge)}${fade(outline, 1.3, 2.5, tone.crumb)}</g>`,
  )
  const relief = drawing(
    under.defs + hollows,
    `${under.relief}<g transform="${turn}">
      <path d="${smooth(outline)}" fill="#2d6000"/><path d="${smooth(inset(outline, () => 4))}" fill="#1a6600"/>
      <path d="${smooth(inset(outline, () => 9))}" fill="#006e00"/>
      <path d="${faint.map(({ rim }) => smooth(rim)).join("")}" fill="#206e00"/>${open.map(hollow).join("")}</g>`,
  )
  return takePicture({ colour, relief, widthPx, dice })
}

const crumbTones = [
  { crumb: "#f8eed6", edge: "#e6d0a4" },
  { crumb: "#f4e7c9", edge: "#dec596" },
  { crumb: "#ecdcb8", edge: "#d3b685" },
]

// Soft edges are a few thin layers over each other: a blur looks the same and takes ten times as long.
const fade = (outline: readonly Point[], from: number, to: number, fill: string) =>
  steps(from, to, 6)
    .map((deep) => inset(outline, (p) => crustPx(p, outline) * deep))
    .map((ring) => `<path d="${smooth(ring)}" fill="${fill}" fill-opacity="0.36"/>`)
    .join("")
const shadow = (outline: readonly Point[]) =>
  steps(64, 4, 8)
    .map(
      (wide) =>
        `<path d="${smooth(outline)}" transform="translate(${8 + wide / 4} ${10 + wide / 4})" fill="#1a120a" stroke="#1a120a" stroke-width="${wide}" stroke-linejoin="round" opacity="0.08"/>`,
    )
    .join("")
const crustColours = `<linearGradient id="crust" x1="0.4" y1="0" x2="0.5" y2="1"><stop offset="0" stop-color="#5f3214"/>
  <stop offset="0.14" stop-color="#7d4a20"/><stop offset="0.4" stop-color="#a06c36"/><stop offset="1" stop-color="#8a5628"/></linearGradient>`

// Five depths of hollow: a steep wall, then a floor that is nearly flat.
const depths = [55, 100, 145, 185, 220]
const hollows = depths
  .map((depth, i) => {
    const shade = (share: number) => `rgb(${Math.round(depth * share)},110,0)`
    return `<radialGradient id="h${i}"><stop offset="0.2" stop-color="${shade(1)}"/>
      <stop offset="0.7" stop-color="${shade(0.78)}"/><stop offset="0.92" stop-color="${shade(0.3)}"/><stop offset="1" stop-color="${shade(0.06)}"/></radialGradient>`
  })
  .join("")
const hollow = (cell: Cell) => `<path d="${smooth(cell.rim)}" fill="url(#h${Math.round(cell.depth * 4)})"/>`

const base = 1110
const crustPx = (p: Point, outline: readonly Point[]) => {
  const top = Math.min(...outline.map((o) => o.y))
  const height = (base - p.y) / (base - top)
  return 15 + 13 * height ** 2
}

/** The slice's edge, clockwise from the lower left: tin walls, then whatever rose above the rim. */
function sliceOutline(proof: Proof, dice: Chance): (Point & { torn?: boolean })[] {
  const lean = dice.between(-0.12, 0.12)
  const shape = {
    under: { rimY: dice.between(560, 600), riseY: dice.between(110, 135), out: 4, round: 0.85 },
    well: { rimY: dice.between(430, 465), riseY: dice.between(215, 250), out: 30, round: 0.72 },
    over: { rimY: dice.between(430, 460), riseY: dice.between(70, 95), out: 13, round: 0.5 },
  }[proof]
  const half = (y: number) => 412 + 34 * ((base - y) / 600)
  const points: (Point & { torn?: boolean })[] = []
  for (const y of steps(base - 30, shape.rimY + 20, 9)) points.push({ x: 800 - half(y), y })

  const burst = proof === "under" ? (dice.flip() ? 1 : -1) : 0
  const sag = proof === "over" ? dice.between(34, 50) : 0
  for (const turn of steps(0.03, 0.97, 26)) {
    const across = -Math.cos(turn * Math.PI)
    const wide = Math.sign(across) * Math.abs(across) ** 0.8 * (half(shape.rimY) + shape.out)
    const up = Math.sin(turn * Math.PI) ** shape.round * shape.riseY * (1 + lean * across)
    const torn = burst && Math.exp(-(((across * burst - 0.93) / 0.17) ** 2))
    points.push({
      torn: torn > 0.5,
      x: 800 + wide + torn * burst * 52,
      y: shape.rimY - up - torn * 16 + sag * Math.exp(-(((across - 2 * lean) / 0.5) ** 2)),
    })
  }
  for (const y of steps(shape.rimY + 20, base - 30, 9)) points.push({ x: 800 + half(y), y })
  for (const x of steps(385, -385, 10)) points.push({ x: 800 + x, y: base })
  const wobble = proof === "over" ? 3.2 : 2.6
  return points.map(({ x, y, torn }) => {
    const by = torn ? 6 : wobble
    return { torn, x: x + dice.normal() * by, y: y + dice.normal() * by }
  })
}

const steps = (from: number, to: number, count: number) =>
  Array.from({ length: count }, (_, i) => from + ((to - from) * i) / (count - 1))

/** The outline drawn in by `byPx` at each point, along the inward normal of a clockwise ring. */
function inset(ring: readonly Point[], byPx: (p: Point) => number): Point[] {
  return ring.map((p, i) => {
    const [before, after] = [ring.at(i - 2)!, ring[(i + 2) % ring.length]!]
    const long = Math.hypot(after.x - before.x, after.y - before.y)
    const by = byPx(p) / long
    return { x: p.x - (after.y - before.y) * by, y: p.y + (after.x - before.x) * by }
  })
}
