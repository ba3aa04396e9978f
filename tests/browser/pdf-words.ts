import { inflateSync } from "node:zlib"

/**
 * The letters of a PDF as Chromium prints it, without its spaces, which it makes by moving the pen. Reads what Chromium writes
 * and no other PDF: objects one after the other, fonts named for the number of their object, glyphs as four hex digits.
 */
export function lettersOf(pdf: Buffer): string {
  const objects = objectsOf(pdf)
  const letters = new Map<string, Map<string, string>>()
  for (const [number, { head }] of objects) {
    const map = /\/ToUnicode (\d+) 0 R/.exec(head)?.[1]
    if (map) letters.set(`F${number}`, glyphsIn(objects.get(map)?.stream ?? ""))
  }
  return [...objects.values()].map(({ stream }) => spoken(stream, letters)).join("")
}

function objectsOf(pdf: Buffer) {
  const text = pdf.toString("latin1")
  const objects = new Map<string, { head: string; stream: string }>()
  for (const match of text.matchAll(/(?:^|\n)(\d+) 0 obj\n([\s\S]*?)(?:\nendobj|stream\r?\n)/g)) {
    const [whole, number, head] = [match[0], match[1]!, match[2]!]
    const length = /\/Length (\d+)/.exec(head)?.[1]
    const start = match.index + whole.length
    const body = whole.endsWith("stream\n") && length ? pdf.subarray(start, start + Number(length)) : Buffer.alloc(0)
    objects.set(number, {
      head,
      stream: body.length && /FlateDecode/.test(head) ? opened(body) : body.toString("latin1"),
    })
  }
  return objects
}

function opened(body: Buffer) {
  try {
    return inflateSync(body).toString("latin1")
  } catch {
    return "" // a picture or a font that is packed otherwise
  }
}

/** What the glyphs of a font say, from its table of letters: single ones, and runs of glyphs and letters side by side. */
function glyphsIn(table: string) {
  const glyphs = new Map<string, string>()
  const sections = (name: string) =>
    [...table.matchAll(new RegExp(`begin${name}([\\s\\S]*?)end${name}`, "g"))].map((section) => section[1]!)
  for (const section of sections("bfchar"))
    for (const [, glyph, letter] of section.matchAll(/<(\w{4})> <(\w+)>/g))
      glyphs.set(glyph!.toUpperCase(), lettersIn(letter!))
  for (const section of sections("bfrange"))
    for (const [, from, to, letter] of section.matchAll(/<(\w{4})> <(\w{4})> <(\w{4})>/g)) {
      const [first, last, start] = [from!, to!, letter!].map((hex) => Number.parseInt(hex, 16)) as [
        number,
        number,
        number,
      ]
      for (let at = first; at <= last; at++) glyphs.set(hexOf(at), String.fromCharCode(start + at - first))
    }
  return glyphs
}
const hexOf = (value: number) => value.toString(16).toUpperCase().padStart(4, "0")
const lettersIn = (hex: string) =>
  (hex.match(/.{4}/g) ?? []).map((four) => String.fromCharCode(Number.parseInt(four, 16))).join("")

function spoken(stream: string, letters: Map<string, Map<string, string>>) {
  let font = new Map<string, string>()
  let said = ""
  for (const [, name, hex] of stream.matchAll(/\/(F\d+) [\d.]+ Tf|<([0-9A-Fa-f]{4,})>/g)) {
    if (name) font = letters.get(name) ?? new Map()
    else for (const glyph of hex!.match(/.{4}/g) ?? []) said += font.get(glyph.toUpperCase()) ?? ""
  }
  // "ﬂ" is one letter to a font and two to a reader
  return said.normalize("NFKC").replace(/\s/g, "")
}
