import { readFileSync } from "node:fs"

export const sample = (name: string) => readFileSync(new URL(`samples/${name}`, import.meta.url))

type Turn = { quarters?: 0 | 1 | 2 | 3; mirror?: "left-right" | "top-bottom" }
type Item = { type: "hvc1" | "grid"; data: Buffer; properties: Buffer[]; hidden?: boolean; madeOf?: number[] }

/** A sample written anew with the boxes by which phones say how the picture lies: turned `quarters` to the left, then mirrored. */
export function turnedHeic(name: string, { quarters = 0, mirror }: Turn) {
  const { data, properties } = codedIn(sample(name))
  const irot = box("irot", bytes(quarters))
  const imir = box("imir", bytes(mirror === "left-right" ? 1 : 0))
  return heicOf([{ type: "hvc1", data, properties: [...properties, irot, ...(mirror ? [imir] : [])] }])
}

/** As phones code large pictures: hidden tiles, here all the same, of which a primary picture is put together and cut to size. */
export function tiledHeic(
  name: string,
  { rows, columns, width, height }: Record<"rows" | "columns" | "width" | "height", number>,
) {
  const { data, properties } = codedIn(sample(name))
  const tiles = Array.from({ length: rows * columns }, (): Item => ({ type: "hvc1", data, properties, hidden: true }))
  const grid: Item = {
    type: "grid",
    data: Buffer.concat([bytes(0, 0, rows - 1, columns - 1), short(width), short(height)]),
    properties: [ispe(width, height)],
    madeOf: tiles.map((_, index) => index + 2),
  }
  return heicOf([grid, ...tiles])
}

/** Two pictures, of which not the first but the second is the one to show. */
export function secondOfTwo(first: string, second: string) {
  const items = [first, second].map((name): Item => ({ type: "hvc1", ...codedIn(sample(name)) }))
  return heicOf(items, 2)
}

/** The coded picture of a file that holds only one, and what its decoder must know. */
function codedIn(file: Buffer) {
  const properties = ["hvcC", "ispe"].map((type) => box(type, payload(file, type)))
  return { data: payload(file, "mdat"), properties }
}

function payload(file: Buffer, type: string) {
  const at = file.indexOf(type, 0, "latin1") - 4
  return file.subarray(at + 8, at + file.readUInt32BE(at))
}

// ISO/IEC 14496-12 (boxes) and 23008-12 (pictures in them)
function heicOf(items: Item[], primary = 1) {
  const file = Buffer.from("....ftypheic\0\0\0\0mif1heic", "latin1")
  file.writeUInt32BE(file.length, 0)
  const written = (dataAt: number) => {
    const meta = full("meta", 0, 0, handler, full("pitm", 0, 0, short(primary)), places(items, dataAt), ...about(items))
    return Buffer.concat([file, meta, box("mdat", ...items.map(({ data }) => data))])
  }
  const length = items.reduce((sum, { data }) => sum + data.length, 0)
  return written(written(0).length - length)
}

const handler = full("hdlr", 0, 0, long(0), Buffer.from("pict"), Buffer.alloc(13))

function places(items: Item[], dataAt: number) {
  let at = dataAt
  const each = items.map(({ data }, index) => {
    const place = Buffer.concat([short(index + 1), short(0), short(1), long(at), long(data.length)])
    at += data.length
    return place
  })
  return full("iloc", 0, 0, bytes(0x44, 0), short(items.length), ...each)
}

function about(items: Item[]) {
  const entry = ({ type, hidden }: Item, index: number) =>
    full("infe", 2, hidden ? 1 : 0, short(index + 1), short(0), Buffer.from(type), bytes(0))
  const references = items.flatMap(({ madeOf }, index) =>
    madeOf ? [box("dimg", short(index + 1), short(madeOf.length), ...madeOf.map(short))] : [],
  )
  const all = [...new Set(items.flatMap(({ properties }) => properties))]
  // all of them essential, which says that a reader who does not know one may not show the picture
  const associations = items.map(({ properties }, index) => {
    const numbers = properties.map((property) => 0x80 | (all.indexOf(property) + 1))
    return Buffer.concat([short(index + 1), bytes(numbers.length, ...numbers)])
  })
  return [
    full("iinf", 0, 0, short(items.length), ...items.map(entry)),
    ...(references.length ? [full("iref", 0, 0, ...references)] : []),
    box("iprp", box("ipco", ...all), full("ipma", 0, 0, long(items.length), ...associations)),
  ]
}

const ispe = (width: number, height: number) => full("ispe", 0, 0, long(width), long(height))
function box(type: string, ...parts: Buffer[]): Buffer {
  const body = Buffer.concat([Buffer.from(type, "latin1"), ...parts])
  return Buffer.concat([long(body.length + 4), body])
}
function full(type: string, version: number, flags: number, ...parts: Buffer[]) {
  return box(type, bytes(version, 0, 0, flags), ...parts)
}
function bytes(...values: number[]) {
  return Buffer.from(values)
}
function short(value: number) {
  return bytes(value >> 8, value & 255)
}
function long(value: number) {
  const four = Buffer.alloc(4)
  four.writeUInt32BE(value)
  return four
}
