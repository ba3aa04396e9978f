import type { Pan } from "./pans.ts"

/** What a pan's measures are typed for. A square, round or rectangular pan may be wider at the rim; a loaf tin mostly is. */
export const panShapes = ["round", "square", "rectangle"] as const
export type PanShape = (typeof panShapes)[number]

/** The order in which the measures are read, in the words of the page. */
export const panMeasures: Record<PanShape, string> = {
  round: "across × height, or across the rim / the bottom × height",
  square: "side × height, or at the rim / the bottom × height",
  rectangle: "length × width × height, or length × width at the rim / at the bottom × height",
}

// Between a fish tin and a baker's tray. Our own limits.
const smallestMm = 10
const largestMm = 1500

/**
 * A pan as somebody types its inside measures: "24 × 5 cm", "26/24 × 5 cm", "9 x 5 x 3 in", "21 × 11 / 19 × 9 × 7 cm".
 * A length without its own unit takes the one at the end. The height may be left out. Comes back as a sentence where it
 * cannot be read.
 */
export function readPan(shape: PanShape, text: string): { pan: Pan } | { problem: string } {
  const asked = { problem: `Give ${panMeasures[shape]}, with mm, cm or in.` }
  const measures = readMeasures(text)
  if (!measures) return asked
  if (measures.flat().some((mm) => mm < smallestMm || mm > largestMm))
    return { problem: "A pan is between 1 cm and 1.5 m across; check the unit." }
  const pan = shape === "rectangle" ? rectangleOf(measures) : acrossOf(shape, measures)
  if (!pan) return asked
  const tops = [pan.topMm].flat()
  const bottoms = [pan.bottomMm].flat()
  const wider = bottoms.some((bottom, i) => bottom > tops[i]!)
  return wider ? { problem: "The bottom is wider than the rim: give the rim first." } : { pan }
}

/** "26/24 × 5 cm" is [[260], [240, 50]]: what stands before the slash, and what after it. */
function readMeasures(text: string): number[][] | undefined {
  const typed = text
    .normalize("NFKC")
    .toLowerCase()
    .replace(/,(?=\d)/g, ".")
    .replace(/′′|''|"/g, "in")
    .trim()
  const unitAtEnd = /(mm|cm|inch(?:es)?|in)\.?$/.exec(typed)?.[1]
  if (!unitAtEnd) return undefined
  const sides = typed.split("/").map((side) => side.split(/[×x*]| by /).map((each) => readLengthMm(each, unitAtEnd)))
  const read = sides.map((side) => side.filter((mm) => mm !== undefined))
  return read.every((side, i) => side.length === sides[i]!.length) ? read : undefined
}

// The inch is exact: NIST SP 811, Appendix B.
const mmPer: Record<string, number> = { mm: 1, cm: 10, in: 25.4, inch: 25.4, inches: 25.4 }

function readLengthMm(text: string, unit: string): number | undefined {
  const [, number, own = unit] = /^\s*(\d+(?:\.\d+)?)\s*(mm|cm|inch(?:es)?|in)?\.?\s*$/.exec(text) ?? []
  return number === undefined ? undefined : Number(number) * mmPer[own]!
}

function acrossOf(shape: "round" | "square", [rim = [], base]: number[][]): Pan | undefined {
  const [topMm, rest] = [rim[0], base ?? rim]
  const [bottomMm, heightMm] = rest
  if (topMm === undefined || bottomMm === undefined || rest.length > 2 || (base && rim.length > 1)) return undefined
  if (shape === "round") return { outline: "round", topMm, bottomMm, heightMm }
  return { outline: "rectangle", topMm: [topMm, topMm], bottomMm: [bottomMm, bottomMm], heightMm }
}

function rectangleOf([rim = [], base]: number[][]): Pan | undefined {
  const [length, width] = rim
  const rest = base ?? rim
  const [bottomLength, bottomWidth, heightMm] = rest
  if (length === undefined || width === undefined || bottomLength === undefined || bottomWidth === undefined) return
  if (rest.length > 3 || (base && rim.length > 2)) return undefined
  return { outline: "rectangle", topMm: [length, width], bottomMm: [bottomLength, bottomWidth], heightMm }
}
