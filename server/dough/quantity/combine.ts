import type Fraction from "fraction.js"
import type { Pair, Part, Stretch, Sum, Total } from "./grammar.ts"
import type { Term } from "./term.ts"
import type { Span } from "./tokens.ts"
import { addUp, weighFigure } from "./weigh.ts"
import {
  type Asked,
  alike,
  asks,
  combined,
  type Draft,
  edit,
  type Kitchen,
  type Reading,
  showG,
  together,
  type Weighed,
  writeG,
} from "./weighed.ts"

/** Usually a single amount; "1 cup (120 g) plus 2 tbsp (15 g)" adds two up. */
export function weighTotal({ pairs, start, end }: Total, kitchen: Kitchen): Reading {
  const total = addUp(pairs.map(({ sign, pair }) => signed(sign, weighPair(pair, kitchen))))
  if (pairs.length === 1 || total.is === "asks") return total
  if (total.low.compare(0) < 0) return asks(tooLittle)
  const [first] = pairs
  const firstOnly = { label: "the first only", edits: [edit({ start, end }, shown(first!.pair, kitchen))] }
  return {
    ...total,
    said: [...total.said, countedAsOne(shown({ start, end }, kitchen))],
    drafts: [...total.drafts, firstOnly],
  }
}

const tooLittle = "More is taken away than there is. Check the amount."
const countedAsOne = (text: string) => `“${text}” is counted as one amount.`

/** One amount, told once or in several ways: weight before volume before count, metric before other units. */
function weighPair(pair: Pair, kitchen: Kitchen): Reading {
  const told = pair.sums.map((sum) => ({
    sum,
    reading: weighSum(sum, kitchen, pair.sums.length === 1),
    text: shown(sum, kitchen),
  }))
  const each = told.find(({ sum }) => sum.each)
  if (each) return asks(`How many of “${each.text}” are there?`, [{ ...insteadOf(pair, each.text), label: "in all" }])
  const masses = told.filter(({ reading }) => reading.is === "mass")
  const by = (how: Weighed["by"]) => masses.find(({ reading }) => reading.is === "mass" && reading.by === how)
  const readable = told.find(({ reading }) => reading.is !== "asks")
  const main = by("metric") ?? by("weight") ?? by("volume") ?? by("other") ?? readable ?? told[0]!
  let reading = main.reading
  for (const other of told.filter((one) => one !== main)) {
    if (reading.is !== "asks") reading = beside(reading, main.text, other, pair)
  }
  return reading
}

type Told = { sum: Sum; reading: Reading; text: string }

// Beyond these two ways of telling one amount are likelier two amounts. Our own limits, no published source: a cup of
// flour holds a fifth more or less, so a volume is left far more room than a second weight.
const weightsApart = 0.1
const volumesApart = 0.5

function beside(main: Weighed, text: string, other: Told, pair: Pair): Reading {
  const { reading } = other
  // "12/10/2024": a number that says nothing is no second way to tell an amount
  if (reading.is === "asks" && loneTerm(other.sum)?.unit === undefined) return reading
  // "1 can (12 oz)": what is printed on it is worth a question
  if (reading.is === "asks" && reading.drafts.length && main.by === "other") return reading
  if (reading.is === "percent" && main.is === "mass")
    return { ...main, printed: { low: reading.low, high: reading.high } }
  const bothWeighed = reading.is !== "asks" && isByWeight(reading) && isByWeight(main)
  const apart = reading.is !== "asks" && !agree(main, reading, bothWeighed ? weightsApart : volumesApart)
  const choices = [insteadOf(pair, text), insteadOf(pair, other.text)]
  if (apart) return asks(`“${text}” and “${other.text}” do not agree. Which is it?`, choices)
  if (reading.is === main.is && showG(reading.low, reading.high) === showG(main.low, main.high)) return main
  const said = bothWeighed ? otherWeight(main, text, reading, other.text) : perUnit(main, text, other)
  const drafts = reading.is === "asks" || !said ? [] : [insteadOf(pair, other.text)]
  return { ...main, said: [...main.said, ...(said ? [said] : [])], drafts: [...main.drafts, ...drafts] }
}

const isByWeight = ({ by }: Weighed) => by === "metric" || by === "weight"

const agree = (one: Weighed, other: Weighed, tolerance: number) =>
  alike(one.low, other.low, tolerance) && alike(one.high, other.high, tolerance)

function otherWeight(main: Weighed, text: string, other: Weighed, otherText: string) {
  const [mainG, otherG] = [showG(main.low, main.high), showG(other.low, other.high)]
  return main.is === "mass" && mainG !== otherG ? `“${text}” counts; “${otherText}” would be ${otherG}.` : undefined
}

