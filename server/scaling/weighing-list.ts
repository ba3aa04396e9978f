import type { Range } from "../dough/amounts.ts"
import type { Figures, LineFigures, PartFigures } from "../dough/formula/formula.ts"
import type { WrittenLine, WrittenPart } from "../dough/formula/written.ts"
import type { FormulaContent } from "../formulas/content.ts"
import { adviceFor, type Reader, sameAmount, type Weighing, weighing } from "./weighing.ts"

/** `all` is what is weighed; in a class that is for everybody together, and `one` for each. */
export type Row = {
  ingredient: string
  small: string[]
  all: Weighing | null
  one: Weighing | null
  advice: string | null
}
export type List = { parts: { name: string; about: string[]; rows: Row[] }[]; finishing: Row[]; unknown: string[] }

/** What is weighed for a formula at a size, part by part in its own order. */
export function weighingList({ parts, finishing }: FormulaContent, figures: Figures, reader: Reader): List {
  const listed = parts.map((part, index) => {
    const own = figures.parts[index]!
    const water = waterIn(own)
    return {
      name: nameOf(part),
      about: aboutPart(part, own, parts, reader),
      rows: [
        ...rowsOf(part.lines, own.lines, water, reader),
        ...parts.flatMap((child, at) =>
          child.goesInto === part.key && child.lines.length
            ? [wholePart(child, figures.parts[at]!, at < index, reader)]
            : [],
        ),
      ],
    }
  })
  const outside = rowsOf(finishing, figures.finishing, 0, reader)
  const all = [...listed.flatMap(({ rows }) => rows), ...outside]
  return {
    parts: listed,
    finishing: outside,
    unknown: [...new Set(all.filter(({ all }) => !all).map(({ ingredient }) => ingredient))],
  }
}

const nameOf = ({ name }: WrittenPart) => name || "A part without a name"

/** The water weighed into a part, g, in which something small can be stirred. */
const waterIn = ({ lines }: PartFigures) =>
  lines.reduce((sum, { countsAs, counted, g }) => sum + (counted && countsAs === "water" && g ? g.low : 0), 0)

function aboutPart(
  part: WrittenPart,
  { made, used, problem }: PartFigures,
  parts: WrittenPart[],
  { say, people }: Reader,
) {
  const into = parts.find(({ key }) => key === part.goesInto)
  const each = (g: Range) => (people ? ` (${say.massRange(by(g, 1 / people))} each)` : "")
  return [
    made?.high ? `makes ${say.massRange(made)}${each(made)}` : "",
    into && used && part.staysPercent ? `${say.massRange(used)} of it goes on, the rest stays in its jar` : "",
    problem ?? "",
  ].filter(Boolean)
}

const by = ({ low, high }: Range, factor: number): Range => ({ low: low * factor, high: high * factor })

function rowsOf(lines: WrittenLine[], figures: LineFigures[], waterG: number, reader: Reader): Row[] {
  return lines.flatMap((line, at) => (figures[at]!.counted ? [rowOf(line, figures[at]!, waterG, reader)] : []))
}

function rowOf(line: WrittenLine, { g, countsAs, ingredient }: LineFigures, waterG: number, reader: Reader): Row {
  const { people = 1 } = reader
  const stirs = stirred.has(countsAs) || (ingredient?.slug ?? "").startsWith("malt")
  const { all, one } = amounts(g, reader)
  return {
    ingredient: line.ingredient || "–",
    small: [line.note, inFormula(line, all)].filter(Boolean),
    ...{ all, one },
    advice: g?.high ? adviceFor(middle(g) / people, stirs, waterG / people, reader) : null,
  }
}

function inFormula({ readAs, quantity }: WrittenLine, all: Weighing | null) {
  const typed = readAs || quantity
  if (!typed) return "no amount in the formula"
  return sameAmount(typed, all?.exactly ?? all?.shows ?? "") ? "" : `${typed} in the formula`
}

// What dissolves or can be stirred into water.
const stirred = new Set<LineFigures["countsAs"]>(["leaven", "salt", "starter"])

function wholePart(part: WrittenPart, { used }: PartFigures, above: boolean, reader: Reader): Row {
  const all = part.staysPercent ? "" : ", all of it"
  return {
    ingredient: nameOf(part),
    small: [`made ${above ? "above" : "below"}${all}`],
    ...amounts(used, reader),
    advice: null,
  }
}

function amounts(g: Range | undefined, reader: Reader): Pick<Row, "all" | "one"> {
  const { people } = reader
  return { all: g ? weighing(g, reader) : null, one: g && people ? weighing(by(g, 1 / people), reader) : null }
}

const middle = ({ low, high }: Range) => (low + high) / 2
