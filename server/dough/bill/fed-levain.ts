import type { Ratio } from "../fermentation/sourdough-rise.ts"
import type { Figures, LineFigures } from "../formula/formula.ts"
import { inGrams, written } from "../formula/weighed-out.ts"
import type { WrittenFormula } from "../formula/written.ts"

/**
 * The formula with its levain fed in another ratio, as much of it made as before: ripe starter, flour and water in those
 * parts, what flours and other things it has in their own proportion. undefined where no part is such a levain, or one of
 * its amounts is a range or not known. Never throws.
 */
export function fedOtherwise<Formula extends WrittenFormula>(
  formula: Formula,
  figures: Figures,
  fed: Ratio,
): Formula | undefined {
  const { parts } = formula
  const at = parts.findIndex((part, index) => part.goesInto && isLevain(figures.parts[index]!.lines))
  if (at < 0) return undefined
  const lines = figures.parts[at]!.lines
  const masses = lines.map(massOf)
  if (masses.some((g) => g === undefined)) return undefined
  const sum = (of: (line: LineFigures) => boolean) =>
    lines.reduce((all, line, index) => all + (of(line) ? masses[index]! : 0), 0)
  const present = { starter: sum(is("starter")), flour: sum(is("flour")), water: sum(is("water")) }
  const other = (sum(() => true) - present.starter - present.flour - present.water) / present.flour
  const one = sum(() => true) / (fed.starter + fed.flour * (1 + other) + fed.water)
  const times = ({ countsAs }: LineFigures) =>
    countsAs === "starter" || countsAs === "water" || countsAs === "flour"
      ? (one * fed[countsAs]) / present[countsAs]
      : (one * fed.flour) / present.flour
  // percentages of the flour must not move when the levain's share of it does
  const weighed = inGrams(formula, figures).formula
  const changed = weighed.parts[at]!.lines.map((line, index) => {
    const g = masses[index]! * times(lines[index]!)
    return lines[index]!.counted && g > 0 ? { ...line, readAs: written({ unit: "g", low: g, high: g }) } : line
  })
  return { ...formula, ...weighed, parts: weighed.parts.with(at, { ...weighed.parts[at]!, lines: changed }) }
}

const is =
  (what: LineFigures["countsAs"]) =>
  ({ countsAs }: LineFigures) =>
    countsAs === what

/** Starter, flour and water, all of them known. */
const isLevain = (lines: LineFigures[]) =>
  (["starter", "flour", "water"] as const).every((what) =>
    lines.some((line) => line.counted && line.countsAs === what && (line.g?.high ?? 0) > 0),
  )

/** A line that counts for nothing weighs nothing. */
function massOf({ counted, g }: LineFigures): number | undefined {
  if (!counted) return 0
  return g && g.low === g.high ? g.low : undefined
}
