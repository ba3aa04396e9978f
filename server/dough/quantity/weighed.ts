import Fraction from "fraction.js"
import type { Ingredient } from "../ingredients/ingredient.ts"
import { showMass, showRange } from "../units.ts"
import type { Measures } from "./reading.ts"
import type { Span } from "./tokens.ts"

/**
 * For whom and of what an amount is read. `text` is the tidied line that every span points into, `words` are those of the
 * thing's names, and `counted` is the unit a bare number of it counts in, if it is something one counts.
 */
export type Kitchen = {
  text: string
  ingredient?: Ingredient
  name: string
  measures: Measures
  words: string[]
  counted?: string
}

/** Another wording: what to put in place of some stretches of the line. */
export type Draft = { label: string; edits: (Span & { text: string })[] }

/** An exact amount, and how it was told: by weight, or by something that had to be weighed. */
export type Weighed = {
  is: "mass" | "percent"
  low: Fraction
  high: Fraction
  by: "metric" | "weight" | "volume" | "other"
  said: string[]
  drafts: Draft[]
  about?: true
  openEnded?: true
  /** A percentage that was printed beside it. */
  printed?: { low: Fraction; high: Fraction }
}
/** A question, with the wordings that would answer it. */
export type Asked = { is: "asks"; question: string; drafts: Draft[] }
/** What an amount came to. */
export type Reading = Weighed | Asked

/** A question to the person. */
export const asks = (question: string, drafts: Draft[] = []): Asked => ({ is: "asks", question, drafts })

/** A single amount in grams, or as a share of 1. */
export function weighed(
  value: Fraction,
  { is = "mass", by = "other", said = [], drafts = [], ...rest }: Partial<Weighed> = {},
): Weighed {
  return { is, low: value, high: value, by, said, drafts, ...rest }
}

/** Two amounts as one: what is said of either is said of both. */
export function combined(one: Weighed, other: Weighed, ends: { low: Fraction; high: Fraction }): Weighed {
  const byWeight = [one.by, other.by].every((by) => by === "metric" || by === "weight")
  const by = one.by === other.by ? one.by : byWeight ? "weight" : "other"
  const said = [...new Set([...one.said, ...other.said])]
  const about = one.about ?? other.about
  return { is: one.is, ...ends, by, said, drafts: together(one.drafts, other.drafts), ...(about && { about }) }
}

/** What to put in place of a stretch. */
export const edit = ({ start, end }: Span, text: string) => ({ start, end, text })

/** The line with the edits made. */
export function rewritten(line: string, { edits }: Draft): string {
  const later = [...edits].sort((a, b) => b.start - a.start)
  return later.reduce((text, { start, end, text: put }) => {
    const gap = /\w$/.test(text.slice(0, start)) && /^\w/.test(put) ? " " : ""
    return text.slice(0, start) + gap + put + text.slice(end)
  }, line)
}

/** Drafts with the same label are one draft: "ounces by weight" goes for both ends of a range. */
export function together(...lists: Draft[][]): Draft[] {
  const byLabel = new Map<string, Draft>()
  for (const { label, edits } of lists.flat()) {
    const before = byLabel.get(label)?.edits ?? []
    const more = edits.filter(
      (one) => !before.some((other) => (one.start < other.end && other.start < one.end) || same(one, other)),
    )
    byLabel.set(label, { label, edits: [...before, ...more] })
  }
  return [...byLabel.values()]
}

const same = (one: Span, other: Span) => one.start === other.start && one.end === other.end

/** The words of a name, in small letters. */
export const wordsIn = (text: string): string[] => text.toLowerCase().match(/[\p{L}\d]+/gu) ?? []

/** Whether all the words of `text` are in `known`, in the singular or plural. */
export const areIn = (text: string, known: string[]) =>
  wordsIn(text).every((word) => known.some((one) => one === word || `${one}s` === word || one === `${word}s`))

/** Whether two amounts differ by no more than that share of the larger. */
export const alike = (one: Fraction, other: Fraction, tolerance: number) => {
  const larger = one.compare(other) > 0 ? one : other
  return (
    one
      .sub(other)
      .abs()
      .compare(larger.mul(new Fraction(tolerance))) <= 0
  )
}

/** "57 g", to be read by people. */
export const showG = (low: Fraction, high = low) =>
  showRange({ low: low.valueOf(), high: high.valueOf() }, (g) => showMass(g, "g"))

/** "57.25 g", to be read again. */
export const writeG = (g: Fraction) => `${Number(g.valueOf().toFixed(g.compare(1) < 0 ? 4 : 2))} g`

/** What is being weighed, as a person calls it; "" when nobody said. */
export const thingOf = ({ name, ingredient }: Kitchen) => name.trim() || ingredient?.name || ""
/** " of butter"; "" when nobody said, or when the unit says it already: "one banana". */
export function ofThing(kitchen: Kitchen, unit?: string) {
  const thing = thingOf(kitchen)
  return !thing || (unit && areIn(unit, wordsIn(thing))) ? "" : ` of ${thing}`
}
