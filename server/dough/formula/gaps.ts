import type { Range } from "../amounts.ts"
import type { CountsAs } from "../ingredients/counts-as.ts"
import { showRange, showShare } from "../units.ts"
import type { Figures, LeftOutOf } from "./formula.ts"
import type { PlacedLine } from "./lines.ts"
import { nameOf, type Place } from "./parts.ts"
import type { ReadPieces } from "./pieces.ts"
import type { Basis } from "./totals.ts"
import type { WrittenFormula } from "./written.ts"

/** A formula as worked out, with how it came about. */
export type Worked = {
  formula: WrittenFormula
  places: Place[]
  lines: PlacedLine[]
  pieces: ReadPieces
  bases: Basis[]
  figures: Omit<Figures, "questions" | "cannot">
  setAside: number
  /** A mass in words, in the reader's unit. */
  mass: (g: Range) => string
}

// A formula's dough and its pieces may differ by rounding. Our own limit, no published source.
const piecesTolerance = 0.01

/** What could not be worked out and why, in plain sentences. */
export function explain(worked: Worked): string[] {
  const said = [
    ...aboutParts(worked),
    ...aboutLines(worked),
    ...aboutFlour(worked),
    ...aboutPieces(worked),
    ...aboutContents(worked.figures.leftOut),
  ]
  const { setAside } = worked
  if (setAside) said.push(`There are very many ranges; the totals use the middle of the ${setAside} narrowest.`)
  return said
}

function aboutParts({ formula: { parts }, places, figures }: Worked) {
  const broken = places.flatMap(({ problem }) => (problem ? [problem] : []))
  const finals = parts.filter(({ goesInto }) => goesInto === "")
  if (!parts.length) broken.push("There are no parts yet.")
  else if (!finals.length) broken.push("No part is the final dough: at least one must go into nothing else.")
  else if (finals.length > 1)
    broken.push(`${listed(finals.map(nameOf))} go into nothing else; the totals are of all of them together.`)
  const unmeasured = places.map(({ stays }, i) => stays && "g" in stays && !figures.parts[i]!.stays)
  for (const [index, part] of parts.entries())
    if (unmeasured[index])
      broken.push(
        `What stays in the jar of ${nameOf(part)} is a mass, so its lines must all be given by mass and weigh more than that; give a percentage instead.`,
      )
  if (places.some(({ chain, stays }, index) => !chain || !stays || unmeasured[index]))
    broken.push("Until every part can be followed to the final dough, there are no totals.")
  return broken
}

const lost: Record<CountsAs, string> = {
  flour: "no total flour and no percentages",
  starter: "no total flour and no percentages",
  water: "no hydration and no dough mass",
  salt: "no share of salt and no dough mass",
  leaven: "no dough mass",
  other: "no dough mass",
}

function aboutLines({ lines }: Worked) {
  return lines
    .filter(({ counted, quantity: { kind } }) => counted && (kind === "asks" || kind === "blank"))
    .map(({ name, countsAs }) => `${name || "A line"} has no amount that can be read, so there is ${lost[countsAs]}.`)
}

function aboutFlour({ lines, bases, pieces }: Worked) {
  const from = (kind: Basis["from"]) => bases.some((basis) => basis.from === kind)
  const overfull = bases.some((basis) => basis.overfull)
  const said: string[] = []
  if (!lines.some(({ counted, countsAs }) => counted && (countsAs === "flour" || countsAs === "starter")))
    said.push("There is no flour yet, so there are no percentages.")
  if (from("mass") && overfull) said.push("The flours given in percent leave nothing for the flour given by mass.")
  if (from("percent")) {
    if (overfull) said.push("The lines given by mass weigh more than all the pieces, so there are no other masses.")
    else if (!pieces.doughG)
      said.push("All flour is in percent, so there are no masses: give the number of pieces and the mass of one.")
  }
  if (from("percent") || from("dough")) said.push(...aboutHundred(bases.map(({ share }) => share)))
  return said
}

function aboutHundred(shares: number[]) {
  const low = Math.min(...shares)
  const high = Math.max(...shares)
  if (low <= 1 + 1e-9 && high >= 1 - 1e-9) return []
  const sum = showRange({ low, high }, showShare)
  return [
    `The flours, with the half of a starter that is flour, add up to ${sum} instead of 100 %; every percentage was divided by that sum.`,
  ]
}

function aboutPieces({ pieces: { count, eachG, problems }, figures: { dough }, bases, mass }: Worked) {
  if (problems.length || !count || !eachG || !dough || bases.some(({ from }) => from === "dough")) return problems
  const real = { low: dough.low / count, high: dough.high / count }
  const apart = real.low > eachG.high * (1 + piecesTolerance) || real.high < eachG.low * (1 - piecesTolerance)
  return apart ? [`The dough gives ${count} pieces of ${mass(real)}, not of ${mass(eachG)} as written.`] : []
}

const contentWords: Record<LeftOutOf, [figure: string, content: string]> = {
  wholeHydration: ["hydration with all water", "water"],
  wholeSalt: ["all salt", "salt"],
  fat: ["fat", "fat"],
  sugar: ["sugar", "sugar"],
}

/** One sentence for all figures that do without the same ingredients. */
function aboutContents(leftOut: Figures["leftOut"]) {
  const kinds = (Object.keys(contentWords) as LeftOutOf[]).filter((kind) => leftOut[kind].length)
  const named = (kind: LeftOutOf) => listed(leftOut[kind])
  return [...new Set(kinds.map(named))].map((names) => {
    const alike = kinds.filter((kind) => named(kind) === names)
    const figures = listed(alike.map((kind) => contentWords[kind][0]))
    const contents = listed(alike.map((kind) => contentWords[kind][1]))
    const several = alike.length > 1
    return capital(
      `${figures} ${several ? "leave" : "leaves"} out ${names}, whose ${contents} ${several ? "are" : "is"} not known: take what is shown as the least.`,
    )
  })
}

/** "a, b and c" */
const listed = (names: string[]) =>
  names.length > 1 ? `${names.slice(0, -1).join(", ")} and ${names.at(-1)}` : (names[0] ?? "")
/** With a capital letter, to begin a sentence. */
export const capital = (words: string) => words.charAt(0).toUpperCase() + words.slice(1)
