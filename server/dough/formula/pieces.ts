import type { Range, Share } from "../amounts.ts"
import { readQuantity } from "../quantity/read.ts"
import type { WrittenFormula } from "./written.ts"

/** The pieces as written. `doughG` is all of them together; `allowedG` what one may weigh when it should weigh `eachG`. */
export type ReadPieces = {
  count?: number
  eachG?: Range
  doughG?: Range
  allowedG: (eachG: Range) => Range | undefined
  problems: string[]
}

/** Reads how many pieces, of what mass and how exactly; what cannot be read is a sentence in `problems`. Never throws. */
export function readPieces(written: Pick<WrittenFormula, "pieces" | "pieceMass" | "pieceTolerance">): ReadPieces {
  const each = readQuantity(written.pieceMass)
  const eachG = each.kind === "mass" ? each.g : undefined
  const typed = written.pieces.trim()
  const count = /^[1-9]\d{0,3}$/.test(typed) ? Number(typed) : undefined
  const tolerance = readTolerance(written.pieceTolerance)
  const doughG = eachG && count ? { low: eachG.low * count, high: eachG.high * count } : undefined
  const problems: string[] = []
  if (typed && !count) problems.push("The number of pieces must be a whole number above 0.")
  else if (each.kind === "asks") problems.push(`The mass of a piece: ${each.question}`)
  else if (each.kind === "percent") problems.push("Give the mass of a piece in g, kg, oz or lb.")
  else if (eachG && !count) problems.push("Give the number of pieces as well as the mass of one.")
  if (!tolerance) problems.push("Give how far a piece may be off as one mass or percentage, such as 5 g or 3 %.")
  return { count, eachG, doughG, allowedG: (g) => (tolerance ? allowed(g, tolerance) : undefined), problems }
}

/** How far a piece may be off, up or down. */
export type Tolerance = { g: number } | { share: Share } | "none given"

/** "± 5 g", "+/- 3 %", "5"; undefined when it cannot be read. */
export function readTolerance(text: string): Tolerance | undefined {
  const quantity = readQuantity(text.replace(/^\s*(±|\+ ?\/? ?[-−–])/, ""))
  if (quantity.kind === "blank") return "none given"
  if (quantity.kind === "mass" && quantity.g.low === quantity.g.high) return { g: quantity.g.low }
  if (quantity.kind === "percent" && quantity.share.low === quantity.share.high) return { share: quantity.share.low }
}

function allowed({ low, high }: Range, tolerance: Tolerance): Range | undefined {
  if (tolerance === "none given") return undefined
  if ("g" in tolerance) return { low: Math.max(0, low - tolerance.g), high: high + tolerance.g }
  return { low: low * (1 - tolerance.share), high: high * (1 + tolerance.share) }
}
