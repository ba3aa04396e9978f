import type { Area, Grey, Mask } from "./picture.ts"

/** A piece of the picture with one more pixel on each side than the area reaches; those beyond the picture repeat its edge. */
export type Piece = {
  grey: Grey
  /** the pixels whose centre lies inside the area; none at the piece's own edge */
  inside: Mask
  /** the area's corners in the piece's pixels */
  corners: Area
  /** where the piece's first pixel lies in the picture; −1 when it lies beyond */
  left: number
  top: number
  areaPx: number
  /** height and width of the area itself, in pixels */
  heightPx: number
  widthPx: number
}

/**
 * The part of the picture that the area covers. Throws RangeError unless the area has three corners or more, all within
 * the picture (shares from 0 to 1), and holds at least one pixel.
 */
export function cutOut({ width, height, data }: Grey, area: Area): Piece {
  const corners = cornersIn(area, width, height)
  const [xs, ys] = [corners.map(({ x }) => x), corners.map(({ y }) => y)]
  const left = Math.floor(Math.min(...xs)) - 1
  const top = Math.floor(Math.min(...ys)) - 1
  const size = { width: Math.ceil(Math.max(...xs)) + 1 - left, height: Math.ceil(Math.max(...ys)) + 1 - top }
  const grey = new Uint8Array(size.width * size.height)
  for (let y = 0; y < size.height; y++) {
    const row = Math.max(0, Math.min(height - 1, top + y)) * width
    const [from, to] = [Math.max(0, left), Math.min(width, left + size.width)]
    grey.set(data.subarray(row + from, row + to), y * size.width + from - left)
    if (left < 0) grey[y * size.width] = data[row]!
    if (left + size.width > width) grey[(y + 1) * size.width - 1] = data[row + width - 1]!
  }
  const moved = corners.map(({ x, y }) => ({ x: x - left, y: y - top }))
  const inside = fillPolygon(moved, size)
  let areaPx = 0
  for (let i = 0; i < inside.data.length; i++) areaPx += inside.data[i]!
  if (areaPx === 0) throw new RangeError("The area holds no pixel")
  const heightPx = Math.max(...ys) - Math.min(...ys)
  const widthPx = Math.max(...xs) - Math.min(...xs)
  return { grey: { ...size, data: grey }, inside, corners: moved, left, top, areaPx, heightPx, widthPx }
}

/** The same area drawn in toward its centre of area until `share` of it is left. */
export function innerPart(area: Area, share: number): Area {
  let [twice, x, y] = [0, 0, 0]
  for (let i = 0, a = area.at(-1)!; i < area.length; a = area[i++]!) {
    const b = area[i]!
    const cross = a.x * b.y - b.x * a.y
    twice += cross
    x += (a.x + b.x) * cross
    y += (a.y + b.y) * cross
  }
  const middle = { x: x / (3 * twice), y: y / (3 * twice) }
  const by = Math.sqrt(share)
  return area.map((corner) => ({
    x: middle.x + (corner.x - middle.x) * by,
    y: middle.y + (corner.y - middle.y) * by,
  }))
}

/** The pixels whose centre lies inside the polygon, whose corners are in pixels: 0, 0 is the first pixel's outer corner. */
export function fillPolygon(corners: Area, { width, height }: { width: number; height: number }): Mask {
  const data = new Uint8Array(width * height)
  for (let y = 0; y < height; y++) {
    const crossings: number[] = []
    for (let i = 0, a = corners.at(-1)!; i < corners.length; a = corners[i++]!) {
      const b = corners[i]!
      if (a.y > y + 0.5 !== b.y > y + 0.5) crossings.push(a.x + ((y + 0.5 - a.y) / (b.y - a.y)) * (b.x - a.x))
    }
    crossings.sort((one, other) => one - other)
    for (let i = 0; i + 1 < crossings.length; i += 2) {
      const from = Math.max(0, Math.ceil(crossings[i]! - 0.5))
      const to = Math.min(width, Math.ceil(crossings[i + 1]! - 0.5))
      if (to > from) data.fill(1, y * width + from, y * width + to)
    }
  }
  return { width, height, data }
}

function cornersIn(area: Area, width: number, height: number) {
  if (area.length < 3) throw new RangeError("An area needs at least three corners")
  for (const { x, y } of area) {
    if (!(x >= 0 && x <= 1 && y >= 0 && y <= 1)) throw new RangeError(`A corner at ${x}, ${y} is outside the picture`)
  }
  return area.map(({ x, y }) => ({ x: x * width, y: y * height }))
}
