type Box = { type: string; from: number; to: number }
type Extent = { id: number; inFile: boolean; from: number; to: number }

// No HEVC picture holds even three zero bytes in a row (ISO/IEC 23008-2, 7.4.2), and a part of a file that was never filled
// in holds thousands. So many leave room for encoders that are not quite right.
const hole = Buffer.alloc(64)
// Phones list some three hundred tiles; the decoder itself takes no more than a thousand items.
const mostExtents = 1000

/**
 * Whether everything that a HEIF file lists lies inside it, with no holes in its HEVC data: the decoders paint what is
 * missing green instead of failing. Source: ISO/IEC 14496-12, 8.11.3 (iloc) and 8.11.6 (iinf).
 */
export function isWhole(file: Buffer): boolean {
  try {
    const meta = boxesIn(file, 0, file.length).find(({ type }) => type === "meta")
    const parts = meta ? boxesIn(file, meta.from + 4, meta.to) : []
    const [places, infos] = ["iloc", "iinf"].map((name) => parts.find(({ type }) => type === name))
    if (!places || !infos) return false

    const extents = extentsIn(file, places)
    const hevc = hevcItems(file, infos)
    const coded = extents.filter(({ id }) => hevc.has(id))
    // pictures may share their bytes, yet not so often that looking through them takes long
    const bytes = coded.reduce((sum, { from, to }) => sum + to - from, 0)
    if (extents.some(({ to }) => to > file.length) || bytes > 4 * file.length) return false
    return !coded.some(({ from, to }) => file.subarray(from, to).includes(hole))
  } catch (error) {
    if (error instanceof RangeError) return false // a list that ends too early, or is too long
    throw error
  }
}

function boxesIn(file: Buffer, from: number, to: number): Box[] {
  const boxes: Box[] = []
  for (let at = from; at + 8 <= to; ) {
    const short = file.readUInt32BE(at)
    const head = short === 1 ? 16 : 8
    const size = short === 0 ? to - at : short === 1 ? Number(file.readBigUInt64BE(at + 8)) : short
    if (size < head) break
    boxes.push({ type: file.toString("latin1", at + 4, at + 8), from: at + head, to: Math.min(at + size, to) })
    at += size
  }
  return boxes
}

/** Where in the file the data of each item lies; what lies inside the box of lists itself is left out. */
function extentsIn(file: Buffer, { from }: Box): Extent[] {
  let at = from
  const read = (bytes: number) => {
    at += bytes
    if (bytes === 8) return Number(file.readBigUInt64BE(at - bytes))
    return bytes === 0 ? 0 : file.readUIntBE(at - bytes, bytes)
  }
  const version = read(1)
  read(3)
  const [ofOffset, ofLength] = halves(read(1))
  const [ofBase, ofIndex] = halves(read(1))
  const wide = version === 2 ? 4 : 2

  const extents: Extent[] = []
  for (let items = read(wide); items > 0; items--) {
    const id = read(wide)
    const inFile = version === 0 || (read(2) & 15) === 0
    read(2)
    const base = read(ofBase)
    for (let left = read(2); left > 0; left--) {
      if (version > 0) read(ofIndex)
      const start = base + read(ofOffset)
      extents.push({ id, inFile, from: start, to: start + read(ofLength) })
      if (extents.length > mostExtents) throw new RangeError("Too many extents")
    }
  }
  return extents.filter(({ inFile }) => inFile)
}

const halves = (byte: number) => [byte >> 4, byte & 15] as [number, number]

function hevcItems(file: Buffer, { from, to }: Box) {
  const wide = file.readUInt8(from) > 0
  const items = boxesIn(file, from + (wide ? 8 : 6), to).map((info) => {
    const long = file.readUInt8(info.from) === 3
    const type = info.from + (long ? 10 : 8)
    return {
      id: long ? file.readUInt32BE(info.from + 4) : file.readUInt16BE(info.from + 4),
      type: file.toString("latin1", type, type + 4),
    }
  })
  return new Set(items.filter(({ type }) => type === "hvc1" || type === "hev1").map(({ id }) => id))
}
