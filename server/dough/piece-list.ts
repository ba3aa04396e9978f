import { gramsPerOunce, gramsPerPound } from "./quantity/measures.ts"
import type { Read } from "./readings.ts"

// Beyond these a slip is likelier than such a piece, or so many of them, at home. Our own limits, no published source.
const lightestG = 5
const heaviestG = 10_000
const mostPieces = 200

/**
 * The masses of pieces in grams, in the order typed: "92 88 95", "92, 88, 95 g", "3.2 oz; 1 lb 2 oz", or one a line. A
 * number without a unit is in g or oz, whichever another piece has or, where none has, `unit`, the person's own. From 1 to
 * 200 pieces of 5 g to 10 kg; anything else comes back as a sentence that quotes it.
 */
export function readPieceMasses(text: string, unit: "g" | "oz"): Read<number[]> {
  const typed = tidy(text)
  const doubtful = /\d+(?:,\d+)+/.exec(typed)?.[0]
  if (doubtful)
    return { error: `Is ${doubtful} one piece or several? Put a space after each comma, or write a point for it.` }
  const words = typed.match(eachPiece) ?? []
  if (words.length === 0) return { error: "Give the mass of each piece, such as 92 88 95." }
  if (words.length > mostPieces) return { error: `That is ${words.length} pieces; up to ${mostPieces} are kept.` }

  const pieces = words.map(pieceIn)
  const named = (["g", "oz"] as const).filter((one) => pieces.some((piece) => piece?.unit === one))
  const massesG: number[] = []
  for (const [at, piece] of pieces.entries()) {
    const mass = massOf(piece, named.length ? named : [unit])
    if ("error" in mass) return { error: `${words[at]!.slice(0, 30)}: ${mass.error}` }
    massesG.push(mass.value)
  }
  return { value: massesG }
}

/** A comma with one digit after it is decimal; one between two numbers or more of two digits each parts them. */
const tidy = (text: string) =>
  text
    .normalize("NFKC")
    .replace(/\u2212/g, "-")
    .toLowerCase()
    .replace(/(?<![\d,])(\d+),(\d)(?![\d,])/g, "$1.$2")
    .replace(/(?<![\d,])\d{2,}(?:,\d{2,}){2,}(?![\d,])/g, (list) => list.replaceAll(",", " "))

const pound = String.raw`(?:lbs?|pounds?)\.?`
const eachPiece = new RegExp(String.raw`\d+ ?${pound} [\d.]+ ?(?:oz|ounces?)|[\d.]+ ?[a-z]+|[^\s,;]+`, "g")
const onePiece = new RegExp(String.raw`^(?:(\d+) ?${pound} )?(\d*\.?\d+) ?([a-z]*)\.?$`)

type Piece = { pounds: number; number: number; unit?: Unit }
type Unit = "g" | "kg" | "oz" | "lb"
const gramsPer: Record<Unit, number> = { g: 1, kg: 1000, oz: gramsPerOunce, lb: gramsPerPound }
const unitWords: [Unit, RegExp][] = [
  ["g", /^(g|gr|grams?)$/],
  ["kg", /^(kg|kilos?)$/],
  ["oz", /^(oz|ounces?)$/],
  ["lb", /^(lbs?|pounds?)$/],
]

function pieceIn(word: string): Piece | undefined {
  const [match, pounds = "0", number = "", name = ""] = onePiece.exec(word) ?? []
  const unit = unitWords.find(([, pattern]) => pattern.test(name))?.[0]
  if (!match || (name && !unit)) return undefined
  return { pounds: Number(pounds), number: Number(number), unit }
}

/** `units`: in which a piece without one may be. */
function massOf(piece: Piece | undefined, units: ("g" | "oz")[]): Read<number> {
  if (!piece) return { error: "give the mass of one piece, such as 92 or 92 g." }
  const [only, other] = units
  if (!piece.unit && other) return { error: `is that ${units.join(" or ")}? Give it its unit.` }
  const g = piece.pounds * gramsPerPound + piece.number * gramsPer[piece.unit ?? only!]
  if (g < lightestG) return { error: "that is too little for a piece of dough; check it." }
  return g > heaviestG ? { error: "that is too much for a piece of dough; check its unit." } : { value: g }
}
