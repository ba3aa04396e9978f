import type { Range, Share } from "../amounts.ts"
import { type Figures, type LineFigures, massesIn, workOut } from "./formula.ts"
import type { Known } from "./lines.ts"
import { baseAreaMm2, doughForPanG, type Filling, type Pan, volumeMl } from "./pans.ts"
import { readPieces } from "./pieces.ts"
import { positive } from "./positive.ts"
import type { WrittenFormula } from "./written.ts"

/**
 * How much is to be made. `bakedG` is one piece out of the oven, `loss` the share of it lost in baking; a class makes the
 * formula once for each of `people`, with `loss` the share of all dough that stays in bowls, in jars and on hands.
 */
export type Wish =
  | { by: "dough"; doughG: number }
  | { by: "flour"; flourG: number }
  | { by: "pieces"; count: number; eachG: number }
  | { by: "baked pieces"; count: number; bakedG: number; loss: Share }
  | { by: "pan"; count: number; pan: Pan; filling: Filling }
  | { by: "pan in place of another"; from: Pan; to: Pan; compare: "volume" | "area" }
  | { by: "times"; times: number }
  | { by: "class"; people: number; loss: Share }

/**
 * A formula at another size. All its shares are those of the formula; what the formula leaves open or unasked stays with
 * it, so `questions` and `cannot` are empty here. `says` is what the size takes for granted, in words.
 */
export type Scaled = { figures: Figures; says: string[] }

/** Baking takes this share of the dough's mass. Gisslen, Professional Baking: scaling. */
export const usualBakeLoss: Range<Share> = { low: 0.1, high: 0.13 }

/** What has to be there so that `g` are left when a share of it is lost. Throws RangeError for a loss outside 0–1. */
export function beforeLoss(g: number, loss: Share): number {
  if (!(loss >= 0 && loss < 1)) throw new RangeError(`${loss} is not a share that can be lost`)
  return positive(g) / (1 - loss)
}

/** The share of a dough's mass that baking took. Throws RangeError unless the bread weighs less than its dough. */
export function bakeLossOf(doughG: number, bakedG: number): Share {
  if (!(positive(bakedG) <= positive(doughG))) throw new RangeError(`${bakedG} g of bread out of ${doughG} g of dough`)
  return 1 - bakedG / doughG
}

/**
 * The formula at the size that was wished: every mass as made, ranges kept. Where the formula's own mass is a range, its
 * middle is brought to the wish. A formula in percent only gets its masses here. `cannot` where nothing gives the scale.
 * Throws RangeError for a wish that is not above 0.
 */
export function scaleTo(formula: WrittenFormula, wish: Wish, known: Known = {}): Scaled | { cannot: string } {
  const wanted = wantedOf(wish)
  const figures = workOut(formula, known)
  const factor = scaleFactor(wish, figures)
  if (factor !== undefined) {
    const scaled = multiplied(figures, factor)
    return { figures: withPieces(scaled, formula, wish), says: aboutMiddle(figures, scaled, wanted, massesIn(known)) }
  }
  const doughG = "times" in wanted ? undefined : doughOf(wanted, figures)
  if (doughG === undefined || figures.dough || figures.flour) return { cannot: noScale(wanted, figures) }
  const scaled = { ...workOut(formula, { ...known, doughG }), questions: [], cannot: [] }
  return scaled.dough ? { figures: withPieces(scaled, formula, wish), says: [] } : { cannot: noScale(wanted, figures) }
}

/** By how much every mass is multiplied; undefined where the formula has no mass to start from. Throws like scaleTo. */
export function scaleFactor(wish: Wish, { dough, flour }: Pick<Figures, "dough" | "flour">): number | undefined {
  const wanted = wantedOf(wish)
  if ("times" in wanted) return dough || flour ? wanted.times : undefined
  const base = "flourG" in wanted ? flour : dough
  return base && middle(base) > 0 ? ("flourG" in wanted ? wanted.flourG : wanted.doughG) / middle(base) : undefined
}

