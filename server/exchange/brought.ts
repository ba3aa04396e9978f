import type { WrittenLine } from "../dough/formula/written.ts"
import type { Measures } from "../dough/quantity/reading.ts"
import type { Makes } from "../dough/text/facts.ts"
import type { TextLine } from "../dough/text/ingredient-lines.ts"
import type { PlacedPart } from "../dough/text/parts.ts"
import type { ReadStep } from "../dough/text/said.ts"
import type { FormulaContent } from "../formulas/content.ts"
import { newKey } from "../formulas/typed.ts"
import { lineWords } from "./words.ts"

/** A stage as it came: the words it was in, what its kind rests on, what was assumed and what is asked. */
export type StageCame = { text: string; because: string; assumes: string[]; asks: string[] }

/**
 * What was brought in, as a formula, beside every piece of it as it came: `came` has the words of each line and stage in
 * the order of `content`, `places` why each part goes where it goes. `left` is what was not understood, word for word,
 * `remarks` are sentences about the whole. `source` can be read again and gives the same; `others` are further recipes.
 */
export type Brought = {
  kind: "text" | "table" | "recipe" | "formula"
  source: string
  title: string
  content: FormulaContent
  came: { parts: string[][]; finishing: string[]; stages: StageCame[]; places: string[] }
  left: string[]
  remarks: string[]
  recipes: string[]
  which: number
}

type Read = {
  title: string
  about: string[]
  credits: string[]
  makes: Makes
  parts: PlacedPart[]
  finishing: TextLine[]
  steps: ReadStep[]
}

/** What was read from words, as a formula with new keys. Where it comes from stays in what is said of it. */
export function broughtFrom(read: Read, measures: Measures): Pick<Brought, "title" | "content" | "came"> {
  const keys = read.parts.map(() => newKey())
  const { pieces, pieceMass, pieceTolerance, pan } = read.makes
  const content: FormulaContent = {
    about: [...read.about, ...read.credits.map(credited)].join("\n"),
    measures: read.makes.measures ?? measures,
    ...{ pieces, pieceMass, pieceTolerance, pan },
    parts: read.parts.map(({ name, goesInto, stays, lines }, at) => ({
      key: keys[at]!,
      name,
      goesInto: keys[goesInto] ?? "",
      staysPercent: stays,
      lines: lines.map(lineOf),
    })),
    finishing: read.finishing.map(lineOf),
    variants: [],
    stages: read.steps.map(({ name, kind, lowMin, highMin, handsOnMin, cue, tip, ...step }) => ({
      ...{ key: newKey(), kind, name, lowMin, highMin },
      ...(step.referenceC === undefined ? {} : { referenceC: step.referenceC }),
      drivenByTemperature: step.drivenByTemperature,
      ...{ handsOnMin, cue, tip },
    })),
  }
  const came = {
    parts: read.parts.map(({ lines }) => lines.map(({ text }) => text)),
    finishing: read.finishing.map(({ text }) => text),
    stages: read.steps.map(({ text, because, assumes, asks }) => ({ text, because, assumes, asks })),
    places: read.parts.map(({ because }) => because),
  }
  return { title: read.title, content, came }
}

/** A formula that came whole, in whose words nothing had to be guessed. */
export function cameWhole(content: FormulaContent): Brought["came"] {
  return {
    parts: content.parts.map(({ lines }) => lines.map(lineWords)),
    finishing: content.finishing.map(lineWords),
    stages: content.stages.map(({ name }) => ({ text: name, because: "written beside it", assumes: [], asks: [] })),
    places: content.parts.map(() => "it says so"),
  }
}

const lineOf = ({ quantity, ingredient, note }: TextLine): WrittenLine => ({
  ...{ quantity, ingredient, note },
  readAs: "",
  countsAs: "",
})

/** A bare address or name gets the word that says what it is. */
const credited = (credit: string) => (/^<?(?:https?:\/\/|www\.)/i.test(credit) ? `From ${credit}` : credit)
