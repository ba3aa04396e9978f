import type { Range, Share } from "../amounts.ts"
import type { CountsAs } from "../ingredients/counts-as.ts"
import type { Ingredient } from "../ingredients/ingredient.ts"
import type { Quantity } from "../quantity/reading.ts"
import { showMass, showRange } from "../units.ts"
import { bringsOf, type Content } from "./brings.ts"
import { atCorners, rangeOver } from "./corners.ts"
import { explain } from "./gaps.ts"
import { type Known, type PlacedLine, type ReadLine, readLine, readLines } from "./lines.ts"
import { placeParts } from "./parts.ts"
import { type ReadPieces, readPieces } from "./pieces.ts"
import { askAbout, type Question } from "./questions.ts"
import { mixOf } from "./sums.ts"
import { type Totals, totalsAt } from "./totals.ts"
import type { WrittenFormula, WrittenLine } from "./written.ts"

/**
 * `g` is what is weighed in for the part as made; `share` is what of it reaches the dough, of all flour, `shareOfPart` what
 * is weighed in, of the fresh flour in its part. `counted` is false for an empty row or one that only repeats a part.
 */
export type LineFigures = {
  quantity: Quantity
  ingredient?: Pick<Ingredient, "slug" | "name" | "role">
  g?: Range
  share?: Range<Share>
  shareOfPart?: Range<Share>
  countsAs: CountsAs
  guessed: boolean
  counted: boolean
  problem?: string
}

/** Masses in grams, the rest shares; what each share is of, `bases` has in words. */
export type PartFigures = {
  key: string
  lines: LineFigures[]
  /** As made, with what other parts bring into it; what of that goes on; and the share that stays in its jar. */
  made?: Range
  used?: Range
  stays?: Range<Share>
  /** All flour in it as made, and that of it which has not fermented in another part. */
  flour?: Range
  freshFlour?: Range
  formulaTotal?: Range<Share>
  hydration?: Range<Share>
  wholeHydration?: Range<Share>
  inoculation?: Range<Share>
  problem?: string
}

/** Masses in grams, the rest shares, all of what reaches the final dough; what each share is of, `bases` has in words. */
export type WholeFigures = {
  dough?: Range
  flour?: Range
  water?: Range
  wholeWater?: Range
  /** All percentages together, 1.75 for 175 %: at the same time the factor between flour and dough. */
  formulaTotal?: Range<Share>
  hydration?: Range<Share>
  wholeHydration?: Range<Share>
  salt?: Range<Share>
  wholeSalt?: Range<Share>
  sugar?: Range<Share>
  fat?: Range<Share>
  flourProtein?: Range<Share>
  prefermented?: Range<Share>
  inoculation?: Range<Share>
}

/**
 * `leftOut` names the ingredients that a figure does without because nobody knows how much of it is in them: it then is
 * the least that can be. `questions` are about what can be worked out but looks odd, `cannot` says what is missing and why.
 */
export type Figures = WholeFigures & {
  parts: PartFigures[]
  finishing: LineFigures[]
  pieces?: { count: number; eachG?: Range; allowedG?: Range }
  leftOut: Record<LeftOutOf, string[]>
  questions: Question[]
  cannot: string[]
}
export type LeftOutOf = "wholeHydration" | "wholeSalt" | "fat" | "sugar"

/**
 * Works out a formula in baker's percentage, as far as what is written allows. Never throws.
 *
 * The total flour is the flour of all parts that finally reaches a final dough, with half of each starter line (ripe
 * starter at 100 % hydration). A percentage typed is of that total flour and of what reaches the dough. Prefermented is
 * the flour of starter lines and of parts with yeast or starter that go into another part. A line that only repeats a part
 * which goes into this one anyway is left out of the sums and says so. Finishing lines stand outside the dough; a
 * percentage there is of the same flour. `doughG` is the mass wanted where all flour is in percent, in place of the pieces'.
 *
 * Ranges: with all other amounts held, every figure is a ratio of two straight lines in one amount, which only rises or
 * only falls, so its lowest and highest value lie at combinations of range ends. All combinations are worked out and the
 * extremes taken; an amount above and below the line moves together. Where a mass stays in the jar of a part with a range in
 * it, that holds to within a few thousandths. Of more than eight ranges the narrowest count at their middle, which `cannot`
 * says.
 *
 * Source: baker's percentage, total flour = 100 (Gisslen, Professional Baking; Figoni, How Baking Works).
 */
