import type { Range } from "../amounts.ts"
import type { CountsAs } from "../ingredients/counts-as.ts"
import { showMass, showRange, showShare } from "../units.ts"
import type { Pieces, ReadLine, WrittenFormula } from "./formula.ts"
import { nameOf, type Place } from "./parts.ts"
import type { Totals } from "./totals.ts"

type Worked = {
  formula: WrittenFormula
  places: Place[]
  lines: ReadLine[]
  pieces: Pieces
  corners: Totals[]
  dough?: Range
  setAside: number
}

// A formula's dough and its pieces may differ by rounding. Our own limit, no published source.
const piecesTolerance = 0.01

/** What could not be worked out and why, in plain sentences. */
export function explain(worked: Worked): string[] {
  const said = [...aboutParts(worked), ...aboutLines(worked), ...aboutFlour(worked), ...aboutPieces(worked)]
  if (worked.setAside)
    said.push(`There are very many ranges; for the last ${worked.setAside} of them the totals use the middle.`)
  return said
}

function aboutParts({ formula: { parts }, places }: Worked) {
  const broken = places.flatMap(({ problem }) => (problem ? [problem] : []))
  const finals = parts.filter(({ goesInto }) => goesInto === "")
  if (!parts.length) broken.push("There are no parts yet.")
  else if (!finals.length) broken.push("No part is the final dough: at least one must go into nothing else.")
  else if (finals.length > 1)
    broken.push(`${finals.map(nameOf).join(" and ")} go into nothing else; the totals are of all of them together.`)
  if (places.some(({ reach }) => reach === undefined))
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
    .filter(({ quantity }) => quantity.kind === "unread" || quantity.kind === "blank")
    .map(({ name, countsAs }) => `${name || "A line"} has no amount that can be read, so there is ${lost[countsAs]}.`)
}

function aboutFlour({ lines, corners, pieces }: Worked) {
  const bases = corners.map(({ basis }) => basis)
  const from = (kind: Totals["basis"]["from"]) => bases.some((basis) => basis.from === kind)
  const said: string[] = []
  if (!lines.some(({ countsAs }) => countsAs === "flour" || countsAs === "starter"))
    said.push("There is no flour yet, so there are no percentages.")
  if (from("mass") && bases.some(({ overfull }) => overfull))
    said.push("The flours given in percent leave nothing for the flour given by mass.")
  if (from("percent")) {
    const tooHeavy = bases.some(({ overfull }) => overfull)
    if (tooHeavy) said.push("The lines given by mass weigh more than all the pieces, so there are no other masses.")
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

function aboutPieces({ pieces: { count, eachG, problem }, dough, corners }: Worked) {
  if (problem) return [problem]
  const scaled = corners.some(({ basis }) => basis.from === "dough")
  if (!count || !eachG || !dough || scaled) return []
  const real = { low: dough.low / count, high: dough.high / count }
  const apart = real.low > eachG.high * (1 + piecesTolerance) || real.high < eachG.low * (1 - piecesTolerance)
  const show = (range: Range) => showRange(range, (g) => showMass(g, "g"))
  return apart ? [`The dough gives ${count} pieces of ${show(real)}, not of ${show(eachG)} as written.`] : []
}
