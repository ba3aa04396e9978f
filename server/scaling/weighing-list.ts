import type { Range } from "../dough/amounts.ts"
import { type Bill, type BillLine, type BillPart, type BroughtIn, billOf } from "../dough/bill/bill.ts"
import type { Need } from "../dough/bill/order.ts"
import type { Figures, LineFigures } from "../dough/formula/formula.ts"
import type { WrittenFormula, WrittenLine, WrittenPart } from "../dough/formula/written.ts"
import { findIngredient } from "../dough/ingredients/catalogue.ts"
import type { Stage } from "../dough/schedule.ts"
import { adviceFor, type Reader, sameAmount, type Weighing, weighing } from "./weighing.ts"

/**
 * `all` is what is weighed; in a class that is for everybody together, and `one` for each. `held` is water of which the last
 * is kept back; `asks` what would have to be known of a line that cannot be weighed.
 */
export type Row = {
  ingredient: string
  small: string[]
  all: Weighing | null
  one: Weighing | null
  held: { now: Weighing; later: Weighing } | null
  advice: string | null
  asks: string | null
}
export type ListedPart = { name: string; need: Need; about: string[]; rows: Row[] }
export type List = { parts: ListedPart[]; finishing: Row[]; finishingFrom: string | null; unknown: string[] }

/** What is weighed for a formula at a size, part by part: in the order of need with its stages, as written without. */
export function weighingList(formula: WrittenFormula, figures: Figures, reader: Reader, stages?: Stage[]): List {
  const bill = billOf(formula, figures, stages)
  const parts = bill.parts.map((part) => listed(part, formula.parts, reader))
  const finishing = bill.finishing.map((line) => rowOf(line, 0, reader))
  return { parts, finishing, finishingFrom: bill.finishingFrom ?? null, unknown: unknownIn(parts, finishing) }
}

function unknownIn(parts: ListedPart[], finishing: Row[]) {
  const all = [...parts.flatMap(({ rows }) => rows), ...finishing]
  return [...new Set(all.filter(({ all }) => !all).map(({ ingredient }) => ingredient))]
}

function listed(part: Bill["parts"][number], parts: WrittenPart[], reader: Reader): ListedPart {
  return {
    name: nameOf(part.written),
    need: part.need,
    about: aboutPart(part, parts, reader),
    rows: [
      ...part.lines.map((line) => rowOf(line, part.waterG, reader)),
      ...part.brought.map((brought) => wholePart(brought, reader)),
    ],
  }
}

const nameOf = ({ name }: WrittenPart) => name || "A part without a name"

function aboutPart({ written, figures }: BillPart, parts: WrittenPart[], { say, people }: Reader) {
  const { made, used, problem } = figures
  const into = parts.find(({ key }) => key === written.goesInto)
  const each = (g: Range) => (people ? ` (${say.massRange(by(g, 1 / people))} each)` : "")
  return [
    made?.high ? `makes ${say.massRange(made)}${each(made)}` : "",
    into && used && written.staysPercent ? `${say.massRange(used)} of it goes on, the rest stays in its jar` : "",
    problem ?? "",
  ].filter(Boolean)
}

const by = ({ low, high }: Range, factor: number): Range => ({ low: low * factor, high: high * factor })

function rowOf({ written, figures, g, held, asks }: BillLine, waterG: number, reader: Reader): Row {
  const { people = 1 } = reader
  const { all, one } = amounts(g, reader)
  return {
    ingredient: written.ingredient || "–",
    small: [written.note, inFormula(written, all)].filter(Boolean),
    ...{ all, one },
    held: held ? { now: weighing(exactly(held.nowG), reader), later: weighing(exactly(held.laterG), reader) } : null,
    advice: g?.high
      ? adviceFor({ ...smallOf(written, figures, reader), g: middle(g) / people, waterG: waterG / people }, reader)
      : null,
    asks: asks ?? null,
  }
}

const exactly = (g: number): Range => ({ low: g, high: g })

function smallOf({ ingredient: name }: WrittenLine, { countsAs, ingredient }: LineFigures, { own, measures }: Reader) {
  const stirs = stirred.has(countsAs) || (ingredient?.slug ?? "").startsWith("malt")
  return { stirs, ingredient: findIngredient(name, own), measures }
}

function inFormula({ readAs, quantity }: WrittenLine, all: Weighing | null) {
  const typed = readAs || quantity
  if (!typed) return "no amount in the formula"
  return sameAmount(typed, all?.exactly ?? all?.shows ?? "") ? "" : `${typed} in the formula`
}

// What dissolves or can be stirred into water.
const stirred = new Set<LineFigures["countsAs"]>(["leaven", "salt", "starter"])

function wholePart({ written, g, all, made }: BroughtIn, reader: Reader): Row {
  return {
    ingredient: nameOf(written),
    small: [`made ${made}${all ? ", all of it" : ""}`],
    ...amounts(g, reader),
    ...{ held: null, advice: null, asks: null },
  }
}

function amounts(g: Range | undefined, reader: Reader): Pick<Row, "all" | "one"> {
  const { people } = reader
  return { all: g ? weighing(g, reader) : null, one: g && people ? weighing(by(g, 1 / people), reader) : null }
}

const middle = ({ low, high }: Range) => (low + high) / 2