export function workOut(formula: WrittenFormula, options: Known & { doughG?: number } = {}): Figures {
  const places = placeParts(formula.parts)
  const lines = readLines(formula.parts, places, options)
  const counted = lines.filter((line) => line.counted)
  const pieces = readPieces(formula)
  const { corners, setAside, leftOut } = workOutCorners(counted, places, wantedG(pieces, options.doughG))
  const spread = (pick: (totals: Totals) => number | undefined) => rangeOver(corners.map(pick))

  const lineFigures = (line: PlacedLine): LineFigures => {
    const at = counted.indexOf(line)
    return {
      ...ofReading(line),
      g: line.quantity.kind === "mass" ? line.quantity.g : spread(({ grams }) => grams[at]),
      share: spread(({ shares }) => shares[at]),
      shareOfPart: spread(({ sharesOfPart }) => sharesOfPart[at]),
    }
  }
  const whole = spreadAll(corners.map(({ whole }) => whole))
  const figures: Figures = {
    ...whole,
    parts: formula.parts.map(({ key }, index) => ({
      key,
      lines: lines.filter(({ partIndex }) => partIndex === index).map(lineFigures),
      ...spreadAll(corners.map(({ parts }) => parts[index]!)),
      problem: places[index]!.problem,
    })),
    finishing: formula.finishing.map((line) => lineByItself(line, whole.flour, options)),
    pieces: piecesFigures(pieces, whole.dough),
    leftOut,
    questions: [],
    cannot: [],
  }
  const worked = {
    formula,
    places,
    lines,
    pieces,
    bases: corners.map(({ basis }) => basis),
    figures,
    setAside,
    mass: massesIn(options),
  }
  return { ...figures, questions: askAbout(worked), cannot: explain(worked) }
}

/** A mass in words. */
export const massesIn =
  ({ massUnit = "g" }: Known) =>
  (g: Range) =>
    showRange(g, (one) => showMass(one, massUnit))

/**
 * A line that stands in no part, as those of the finishing and those that a variant would swap in; a percentage is of
 * `flour`, g. Never throws.
 */
export function lineByItself(line: WrittenLine, flour: Range | undefined, known: Known = {}): LineFigures {
  const read = readLine(line, known)
  const { quantity } = read
  if (quantity.kind === "mass") return { ...ofReading(read), g: quantity.g }
  if (quantity.kind !== "percent" || !flour) return ofReading(read)
  const { low, high } = quantity.share
  return { ...ofReading(read), g: { low: low * flour.low, high: high * flour.high } }
}

const ofReading = ({ quantity, ingredient, countsAs, guessed, counted, problem }: ReadLine) => ({
  quantity,
  ingredient: ingredient && { slug: ingredient.slug, name: ingredient.name, role: ingredient.role },
  ...{ countsAs, guessed, counted, problem },
})

function wantedG({ doughG }: ReadPieces, instead: number | undefined): Range | undefined {
  return instead === undefined ? doughG : { low: instead, high: instead }
}

function workOutCorners(lines: PlacedLine[], places: ReturnType<typeof placeParts>, doughG: Range | undefined) {
  const contents = lines.map(({ countsAs, ingredient }) => bringsOf(countsAs, ingredient))
  const mix = mixOf(
    lines.map(({ partIndex, quantity, countsAs }, i) => {
      return { partIndex, unit: quantity.kind === "percent" ? "share" : "g", brings: contents[i]!.brings, countsAs }
    }),
    places,
  )
  const ranges = [...lines.map(amountOf), doughG]
  const heaviest = Math.max(...ranges.map((range, i) => (mix.lines[i]?.unit === "g" ? (range?.high ?? 0) : 0)))
  const weight = (i: number) => (mix.lines[i]?.unit === "share" ? 1 : 1 / heaviest)
  const { results, setAside } = atCorners(ranges, weight, (values) => totalsAt(mix, values, values.at(-1)!))

  const lacking = (content: Content) => [
    ...new Set(
      lines
        .filter((line, i) => contents[i]!.unknown.includes(content) && amountOf(line)?.high !== 0)
        .map(({ name }) => name),
    ),
  ]
  const leftOut = {
    wholeHydration: lacking("allWater"),
    wholeSalt: lacking("allSalt"),
    fat: lacking("fat"),
    sugar: lacking("sugar"),
  }
  return { corners: results, setAside, leftOut }
}

function amountOf({ quantity }: ReadLine): Range | undefined {
  return quantity.kind === "mass" ? quantity.g : quantity.kind === "percent" ? quantity.share : undefined
}

function spreadAll<Kind extends string>(at: Record<Kind, number | undefined>[]) {
  const kinds = Object.keys(at[0] ?? {}) as Kind[]
  const ranges = kinds.map((kind) => [kind, rangeOver(at.map((totals) => totals[kind]))] as const)
  return Object.fromEntries(ranges) as Record<Kind, Range | undefined>
}

function piecesFigures({ count, eachG, allowedG }: ReadPieces, dough: Range | undefined): Figures["pieces"] {
  if (!count) return undefined
  const each = dough ? { low: dough.low / count, high: dough.high / count } : eachG
  return { count, eachG: each, allowedG: each && allowedG(each) }
}
