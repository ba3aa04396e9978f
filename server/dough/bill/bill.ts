import type { Range } from "../amounts.ts"
import type { Figures, LineFigures, PartFigures } from "../formula/formula.ts"
import { type Place, placeParts } from "../formula/parts.ts"
import type { WrittenFormula, WrittenLine, WrittenPart } from "../formula/written.ts"
import type { Stage } from "../schedule.ts"
import { type HeldBack, heldBack } from "./held-back.ts"
import { finishingFrom, type Need, orderOfNeed } from "./order.ts"

/** A line to weigh, g of it as made; where it cannot be weighed, `asks` says what would have to be known. */
export type BillLine = { written: WrittenLine; figures: LineFigures; g?: Range; held?: HeldBack; asks?: string }

/** A part made before that goes in whole; `all` of it unless some stays in its jar. */
export type BroughtIn = { written: WrittenPart; g?: Range; all: boolean; made: "above" | "below" }

/** One part to weigh. `waterG` is the water in it, in which something small can be stirred. */
export type BillPart = {
  written: WrittenPart
  figures: PartFigures
  need: Need
  lines: BillLine[]
  brought: BroughtIn[]
  waterG: number
}

/** All that is weighed, part by part; `finishing` goes on or around the dough from the stage `finishingFrom` on. */
export type Bill = { parts: BillPart[]; finishing: BillLine[]; finishingFrom?: string }

/**
 * What is weighed for a formula as it was worked out: its parts in the order in which they are needed with those stages or,
 * without any, as written. Each line stands in it once; only those that `figures` does not count are left out, which are
 * empty rows and rows that repeat a part. Never throws.
 */
export function billOf(
  formula: Pick<WrittenFormula, "parts" | "finishing">,
  figures: Pick<Figures, "parts" | "finishing">,
  stages?: Stage[],
): Bill {
  const { parts } = formula
  const places = placeParts(parts)
  const needs = stages ? orderOfNeed(parts, places, stages) : parts.map((_, part): Need => ({ part }))
  return {
    parts: needs.map((need, at) => partOf(need, needs.slice(0, at), { parts, places, figures })),
    finishing: linesOf(formula.finishing, figures.finishing),
    ...(stages ? { finishingFrom: finishingFrom(stages) } : {}),
  }
}

type Whole = { parts: WrittenPart[]; places: Place[]; figures: Pick<Figures, "parts"> }

function partOf(need: Need, before: Need[], { parts, places, figures }: Whole): BillPart {
  const written = parts[need.part]!
  const own = figures.parts[need.part]!
  const lines = linesOf(written.lines, own.lines)
  return {
    ...{ written, figures: own, need, lines },
    brought: places[need.part]!.childIndexes.flatMap((child) => broughtIn(child, before, { parts, places, figures })),
    waterG: lines.reduce((sum, { figures: { countsAs }, g }) => sum + (countsAs === "water" && g ? g.low : 0), 0),
  }
}

function broughtIn(child: number, before: Need[], { parts, figures }: Whole): BroughtIn[] {
  const written = parts[child]!
  if (!written.lines.length) return []
  const made = before.some(({ part }) => part === child) ? "above" : "below"
  return [{ written, g: figures.parts[child]!.used, all: !written.staysPercent, made }]
}

function linesOf(written: WrittenLine[], figures: LineFigures[]): BillLine[] {
  return written.flatMap((line, at) => (figures[at]!.counted ? [lineOf(line, figures[at]!)] : []))
}

function lineOf(written: WrittenLine, figures: LineFigures): BillLine {
  const { g } = figures
  if (!g) return { written, figures, asks: asksFor(figures) }
  return { written, figures, g, held: heldBack(written, figures) }
}

function asksFor({ quantity, problem }: LineFigures): string {
  if (quantity.kind === "asks") return quantity.question
  if (quantity.kind === "blank") return "The formula gives no amount of it."
  if (quantity.kind === "percent") return "It is a share of the flour, whose mass the formula does not give."
  return problem ?? "How much of it is not known."
}
