import type { Grey, Mask } from "./picture.ts"

/** The grey level that the walls of the crumb are brought to; the rest of the range leaves room for lighter texture. */
export const wallLevel = 200

/**
 * The picture as it would look under even light: each pixel divided by the level of the walls around it, times
 * `wallLevel`, cut off at 255. Only pixels `inside` are looked at and given; the others come out 255.
 * That level is the 90th percentile of grey among the tiles around, smoothed, and straight between tile centres. Works on
 * sRGB levels as on linear ones, since their curve is nearly a power, which keeps products.
 * Holes wider than about three tiles are taken for shade. Throws RangeError without a single pixel inside.
 * Source: percentile and tile as measured for this method on drawn crumbs (48–128 px do alike); `tilePx` = 64 at 1600 px.
 */
export function evenLight(grey: Grey, inside: Mask, { tilePx = 64 } = {}): Grey & { walls: Walls } {
  const walls = wallLevels(grey, inside, tilePx)
  const { width, height, data } = grey
  const out = new Uint8Array(width * height).fill(255)
  const across = between(width, walls.columns)
  const down = between(height, walls.rows)
  const level = new Float64Array(walls.columns)
  for (let y = 0; y < height; y++) {
    const top = down.first[y]! * walls.columns
    const bottom = Math.min(down.first[y]! + 1, walls.rows - 1) * walls.columns
    for (let i = 0; i < walls.columns; i++) {
      level[i] = walls.level[top + i]! + (walls.level[bottom + i]! - walls.level[top + i]!) * down.share[y]!
    }
    for (let x = 0, i = y * width; x < width; x++, i++) {
      if (inside.data[i] === 0) continue
      const left = level[across.first[x]!]!
      const right = across.first[x]! + 1 < walls.columns ? level[across.first[x]! + 1]! : left
      const even = (wallLevel * data[i]!) / (left + (right - left) * across.share[x]!) + 0.5
      out[i] = Math.min(even, 255)
    }
  }
  return { width, height, data: out, walls }
}

/** The level of the walls at the centre of each tile, row by row. */
export type Walls = { columns: number; rows: number; level: Float64Array }

const wallPercentile = 0.9
// Fewer pixels say nothing of the walls: our own judgement, a 16th of a tile.
const fewest = 256

function wallLevels(grey: Grey, inside: Mask, tilePx: number): Walls {
  const { columns, rows, counts } = tileCounts(grey, inside, tilePx)
  const level = new Float64Array(columns * rows)
  const together = new Uint32Array(256)
  for (let row = 0; row < rows; row++) {
    for (let column = 0; column < columns; column++) {
      together.fill(0)
      let pixels = 0
      for (const near of around(row, column, rows, columns)) {
        for (let grey = 0; grey < 256; grey++) {
          together[grey]! += counts[near * 256 + grey]!
          pixels += counts[near * 256 + grey]!
        }
      }
      level[row * columns + column] = pixels < fewest ? 0 : Math.max(1, percentile(together, wallPercentile))
    }
  }
  spread({ columns, rows, level })
  return { columns, rows, level: smooth({ columns, rows, level }) }
}

/** Tiles of nearly the asked size that fill the picture evenly, so that a turned picture has the same ones. */
function tileCounts({ width, height, data }: Grey, inside: Mask, tilePx: number) {
  const columns = Math.max(1, Math.round(width / tilePx))
  const rows = Math.max(1, Math.round(height / tilePx))
  const counts = new Uint32Array(columns * rows * 256)
  const tileOf = Int32Array.from({ length: width }, (_, x) => Math.floor(((x + 0.5) * columns) / width) * 256)
  for (let y = 0; y < height; y++) {
    const row = Math.floor(((y + 0.5) * rows) / height) * columns * 256
    for (let x = 0, i = y * width; x < width; x++, i++) {
      if (inside.data[i] !== 0) counts[row + tileOf[x]! + data[i]!]!++
    }
  }
  return { columns, rows, counts }
}

/** The level below which the share of pixels lies, counting each level as spread evenly over its own width. */
export function percentile(histogram: ArrayLike<number>, share: number) {
  let total = 0
  for (let level = 0; level < histogram.length; level++) total += histogram[level]!
  let below = 0
  for (let level = 0; level < histogram.length; level++) {
    const here = histogram[level]!
    if (here > 0 && below + here >= share * total) return level - 0.5 + (share * total - below) / here
    below += here
  }
  throw new RangeError("No pixel to take a percentile of")
}

/** Gives tiles without pixels of their own the mean of their neighbours, from the known ones outward. */
function spread({ columns, rows, level }: Walls) {
  if (!level.some((one) => one > 0)) throw new RangeError("No pixel lies inside the area")
  while (level.some((one) => one === 0)) {
    const before = level.slice()
    for (let tile = 0; tile < level.length; tile++) {
      if (before[tile]! === 0)
        level[tile] = mean(before, around(Math.floor(tile / columns), tile % columns, rows, columns))
    }
  }
}

const smooth = ({ columns, rows, level }: Walls) =>
  level.map((_, tile) => mean(level, around(Math.floor(tile / columns), tile % columns, rows, columns)))

function mean(level: Float64Array, tiles: number[]) {
  const known = tiles.map((tile) => level[tile]!).filter((one) => one > 0)
  return known.length === 0 ? 0 : known.reduce((sum, one) => sum + one, 0) / known.length
}

function around(row: number, column: number, rows: number, columns: number) {
  const tiles: number[] = []
  for (let r = Math.max(0, row - 1); r <= Math.min(rows - 1, row + 1); r++) {
    for (let c = Math.max(0, column - 1); c <= Math.min(columns - 1, column + 1); c++) tiles.push(r * columns + c)
  }
  return tiles
}

/** For each pixel the last tile centre before it, and how far it lies toward the next one. */
function between(pixels: number, tiles: number) {
  const first = new Int32Array(pixels)
  const share = new Float64Array(pixels)
  for (let i = 0; i < pixels; i++) {
    const at = Math.max(0, Math.min(tiles - 1, ((i + 0.5) * tiles) / pixels - 0.5))
    first[i] = Math.floor(at)
    share[i] = at - first[i]!
  }
  return { first, share }
}
