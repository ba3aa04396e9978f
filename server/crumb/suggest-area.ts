import type { Area, Grey } from "./picture.ts"

/**
 * An area to start with, for a person to correct: the crumb as far as its rim can be found around the picture's middle,
 * drawn in a little so that no crust lies in it; else the middle 60 % of the width and height.
 *
 * The rim is the closed line around the middle along which grey falls most from within to without, found by going once
 * around and keeping the best way so far (dynamic programming). Cells make such falls too, but not all the way around.
 * Source: our own judgement; the middle 60 % as recommended with the method. Tested on drawn loaves.
 */
export function suggestArea(grey: Grey): Area {
  const rim = findRim(shrunk(grey))
  if (!rim) return middle
  return Array.from({ length: corners }, (_, corner) => {
    const at = (corner * angles) / corners
    const reach = angles / corners
    const near = Array.from({ length: 2 * reach + 1 }, (_, i) => rim[(at - reach + i + angles) % angles]!)
    // the nearest of the neighbourhood, so that the straight edges between corners stay within the rim too
    const away = Math.min(...near) * drawnIn
    return { x: share(0.5 + (away * dx(at)) / rim.width), y: share(0.5 + (away * dy(at)) / rim.height) }
  })
}

const middle: Area = [
  { x: 0.2, y: 0.2 },
  { x: 0.8, y: 0.2 },
  { x: 0.8, y: 0.8 },
  { x: 0.2, y: 0.8 },
]
const corners = 12
const angles = 48
const drawnIn = 0.93
// in pixels of the shrunk picture
const longSide = 200
const withinPx = 6
const withoutPx = 3
// A rim falls by this share of its level on average, and nearly everywhere by a little.
const leastFall = 0.12
const leastFallMostly = 0.05

const share = (value: number) => Math.max(0, Math.min(1, value))
const dx = (angle: number) => Math.cos((2 * Math.PI * angle) / angles)
const dy = (angle: number) => Math.sin((2 * Math.PI * angle) / angles)

function findRim(small: Grey) {
  const falls = Array.from({ length: angles }, (_, angle) => fallsAlong(small, angle))
  // twice around, so that the second time begins where the first ended
  const best: Float64Array[] = []
  const from: Int32Array[] = []
  for (let step = 0; step < 2 * angles; step++) {
    const fall = falls[step % angles]!
    const before = best[step - 1]
    best.push(fall.slice())
    from.push(new Int32Array(fall.length))
    for (let r = 0; before && r < fall.length; r++) {
      let most = Number.NEGATIVE_INFINITY
      const span = Math.max(2, Math.round(r * 0.15))
      for (let near = Math.max(0, r - span); near <= Math.min(before.length - 1, r + span); near++) {
        const worth = before[near]! - 0.1 * Math.abs((near - r) / (r + 10))
        if (worth > most) {
          most = worth
          from[step]![r] = near
        }
      }
      best[step]![r]! += most
    }
  }
  const last = best.at(-1)!
  let r = last.indexOf(Math.max(...last))
  const rim: number[] = []
  for (let step = 2 * angles - 1; step >= angles; step--) {
    rim[step - angles] = r
    r = from[step]![r]!
  }
  const along = rim.map((at, angle) => falls[angle]![at]!)
  const mean = along.reduce((sum, fall) => sum + fall, 0) / angles
  const mostly = along.filter((fall) => fall >= leastFallMostly).length >= 0.8 * angles
  return mean >= leastFall && mostly ? Object.assign(rim, { width: small.width, height: small.height }) : undefined
}

/** For each distance from the middle along one ray, by which share of its level grey falls there. */
function fallsAlong({ width, height, data }: Grey, angle: number) {
  const farthest = Math.floor(
    Math.min(width / 2 / Math.abs(dx(angle) || 1e-9), height / 2 / Math.abs(dy(angle) || 1e-9)),
  )
  const level = Float64Array.from({ length: farthest }, (_, r) => {
    let sum = 0
    for (const aside of [-1 / 3, 0, 1 / 3]) {
      const x = Math.min(width - 1, Math.max(0, Math.floor(width / 2 + r * dx(angle + aside))))
      const y = Math.min(height - 1, Math.max(0, Math.floor(height / 2 + r * dy(angle + aside))))
      sum += data[y * width + x]!
    }
    return sum / 3
  })
  const mean = (start: number, end: number) =>
    level.subarray(start, end).reduce((sum, one) => sum + one, 0) / Math.max(1, end - start)
  return Float64Array.from({ length: farthest }, (_, r) => {
    if (r < 0.1 * Math.min(width, height) || r + withoutPx > farthest) return 0
    const within = mean(Math.max(0, r - withinPx), r)
    return within > 0 ? (within - mean(r, r + withoutPx)) / within : 0
  })
}

/** The picture with squares of pixels averaged into one, about 200 pixels on its long side. */
function shrunk({ width, height, data }: Grey): Grey {
  const by = Math.max(1, Math.round(Math.max(width, height) / longSide))
  const size = { width: Math.max(1, Math.floor(width / by)), height: Math.max(1, Math.floor(height / by)) }
  const out = new Uint8Array(size.width * size.height)
  for (let y = 0; y < size.height; y++) {
    for (let x = 0; x < size.width; x++) {
      let sum = 0
      for (let row = y * by; row < (y + 1) * by; row++) {
        for (let column = x * by; column < (x + 1) * by; column++) sum += data[row * width + column]!
      }
      out[y * size.width + x] = Math.round(sum / (by * by))
    }
  }
  return { ...size, data: out }
}
