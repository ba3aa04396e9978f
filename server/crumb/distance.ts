import type { Mask } from "./picture.ts"

/**
 * For each marked pixel the squared distance, in pixels, from its centre to that of the nearest pixel that is not marked;
 * 0 for those. Whole numbers, exact. What lies beyond the picture counts as neither. Pictures up to 16 000 pixels a side;
 * throws RangeError above, and when every pixel is marked.
 * Source: Felzenszwalb and Huttenlocher 2012, Theory of Computing 8:415–428 (from memory), the lower envelope of
 * parabolas in linear time, with the columns' distances and whole-number crossings of Meijster, Roerdink and Hesselink
 * 2000 (from memory). A row is taken stretch by stretch: the unmarked pixels at both ends of a stretch are nearer to each
 * pixel within than anything beyond them.
 */
export function squaredDistances({ width, height, data }: Mask): Int32Array {
  if (width > 16_000 || height > 16_000) throw new RangeError(`${width} × ${height} pixels are more than 16 000 a side`)
  if (!data.includes(0)) throw new RangeError("Every pixel is marked: there is nothing to be distant from")
  const down = columnDistances(data, width, height)
  const out = new Int32Array(width * height)
  const at = new Int32Array(width)
  const from = new Int32Array(width)
  for (let y = 0; y < height; y++) {
    const row = y * width
    for (let x = 0; x < width; x++) {
      if (data[row + x] === 0) continue
      let end = x
      while (end < width && data[row + end] !== 0) end++
      envelope(down, out, row, Math.max(0, x - 1), Math.min(width - 1, end), at, from)
      x = end
    }
  }
  return out
}

// Farther than anything in a picture, and its square still a 32-bit number.
const unknown = 32_000

function columnDistances(data: Uint8Array, width: number, height: number) {
  const down = new Int32Array(width * height)
  for (let x = 0; x < width; x++) down[x] = data[x] === 0 ? 0 : unknown
  for (let i = width; i < down.length; i++) {
    const above = down[i - width]!
    down[i] = data[i] === 0 ? 0 : above < unknown ? above + 1 : unknown
  }
  for (let i = down.length - width - 1; i >= 0; i--) {
    const below = down[i + width]! + 1
    if (below < down[i]!) down[i] = below
  }
  return down
}

/** Squared distances from `first` to `last`; `at` and `from` are room for the envelope's parabolas and their beginnings. */
function envelope(
  down: Int32Array,
  out: Int32Array,
  row: number,
  first: number,
  last: number,
  at: Int32Array,
  from: Int32Array,
) {
  let top = -1
  for (let x = first; x <= last; x++) {
    const here = down[row + x]!
    if (here >= unknown) continue
    const high = here * here
    let begins = first
    while (top >= 0) {
      const u = at[top]!
      const other = down[row + u]!
      // the last pixel that is not nearer to the new one
      begins = Math.floor((x * x - u * u + high - other * other) / (2 * (x - u))) + 1
      if (begins > from[top]!) break
      top--
      begins = first
    }
    if (begins > last) continue
    top++
    at[top] = x
    from[top] = begins
  }
  if (top < 0) return
  for (let x = last; x >= first; x--) {
    while (from[top]! > x) top--
    const away = x - at[top]!
    const here = down[row + at[top]!]!
    out[row + x] = away * away + here * here
  }
}
