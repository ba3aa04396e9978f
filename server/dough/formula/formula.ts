import type { Range } from "../amounts.ts"
import { type CountsAs, guessCountsAs } from "../ingredients/counts-as.ts"
import { type Quantity, readQuantity } from "../quantity/old.ts"
import { explain } from "./gaps.ts"
import { nameOf, type Place, placeParts } from "./parts.ts"
import { type ExactLine, type Totals, totalsAt } from "./totals.ts"

/** A line as typed. `countsAs` "" is guessed from the name. */
export type WrittenLine = { quantity: string; ingredient: string; note: string; countsAs: CountsAs | "" }

/** `goesInto` is the key of the part this one is used in, "" for a final dough; `staysPercent` the share left in its jar, "" = 0. */
export type WrittenPart = { key: string; name: string; lines: WrittenLine[]; goesInto: string; staysPercent: string }

export type WrittenFormula = { parts: WrittenPart[]; pieces: string; pieceMass: string }

/** `g` is what is weighed in for the part as made; `share` is what of it reaches the dough, of the total flour. */
export type LineFigures = {
  quantity: Quantity
  g?: Range
  share?: Range
  countsAs: CountsAs
  guessed: boolean
  problem?: string
}

/**
 * Grams made and grams that go on from it (`used`). `flour` and `hydration` are within the part as made, with what other
 * parts bring into it.
 */
export type PartFigures = {
  key: string
  made?: Range
  used?: Range
  lines: LineFigures[]
  flour?: Range
  hydration?: Range
  problem?: string
}

/** Masses in grams; hydration, salt and prefermented as shares of the total flour. `cannot` says in words what is missing and why. */
export type Figures = {
  parts: PartFigures[]
  dough?: Range
  flour?: Range
  water?: Range
  hydration?: Range
  salt?: Range
  prefermented?: Range
  pieces?: { count: number; eachG?: Range }
  cannot: string[]
}

/**
 * Works out a formula in baker's percentage, as far as what is written allows. Never throws.
 *
 * The total flour is the flour of all parts that finally reaches a final dough, with half of each starter line (ripe
 * starter at 100 % hydration); hydration counts lines that count as water and the starter's other half, so milk or eggs
 * bring none yet. A percentage typed is of that total flour and of what reaches the dough. Prefermented is the flour of
 * starter lines and of parts with yeast or starter that go into another part. A line that only repeats a part which goes
 * into this one anyway is left out of the sums and says so.
 *
 * Ranges: every figure rises or falls steadily with each amount, so its lowest and highest value lie at combinations of
 * range ends. All combinations are worked out and the extremes taken; an amount above and below the line moves together.
 * Beyond eight ranges the rest count at their middle, which `cannot` says.
 *
 * Source: baker's percentage, total flour = 100 (Gisslen, Professional Baking; Figoni, How Baking Works).
 */
export function workOut(formula: WrittenFormula): Figures {
  const places = placeParts(formula.parts)
  const lines = formula.parts.flatMap((part, partIndex) =>
    part.lines.map((line) => readLine(line, partIndex, places, formula.parts)),
  )
  const counted = lines.filter((line) => line.counted)
  const pieces = readPieces(formula)
  const { corners, setAside } = workOutCorners(counted, places, pieces.doughG)
  const spread = (pick: (totals: Totals) => number | undefined) => rangeOver(corners, pick)

  const figures = lines.map((line): LineFigures & { partIndex: number } => {
    const { quantity, countsAs, guessed, problem, partIndex } = line
    const at = counted.indexOf(line)
    const g = quantity.kind === "mass" ? quantity.g : spread(({ grams }) => grams[at])
    return { quantity, countsAs, guessed, problem, partIndex, g, share: spread(({ shares }) => shares[at]) }
  })
  const dough = spread((totals) => totals.dough)
  const { count, eachG } = pieces
  return {
    parts: formula.parts.map((part, index) => ({
      key: part.key,
      made: spread(({ parts }) => parts[index]?.made),
      used: spread(({ parts }) => parts[index]?.used),
      lines: figures.filter((line) => line.partIndex === index).map(({ partIndex: _, ...line }) => line),
      flour: spread(({ parts }) => parts[index]?.flour),
      hydration: spread(({ parts }) => parts[index]?.hydration),
      problem: places[index]?.problem,
    })),
    dough,
    flour: spread((totals) => totals.flour),
    water: spread((totals) => totals.water),
    hydration: spread((totals) => totals.hydration),
    salt: spread((totals) => totals.salt),
    prefermented: spread((totals) => totals.prefermented),
    pieces: count ? { count, eachG: dough ? { low: dough.low / count, high: dough.high / count } : eachG } : undefined,
    cannot: explain({ formula, places, lines: counted, pieces, corners, dough, setAside }),
  }
}

