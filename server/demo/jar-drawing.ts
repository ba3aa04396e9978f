import { chance } from "./chance.ts"
import { drawing, frame, ground, type Point, smooth, takePicture } from "./picture.ts"

const floorY = 1060
const startHeightPx = 300

/**
 * An invented photo (JPEG) of dough in a straight-sided jar, with a rubber band where it started. `rise` is the share of
 * the starting height gained (0.5 is +50 %), from −0.2 to 1.6; RangeError outside, where the jar would be empty or full.
 */
export async function drawDoughJar({ seed, rise, widthPx = frame.width }: Jar): Promise<Buffer> {
  if (!(rise >= -0.2 && rise <= 1.6)) throw new RangeError(`A rise of ${rise} does not fit the jar`)
  const dice = chance(seed)
  const table = ground(dice)
  const [left, right] = [800 - 235, 800 + 235]
  const topY = floorY - startHeightPx * (1 + rise)
  const bandY = floorY - startHeightPx
  const arch = dice.between(8, 22) * (rise > 1.1 ? -0.6 : 1)

  const surface = Array.from({ length: 13 }, (_, i) => {
    const across = i / 6 - 1
    return { x: 800 + across * 232, y: topY - arch * (1 - across ** 2) + dice.normal() * 2.5 }
  })
  const dough = [...surface, { x: right - 3, y: floorY - 14 }, { x: 800, y: floorY }, { x: left + 3, y: floorY - 14 }]
  const bubbles = Array.from({ length: Math.round(60 + 190 * Math.max(0, rise)) }, () => {
    const radius = Math.min(19, (2.6 + 2.6 * Math.max(0, rise)) * Math.exp(0.55 * dice.normal()))
    const spot = { x: dice.between(left + 24, right - 24), y: dice.between(topY + 26, floorY - 26) }
    return smooth(blob(spot, radius, () => dice.normal()))
  })

  const glass = `<rect x="${left - 12}" y="190" width="494" height="${floorY - 176}" rx="34"`
  const colour = drawing(
    `${table.defs}${soft("far", 24)}${soft("near", 5)}
     <linearGradient id="round"><stop offset="0" stop-color="#3a2c18" stop-opacity="0.5"/><stop offset="0.2" stop-color="#fff" stop-opacity="0.05"/>
     <stop offset="0.75" stop-color="#3a2c18" stop-opacity="0.06"/><stop offset="1" stop-color="#3a2c18" stop-opacity="0.5"/></linearGradient>
     <linearGradient id="wall" x2="0" y2="1"><stop offset="0" stop-color="#e9e4d8"/><stop offset="1" stop-color="#cfc6b4"/></linearGradient>`,
    `<rect width="1600" height="1200" fill="url(#wall)"/><svg y="820" width="1600" height="380" viewBox="0 820 1600 380">${table.colour}</svg>
     <ellipse cx="850" cy="${floorY + 8}" rx="330" ry="44" fill="#1a120a" fill-opacity="0.5" filter="url(#far)"/>
     ${glass} fill="#eef0ea" fill-opacity="0.35" stroke="#7f8a86" stroke-opacity="0.55" stroke-width="5"/>
     <path d="${straight(dough)}" fill="#eadcb8"/>
     ${bubbles.map((d) => `<path d="${d}" fill="#cdb98e"/>`).join("")}
     <path d="${straight(surface, false)}" fill="none" stroke="#fbf3dc" stroke-width="9" stroke-opacity="0.8" filter="url(#near)"/>
     ${glass} fill="url(#round)"/>
     <rect x="${left - 16}" y="${bandY - 11}" width="502" height="22" rx="9" fill="#98433f"/>
     <rect x="${left - 16}" y="${bandY - 8}" width="502" height="6" rx="3" fill="#c77a70" fill-opacity="0.8"/>
     <rect x="${left - 20}" y="172" width="510" height="34" rx="15" fill="#dfe6e2" fill-opacity="0.75" stroke="#7f8a86" stroke-width="4"/>
     <rect x="${left + 26}" y="240" width="26" height="${floorY - 330}" rx="13" fill="#fff" fill-opacity="0.5" filter="url(#near)"/>
     <rect x="${right - 44}" y="260" width="10" height="${floorY - 400}" rx="5" fill="#fff" fill-opacity="0.35" filter="url(#near)"/>`,
  )
  const relief = drawing(
    table.defs + soft("near", 3),
    `<rect width="1600" height="1200" fill="#001000"/><svg y="820" width="1600" height="380" viewBox="0 820 1600 380">${table.relief}</svg>
     ${glass} fill="#100400"/><path d="${straight(dough)}" fill="#103a00"/>
     <g filter="url(#near)">${bubbles.map((d) => `<path d="${d}" fill="#5a3a00"/>`).join("")}</g>
     <rect x="${left - 16}" y="${bandY - 11}" width="502" height="22" rx="9" fill="#000800"/>`,
  )
  return takePicture({ colour, relief, widthPx, dice })
}
type Jar = { seed: number; rise: number; widthPx?: number }

const soft = (id: string, px: number) =>
  `<filter id="${id}" x="-0.5" y="-0.5" width="2" height="2"><feGaussianBlur stdDeviation="${px}"/></filter>`

const straight = (points: readonly Point[], closed = true) =>
  `M${points.map((p) => `${p.x.toFixed(1)} ${p.y.toFixed(1)}`).join("L")}${closed ? "Z" : ""}`

const blob = ({ x, y }: Point, radius: number, normal: () => number): Point[] =>
  Array.from({ length: 8 }, (_, i) => {
    const angle = (i / 8) * 2 * Math.PI
    const reach = radius * (1.05 + 0.14 * normal())
    return { x: x + Math.cos(angle) * reach * 1.15, y: y + Math.sin(angle) * reach * 0.9 }
  })
