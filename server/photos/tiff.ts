type Shape = { width: number; height: number; channels: 3 | 4; icc: Buffer }
type Field = { tag: number; type: number; count: number; bytes: Buffer }

// In this many strips a reader never holds more than a small part of the picture at once.
const strips = 64
// Fields and tables take under 700.
const fixedBytes = 1024

/** The bytes before the pixels, whatever the size of the picture. */
export const tiffHeadBytes = (icc: Buffer) => fixedBytes + icc.length

/**
 * Makes `file` an uncompressed TIFF in place: its rows of 8-bit RGB or RGBA lie there already, after `tiffHeadBytes`. An
 * empty `icc` is left out. Source: TIFF 6.0 (1992), sections 2, 6 and 18; tag 34675 is of ICC.1, annex B.
 */
export function writeTiffHead(file: Buffer, { width, height, channels, icc }: Shape) {
  const rows = Math.ceil(height / strips)
  const tops = Array.from({ length: Math.ceil(height / rows) }, (_, index) => index * rows)
  const rowBytes = width * channels

  writeFields(file, [
    longs(256, [width]),
    longs(257, [height]),
    shorts(258, Array(channels).fill(8)), // bits of each channel
    shorts(259, [1]), // not compressed
    shorts(262, [2]), // RGB
    longs(
      273,
      tops.map((top) => tiffHeadBytes(icc) + top * rowBytes),
    ),
    shorts(277, [channels]),
    longs(278, [rows]),
    longs(
      279,
      tops.map((top) => Math.min(rows, height - top) * rowBytes),
    ),
    ...(channels === 4 ? [shorts(338, [2])] : []), // the fourth is opacity
    ...(icc.length > 0 ? [{ tag: 34675, type: 7, count: icc.length, bytes: icc }] : []),
  ])
}

/** One directory of fields, what does not fit into its four bytes after it. */
function writeFields(file: Buffer, fields: Field[]) {
  file.write("II*\0", 0, "latin1")
  file.writeUInt32LE(8, 4)
  file.writeUInt16LE(fields.length, 8)
  let free = 10 + 12 * fields.length + 4
  for (const [index, { tag, type, count, bytes }] of fields.entries()) {
    const at = 10 + 12 * index
    file.writeUInt16LE(tag, at)
    file.writeUInt16LE(type, at + 2)
    file.writeUInt32LE(count, at + 4)
    const fits = bytes.length <= 4
    if (!fits) file.writeUInt32LE(free, at + 8)
    bytes.copy(file, fits ? at + 8 : free)
    if (!fits) free += bytes.length + (bytes.length % 2)
  }
}

const shorts = (tag: number, values: number[]): Field => ({
  ...{ tag, type: 3, count: values.length },
  bytes: Buffer.from(Uint16Array.from(values).buffer),
})
const longs = (tag: number, values: number[]): Field => ({
  ...{ tag, type: 4, count: values.length },
  bytes: Buffer.from(Uint32Array.from(values).buffer),
})
