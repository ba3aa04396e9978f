import { chance } from "./chance.ts"
import type { Proof } from "./crumb-drawing.ts"
import { drawing, frame, ground, type Point, smooth, takePicture } from "./picture.ts"

const baseY = 1010
const shapes = {
  under: { rimY: 640, riseY: 110, power: 0.75, top: "#a4612a" },
  well: { rimY: 590, riseY: 245, power: 0.6, top: "#8a4a1c" },
  over: { rimY: 570, riseY: 70, power: 0.35, top: "#b57f45" },
}

/** An invented photo (JPEG) of the long side of a baked tin loaf, standing on a table. */
export async function drawLoaf({ seed, proof, widthPx = frame.width }: Loaf): Promise<Buffer> {
  const dice = chance(seed)
  const table = ground(dice)
  const { rimY, riseY, power, top } = shapes[proof]
  const lean = dice.between(-0.1, 0.1)
  const sag = proof === "over" ? dice.between(36, 52) : 0
  const half = 585

  const dome: Point[] = Array.from({ length: 27 }, (_, i) => {
    const across = -Math.cos(((i + 0.4) / 26.8) * Math.PI)
    const up = (1 - across ** 2) ** power * riseY * (1 + lean * across)
    const sunk = sag * Math.exp(-(((across - lean) / 0.55) ** 2))
    return { x: 800 + across * (half + 14), y: rimY - up + sunk + dice.normal() * 3 }
  })
  const wall = (side: number) =>
    [0.04, 0.5, 0.88, 0.97, 1].map((down) => ({
      x: 800 + side * half * (1 - 0.035 * down),
      y: rimY + 30 + (baseY - rimY - 30) * down,
    }))
  const foot = [0.9, 0.5, 0, -0.5, -0.9].map((across) => ({ x: 800 + across * half, y: baseY + dice.normal() * 2 }))
  const body = [...dome, ...wall(1), ...foot, ...wall(-1).reverse()]
  // Where the dough tore along the rim of the tin: long on a loaf that had much left to rise, thin on a good one.
  const tearY = rimY + 12
  const tear = { under: 46, well: 20, over: 0 }[proof]
  const shred: Point[] = [
    ...Array.from({ length: 17 }, (_, i) => ({
      x: 800 - half * 0.9 + (i * half * 1.8) / 16,
      y: tearY - tear * dice.between(0.3, 0.8),
    })),
    ...Array.from({ length: 17 }, (_, i) => ({
      x: 800 + half * 0.9 - (i * half * 1.8) / 16,
      y: tearY + tear * dice.between(0.3, 0.8),
    })),
  ]
  const blisters = Array.from({ length: 120 }, () => {
    const across = dice.between(-0.93, 0.93)
    const y = rimY - (1 - across ** 2) ** power * riseY * dice.between(0, 0.75) + sag
    return `<ellipse cx="${(800 + across * half).toFixed(1)}" cy="${y.toFixed(1)}" rx="${dice.between(2, 9).toFixed(1)}" ry="${dice.between(1.5, 5).toFixed(1)}"`
  })
  const outline = smooth(body)

  const colour = drawing(
    `${table.defs}${soft("far", 26)}${soft("near", 9)}<clipPath id="loaf"><path d="${outline}"/></clipPath>
     <linearGradient id="crust" gradientUnits="userSpaceOnUse" x1="0" y1="${rimY - riseY}" x2="0" y2="${baseY}"><stop offset="0" stop-color="${top}"/>
     <stop offset="${((riseY / (baseY - rimY + riseY)) * 0.9).toFixed(2)}" stop-color="#a7672f"/><stop offset="0.7" stop-color="#c08a4e"/><stop offset="1" stop-color="#9a6431"/></linearGradient>
     <linearGradient id="wall" x2="0" y2="1"><stop offset="0" stop-color="#e9e4d8"/><stop offset="1" stop-color="#cfc6b4"/></linearGradient>
     <linearGradient id="turn"><stop offset="0" stop-color="#2a1608" stop-opacity="0.55"/><stop offset="0.12" stop-color="#2a1608" stop-opacity="0"/>
     <stop offset="0.85" stop-color="#2a1608" stop-opacity="0"/><stop offset="1" stop-color="#2a1608" stop-opacity="0.65"/></linearGradient>`,
    `<rect width="1600" height="1200" fill="url(#wall)"/><svg y="800" width="1600" height="400" viewBox="0 800 1600 400">${table.colour}</svg>
     <ellipse cx="840" cy="${baseY + 4}" rx="650" ry="52" fill="#1a120a" fill-opacity="0.6" filter="url(#far)"/>
     <path d="${outline}" fill="url(#crust)"/>
     <g clip-path="url(#loaf)">
       <rect x="0" y="${rimY + 8}" width="1600" height="16" fill="#5d3413" fill-opacity="0.5" filter="url(#near)"/>
       ${tear ? `<path d="${smooth(shred)}" fill="#e0bd86"/>` : ""}
       ${blisters.map((ellipse) => `${ellipse} fill="#d9a566" fill-opacity="0.3"/>`).join("")}
       <rect x="${800 - half}" y="0" width="${2 * half}" height="1200" fill="url(#turn)"/></g>`,
  )
  const relief = drawing(
    `${table.defs}${soft("far", 26)}${soft("near", 3)}<clipPath id="loaf"><path d="${outline}"/></clipPath>`,
    `<rect width="1600" height="1200" fill="#001000"/><svg y="800" width="1600" height="400" viewBox="0 800 1600 400">${table.relief}</svg>
     <path d="${outline}" fill="#286000"/><g clip-path="url(#loaf)">
       <path d="${outline}" transform="translate(0 14)" fill="#006000" filter="url(#near)"/>
       ${tear ? `<path d="${smooth(shred)}" fill="#50ff00" filter="url(#near)"/>` : ""}
       <g filter="url(#near)">${blisters.map((ellipse) => `${ellipse} fill="#006000"/>`).join("")}</g></g>`,
  )
  return takePicture({ colour, relief, widthPx, dice })
}
type Loaf = { seed: number; proof: Proof; widthPx?: number }

const soft = (id: string, px: number) =>
  `<filter id="${id}" x="-0.5" y="-0.5" width="2" height="2"><feGaussianBlur stdDeviation="${px}"/></filter>`
