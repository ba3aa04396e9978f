import type { Range } from "../dough/amounts.ts"
import type { LineFigures } from "../dough/formula/formula.ts"
import type { WrittenLine } from "../dough/formula/written.ts"
import { showMass, showRange, showShare, showTemperature } from "../dough/units.ts"

/** A mass in both units, whole and for half a batch. */
export type Amounts = { g: string; oz: string; halfG: string; halfOz: string }

export function amountsOf(range: Range): Amounts {
  const half = { low: range.low / 2, high: range.high / 2 }
  const [g, oz] = (["g", "oz"] as const).map((unit) => (of: Range) => showRange(of, (one) => showMass(one, unit)))
  return { g: g!(range), oz: oz!(range), halfG: g!(half), halfOz: oz!(half) }
}

/** A line of a formula on paper; `typed` where its writer did not write grams, `amounts` where nobody knows them not. */
export type PaperLine = { ingredient: string; note: string; typed: string; percent: string; amounts?: Amounts }

export function lineOf(line: WrittenLine, figures: LineFigures): PaperLine {
  const amounts = figures.g?.high ? amountsOf(figures.g) : undefined
  const written = line.quantity.trim()
  const plain = (text: string) => text.replace(/\s/g, "")
  const said = amounts && (plain(amounts.g) === plain(written) || /%\s*$/.test(written))
  return {
    ...{ ingredient: line.ingredient.trim() || "–", note: line.note.trim(), typed: said ? "" : written },
    percent: figures.share ? showRange(figures.share, showShare) : "",
    ...(amounts ? { amounts } : {}),
  }
}

export const bothTemperatures = (c: number) => `${showTemperature(c, "C")}, ${showTemperature(c, "F")}`