/** Ripe starter that goes into all parts as made; undefined where an amount is not known. */
export function starterNeeded({ parts }: Pick<Figures, "parts">): Range | undefined {
  const lines = parts.flatMap(({ lines }) => lines.filter(({ counted, countsAs }) => counted && countsAs === "starter"))
  return lines.reduce<Range | undefined>(
    (sum, { g }) => sum && g && { low: sum.low + g.low, high: sum.high + g.high },
    { low: 0, high: 0 },
  )
}

type Wanted = { doughG: number } | { flourG: number } | { times: number }

function wantedOf(wish: Wish): Wanted {
  switch (wish.by) {
    case "dough":
      return { doughG: positive(wish.doughG) }
    case "flour":
      return { flourG: positive(wish.flourG) }
    case "pieces":
      return { doughG: positive(wish.count) * positive(wish.eachG) }
    case "baked pieces":
      return { doughG: positive(wish.count) * beforeLoss(wish.bakedG, wish.loss) }
    case "pan":
      return { doughG: positive(wish.count) * doughForPanG(wish.pan, wish.filling) }
    case "pan in place of another": {
      const size = wish.compare === "volume" ? volumeMl : baseAreaMm2
      return { times: size(wish.to) / size(wish.from) }
    }
    case "times":
      return { times: positive(wish.times) }
    case "class":
      return { times: beforeLoss(wish.people, wish.loss) }
  }
}

const middle = ({ low, high }: Range) => (low + high) / 2

function doughOf(wanted: { doughG: number } | { flourG: number }, { formulaTotal }: Figures) {
  if ("doughG" in wanted) return wanted.doughG
  return formulaTotal && wanted.flourG * middle(formulaTotal)
}

function noScale(wanted: Wanted, { dough, flour }: Figures) {
  if ("times" in wanted) return "Nothing gives the formula a mass yet that could be taken several times."
  const [what, has] = "flourG" in wanted ? ["flour", flour] : ["dough", dough]
  return has
    ? `There is no ${what} in it.`
    : `The mass of its ${what} is not known, so it cannot be brought to another.`
}

function aboutMiddle(before: Figures, after: Figures, wanted: Wanted, mass: (g: Range) => string) {
  const { dough } = after
  if ("times" in wanted || !dough || !before.dough || before.dough.low === before.dough.high) return []
  return [
    `The formula has a range in it, and its middle was brought to this size: the dough will weigh ${mass(dough)}.`,
  ]
}

const massesOfPart = ["made", "used", "flour", "freshFlour"] as const
const massesOfWhole = ["dough", "flour", "water", "wholeWater"] as const

function multiplied(figures: Figures, factor: number): Figures {
  const scaled = (range: Range | undefined) => range && { low: range.low * factor, high: range.high * factor }
  const masses = <Kind extends string>(kinds: readonly Kind[], of: Partial<Record<Kind, Range>>) =>
    Object.fromEntries(kinds.map((kind) => [kind, scaled(of[kind])]))
  const scaledLine = (line: LineFigures) => ({ ...line, g: scaled(line.g) })
  return {
    ...figures,
    ...masses(massesOfWhole, figures),
    parts: figures.parts.map((part) => ({
      ...{ ...part, ...masses(massesOfPart, part) },
      lines: part.lines.map(scaledLine),
    })),
    finishing: figures.finishing.map(scaledLine),
    ...{ questions: [], cannot: [] },
  }
}

/** The pieces of the wish or, where it has none, as many as before, of what the dough then gives each. */
function withPieces(figures: Figures, formula: WrittenFormula, wish: Wish): Figures {
  const { allowedG } = readPieces(formula)
  const [count, eachG] = piecesOf(wish, figures)
  if (!count) return { ...figures, pieces: undefined }
  return { ...figures, pieces: { count, eachG, allowedG: eachG && allowedG(eachG) } }
}

function piecesOf(wish: Wish, { dough, pieces }: Figures): [count?: number, eachG?: Range] {
  const shared = (count: number): [number, Range | undefined] => [
    count,
    dough && { low: dough.low / count, high: dough.high / count },
  ]
  if ("count" in wish) return shared(wish.count)
  if (!pieces) return []
  if (wish.by === "times" && Number.isInteger(wish.times)) return [pieces.count * wish.times, pieces.eachG]
  if (wish.by === "class") return [pieces.count * wish.people, pieces.eachG]
  return shared(pieces.count)
}