/** A line as read; `counted` is false for an empty row and for one that only repeats a part. */
export type ReadLine = Omit<LineFigures, "g" | "share"> & { partIndex: number; name: string; counted: boolean }

function readLine(line: WrittenLine, partIndex: number, places: Place[], parts: WrittenPart[]): ReadLine {
  const name = line.ingredient.trim()
  const quantity = readQuantity(line.quantity)
  const empty = name === "" && quantity.kind === "blank"
  const same = (index: number) => nameOf(parts[index]).toLowerCase() === name.toLowerCase()
  const repeats = places[partIndex]?.childIndexes.some(same) ?? false
  const problem = repeats
    ? `${name} goes into this part as a whole already, so this line is not counted; leave it out.`
    : quantity.kind === "unread"
      ? quantity.why
      : !empty && name === ""
        ? "Name the ingredient."
        : undefined
  const countsAs = line.countsAs || guessCountsAs(name)
  return { quantity, countsAs, guessed: !line.countsAs, problem, partIndex, name, counted: !empty && !repeats }
}

export type Pieces = { count?: number; eachG?: Range; doughG?: Range; problem?: string }

function readPieces({ pieces, pieceMass }: WrittenFormula): Pieces {
  const each = readQuantity(pieceMass)
  const eachG = each.kind === "mass" ? each.g : undefined
  const whole = /^\d{1,4}$/.test(pieces.trim()) ? Number(pieces) : 0
  if (pieces.trim() && !whole) return { eachG, problem: "The number of pieces must be a whole number above 0." }
  if (each.kind === "unread") return { count: whole || undefined, problem: `The mass of a piece: ${each.why}` }
  if (each.kind === "percent")
    return { count: whole || undefined, problem: "Give the mass of a piece in g, kg, oz or lb." }
  if (!whole) return { eachG, problem: eachG && "Give the number of pieces as well as the mass of one." }
  return { count: whole, eachG, doughG: eachG && { low: eachG.low * whole, high: eachG.high * whole } }
}

// 2^8 combinations take less than a tenth of a second. Our own limit.
const mostRanges = 8

function workOutCorners(lines: ReadLine[], places: Place[], doughG: Range | undefined) {
  const ranges = [...lines.map(rangeOf), doughG]
  const open = ranges.flatMap((range, index) => (range && range.low < range.high ? [index] : []))
  const varied = open.slice(0, mostRanges)
  const corners = Array.from({ length: 2 ** varied.length }, (_, corner) => {
    const valueAt = (range: Range | undefined, index: number) => {
      const bit = varied.indexOf(index)
      if (!range) return undefined
      if (bit < 0) return (range.low + range.high) / 2
      return corner & (1 << bit) ? range.high : range.low
    }
    const exact = lines.map(
      (line, index): ExactLine => ({
        partIndex: line.partIndex,
        countsAs: line.countsAs,
        unit: line.quantity.kind === "percent" ? "share" : "g",
        amount: valueAt(ranges[index], index),
      }),
    )
    return totalsAt(exact, places, valueAt(doughG, lines.length))
  })
  return { corners, setAside: open.length - varied.length }
}

function rangeOf({ quantity }: ReadLine) {
  return quantity.kind === "mass" ? quantity.g : quantity.kind === "percent" ? quantity.share : undefined
}

// Rounding makes one value come out a hair apart at two corners; that is no range.
const roundingNoise = 1e-12

function rangeOver(corners: Totals[], pick: (totals: Totals) => number | undefined): Range | undefined {
  const values = corners.map(pick).filter((value) => value !== undefined)
  if (values.length < corners.length) return undefined
  const low = Math.min(...values)
  const high = Math.max(...values)
  return high - low <= roundingNoise * Math.abs(high) ? { low, high: low } : { low, high }
}