/** "460 g counts, which is 131 g a cup." */
function perUnit(main: Weighed, text: string, { sum, reading, text: otherText }: Told) {
  const term = loneTerm(sum)
  const isDoubtful = reading.is === "asks" && reading.drafts.length > 0
  const counted = main.is === "mass" && !isDoubtful && term?.unit && term.unit.of !== "mass" && term.value.n > 0n
  const each = counted ? `, which is ${showG(main.low.div(term.value))} a ${term.unit?.name}` : ""
  return each ? `“${text}” counts${each}.` : `“${text}” counts, and not “${otherText}” beside it.`
}

/** The term of a sum that is just one. */
function loneTerm({ parts: [only, ...others] }: Sum): Term | undefined {
  return others.length || only?.stretch.high || only?.stretch.low.terms.length !== 1
    ? undefined
    : only.stretch.low.terms[0]
}

function weighSum(sum: Sum, kitchen: Kitchen, isAlone: boolean): Reading {
  const readings = sum.parts.map(({ sign, stretch }) => signed(sign, weighStretch(stretch, kitchen)))
  const total = addUp(readings)
  if (sum.parts.length === 1 || total.is === "asks" || isMixed(sum)) return total
  if (total.low.compare(0) < 0) return asks(tooLittle)
  const firstOnly = { label: "the first only", edits: [edit(sum, firstOf(sum, kitchen))] }
  const text = shown(sum, kitchen)
  if (isAlone && isSecondHelping(sum)) {
    const all = { label: "all of it", edits: [edit(sum, writeAmount(total))] }
    return asks(`Does all of “${text}” belong to the formula, or was some added later?`, [all, firstOnly])
  }
  return {
    ...total,
    said: [...total.said, countedAsOne(text)],
    drafts: [...total.drafts, firstOnly],
  }
}

/** The first part, with its unit where that stood with the next: "1" of "1 + 2 tbsp". */
function firstOf({ parts: [first] }: Sum, kitchen: Kitchen) {
  const { stretch } = first!
  const unitAt = (stretch.high ?? stretch.low).terms.at(-1)!.unitAt
  const text = shown(stretch, kitchen)
  return unitAt.start >= stretch.end ? `${text} ${shown(unitAt, kitchen)}` : text
}

const signed = (sign: Part["sign"], reading: Reading): Reading =>
  sign !== "minus" || reading.is === "asks" ? reading : { ...reading, low: reading.high.neg(), high: reading.low.neg() }

/** "a cup and a half". */
const isMixed = ({ parts }: Sum) =>
  parts.length === 2 &&
  parts[1]!.sign === "and" &&
  parts[1]!.stretch.low.terms[0]!.value.compare(1) < 0 &&
  parts[1]!.stretch.low.terms[0]!.unitAt.end <= parts[1]!.stretch.start

/** "804 g + 100 g": nobody splits one weight in two but to tell what was added afterwards. */
function isSecondHelping({ parts }: Sum) {
  const units = parts.map(({ stretch }) => stretch.low.terms.map(({ unit }) => unit?.name ?? "").join())
  return parts.every(({ sign }) => sign !== "minus") && new Set(units).size === 1
}

const writeAmount = ({ is, low, high }: Weighed) => {
  const write = (value: Fraction) =>
    is === "percent" ? `${Number((value.valueOf() * 100).toFixed(4))} %` : writeG(value)
  return low.equals(high) ? write(low) : `${write(low)} to ${write(high)}`
}

const shown = ({ start, end }: Span, { text }: Kitchen) => text.slice(start, end)
const insteadOf = (whole: Span, put: string): Draft => ({ label: put, edits: [edit(whole, put)] })

function weighStretch({ low, high, start, end }: Stretch, kitchen: Kitchen): Reading {
  const from = weighFigure(low, kitchen)
  if (!high) return from
  const to = weighFigure(high, kitchen)
  if (from.is === "asks" || to.is === "asks") return bothAsk(from, to)
  if (from.is !== to.is) return asks("Give both ends of the range in the same kind of unit.")
  if (from.low.compare(to.high) <= 0) return combined(from, to, { low: from.low, high: to.high })
  const turned = insteadOf({ start, end }, `${shown(high, kitchen)} to ${shown(low, kitchen)}`)
  return asks("The range runs backwards; write the smaller amount first.", [turned])
}

/** The same question at both ends is one question. */
function bothAsk(from: Reading, to: Reading): Asked {
  const [first, second] = [from, to].filter((end) => end.is === "asks")
  if (!first) return asks("Give one amount.")
  const drafts = second?.question === first.question ? together(first.drafts, second.drafts) : first.drafts
  return asks(first.question, drafts)
}
