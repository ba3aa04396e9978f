import type { Range, Share } from "../amounts.ts"
import { showRange, showShare } from "../units.ts"
import type { Figures, LineFigures } from "./formula.ts"
import type { Question } from "./questions.ts"

type Printed = { at: [part: number, line: number]; printed: Range<Share>; g: Range; told: Told[] }
/** What its grams are of one of the two flours that a percentage may be of. */
type Told = { of: string; share: Range<Share>; flour: Range; fits: boolean }

/**
 * Percentages printed beside grams that they do not fit. Their author may have meant all flour or the flour that is fresh
 * in the part: the one that more of them fit is taken, and where both do, either. Asks with the grams that would fit.
 */
export function askAboutPrinted(
  figures: Pick<Figures, "flour" | "parts">,
  nameOf: (at: Printed["at"]) => string,
  mass: (g: Range) => string,
): Question[] {
  const all = figures.parts.flatMap(({ lines, freshFlour }, part) =>
    lines.flatMap((line, index) => printedOf(line, [part, index], figures.flour, freshFlour)),
  )
  const fitting = ([0, 1] as const).map((base) => all.filter(({ told }) => told[base]!.fits).length) as [number, number]
  const bases = fitting[0] === fitting[1] ? [0, 1] : [fitting[0] > fitting[1] ? 0 : 1]
  return all
    .filter(({ told }) => !bases.some((base) => told[base]!.fits))
    .map((line) => ({
      about: nameOf(line.at),
      words: wordsFor(line, line.told[bases.at(-1)!]!, mass),
      part: line.at[0],
      line: line.at[1],
    }))
}

function printedOf(line: LineFigures, at: Printed["at"], all?: Range, fresh?: Range): Printed[] {
  const { quantity, counted, g, share, shareOfPart } = line
  if (!counted || quantity.kind !== "mass" || !quantity.printed || !g) return []
  if (!all || !fresh || !share || !shareOfPart) return []
  const { printed } = quantity
  const told = [
    { of: "all flour", share, flour: all },
    { of: "the flour that is fresh in its part", share: shareOfPart, flour: fresh },
  ]
  return [{ at, printed, g, told: told.map((one) => ({ ...one, fits: fits(printed, one, g) })) }]
}

function wordsFor({ printed, g }: Printed, { of, share, flour }: Told, mass: (g: Range) => string) {
  const would = { low: printed.low * flour.low, high: printed.high * flour.high }
  return `${percents(printed)} is printed beside it, but ${mass(g)} are ${percents(share)} of ${of}, ${mass(flour)}. ${percents(printed)} would be ${mass(would)}: which one holds?`
}

const percents = (range: Range<Share>) => showRange(range, showShare)

/** Within what rounding the percentage to its last digit, and the grams to theirs, can have done. */
function fits(printed: Range<Share>, { share, flour }: Omit<Told, "fits">, g: Range) {
  const slack = lastDigit(printed.low * 100) / 200 + lastDigit(g.low) / 2 / flour.low + 1e-9
  return printed.low - slack <= share.high && printed.high + slack >= share.low
}

/** 0.1 for 15.9, 1 for 110. */
function lastDigit(value: number) {
  const [, decimals = ""] = String(Number(value.toPrecision(12))).split(".")
  return 10 ** -decimals.length
}
