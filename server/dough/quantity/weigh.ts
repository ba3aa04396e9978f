import type Fraction from "fraction.js"
import { shellShare } from "./eggs.ts"
import { gramsOf, isMetricVolume, type MassUnit } from "./measures.ts"
import { doubtAbout, type NumberDoubt, type NumberUse } from "./numbers.ts"
import { inUnit, weighPieces } from "./pieces.ts"
import { type Figure, familyOf, type Term } from "./term.ts"
import { weighPinch, weighVolume } from "./volumes.ts"
import {
  type Asked,
  asks,
  combined,
  type Draft,
  edit,
  type Kitchen,
  ofThing,
  type Reading,
  showG,
  thingOf,
  weighed,
} from "./weighed.ts"

/** "1 lb 4 oz" or a single term, in grams or as a share of the flour. */
export function weighFigure({ terms }: Figure, kitchen: Kitchen): Reading {
  const stray = terms.findIndex(({ unit, each }) => !unit && !each)
  if (stray >= 0 && terms.length > 1) return asksForUnit(terms, stray)
  return addUp(terms.map((term) => weighTerm(term, kitchen, terms.length > 1)))
}

/** The sum of what was read; the first question, if there is one. */
export function addUp(readings: Reading[]): Reading {
  return readings.reduce((sum, one) => {
    if (sum.is === "asks" || one.is === "asks") return sum.is === "asks" ? sum : one
    if (sum.is !== one.is) return asks("A percentage and a mass cannot be added up. Give one of them.")
    return combined(sum, one, { low: sum.low.add(one.low), high: sum.high.add(one.high) })
  })
}

/** "1 lb 4", "2 50 g". */
function asksForUnit(terms: Term[], stray: number): Reading {
  const [term, before, after] = [terms[stray]!, terms[stray - 1], terms[stray + 1]]
  const family = familyOf(before?.unit)
  const smaller = family?.slice(0, family.indexOf(before?.unit?.name ?? "")).at(-1)
  const drafts: Draft[] = [
    ...(smaller ? [{ label: smaller, edits: [edit(term.unitAt, ` ${smaller}`)] }] : []),
    ...(after?.unit ? [{ label: "so many times", edits: [edit(term.unitAt, " x")] }] : []),
  ]
  return asks("Give one amount with its unit, such as 500 g or 1 lb 4 oz.", drafts)
}

function weighTerm(term: Term, kitchen: Kitchen, isCompound: boolean): Reading {
  const question = questionOf(term, kitchen)
  if (question) return question
  const reading = term.each ? weighEach(term, term.each, kitchen) : byUnit(term, kitchen, isCompound)
  if (reading.is === "asks") return reading
  const dash = dashOf(term, kitchen)
  const said = [...(term.said ? [term.said] : []), ...dash.said, ...reading.said]
  return { ...reading, said, drafts: [...dash.drafts, ...reading.drafts] }
}

/** What is doubtful about the number itself. */
function questionOf(term: Term, kitchen: Kitchen): Asked | undefined {
  const typed = written(term, kitchen)
  if (isCelsius(term, kitchen)) return asks(`Is ${typed} C that many cups, or a temperature?`, [inUnit(term, "cups")])
  const isPacks = term.packed && typed.includes(" ")
  const doubt = isPacks
    ? packDoubt(typed, term.value)
    : term.written !== undefined && doubtAbout(term.written, useOf(term, kitchen))
  if (!doubt) return undefined
  const drafts = doubt.readings.map(({ label, text }) => ({ label, edits: [edit(term.numberAt, text)] }))
  return asks(doubt.question, drafts)
}

// So many cups are over 2 kg of flour, but a usual temperature. Our own limit.
const mostCups = 14

/** "25 C": not many cups, and no sign of degrees. */
function isCelsius({ unit, unitAt, value }: Term, { text }: Kitchen) {
  const isLetter = unit?.name === "cup" && /^c\.?$/i.test(text.slice(unitAt.start, unitAt.end))
  return isLetter && value.compare(mostCups) > 0
}

/** "2 250 g packages", "1 1/2 oz packet": two numbers or one? */
function packDoubt(typed: string, value: Fraction): NumberDoubt {
  const several = typed.replace(" ", " x ")
  return {
    question: `Is “${typed}” one number, or so many packs?`,
    readings: [
      { text: several, label: several },
      { text: String(value.valueOf()), label: value.toFraction(true) },
    ],
  }
}

function useOf({ unit, each }: Term, kitchen: Kitchen): NumberUse {
  if (each || unit?.of === "pieces" || unit?.of === "pinch") return "kitchen"
  if (!unit) return kitchen.counted ? "kitchen" : "small"
  if (unit.of === "volume" && !isMetricVolume(unit.name)) return "kitchen"
  return ["g", "mg", "ml"].includes(unit.name) ? "small" : "other"
}

/** "1-1/2 tsp" is how many print 1 1/2; it could also be a range that begins with the larger end. */
function dashOf({ dashed, value, numberAt }: Term, { text }: Kitchen): { said: string[]; drafts: Draft[] } {
  if (!dashed) return { said: [], drafts: [] }
  const whole = value.floor()
  const range = `${value.sub(whole).toFraction()} to ${whole.toFraction()}`
  const typed = text.slice(numberAt.start, numberAt.end).replaceAll("- ", "-").replaceAll(" -", "-")
  const said = `“${typed}” is read as ${value.toFraction(true)}.`
  return { said: [said], drafts: [{ label: range, edits: [edit(numberAt, range)] }] }
}

function weighEach({ value }: Term, each: Figure, kitchen: Kitchen): Reading {
  const one = weighFigure(each, kitchen)
  if (one.is === "asks") return one
  if (one.is === "percent") return asks("A percentage cannot be counted in pieces. Give the amount in grams.")
  return { ...one, low: one.low.mul(value), high: one.high.mul(value) }
}

function byUnit(term: Term, kitchen: Kitchen, isCompound: boolean): Reading {
  const { unit, value } = term
  if (!unit) return weighBare(term, kitchen)
  switch (unit.of) {
    case "mass":
      return weighMass(term, unit.name, kitchen, isCompound)
    case "volume":
      if (term.by === "weight") return asks(`A ${unit.name} is no weight. Give the amount in grams.`)
      return weighVolume(term, unit.name, kitchen)
    case "pinch":
      return weighPinch(term, kitchen)
    case "pieces":
      return weighPieces(term, unit.name, kitchen)
    case "percent":
      return weighed(value.div(100), { is: "percent" })
  }
}

/** A bare number is grams, because bakers weigh in grams; a few of what is counted are pieces. */
function weighBare(term: Term, kitchen: Kitchen): Reading {
  const { counted } = kitchen
  const { value, unitAt } = term
  const asPieces: Draft = { label: `${counted}s`, edits: [edit(unitAt, ` ${counted}s`)] }
  const asGrams: Draft = { label: "grams", edits: [edit(unitAt, " g")] }
  if (counted && (term.isDozens || value.compare(mostCounted) <= 0)) {
    const pieces = weighPieces({ ...term, unit: { of: "pieces", name: counted } }, counted, kitchen)
    return pieces.is === "asks" || term.needsUnit || term.size || term.isDozens
      ? pieces
      : { ...pieces, drafts: [...pieces.drafts, asGrams] }
  }
  if (counted && value.compare(leastGrams) < 0)
    return asks(`Is that ${value.toFraction(true)} ${counted}s, or grams?`, [asPieces, asGrams])
  if (term.size)
    return asks(`What does one ${term.size} ${thingOf(kitchen) || "piece"} weigh? Give the amount in grams.`)
  if (!term.needsUnit) return weighed(value, { by: "metric" })
  const units = ["cup", "tbsp", "tsp", "lb", "oz"]
  const drafts = units.map((unit) => ({ label: unit, edits: [edit(unitAt, ` ${unit}`)] }))
  return asks(`${written(term, kitchen)} of what? Add a unit, such as g, oz, cup or %.`, drafts)
}

/** A bare number up to a dozen is a count, of what is counted; from 40 on it is a mass. Our own limits. */
export const mostCounted = 12
const leastGrams = 40

const written = ({ numberAt }: Term, { text }: Kitchen) => text.slice(numberAt.start, numberAt.end)

function weighMass(term: Term, unit: MassUnit, kitchen: Kitchen, isCompound: boolean): Reading {
  const g = term.value.mul(gramsOf[unit])
  if (unit === "oz" && term.by === "volume") return weighVolume(term, "fl oz", kitchen)
  if (unit === "oz" && term.by !== "weight" && !isCompound && pours(kitchen)) return asksWhichOunce(term, kitchen)
  if (term.shell?.kind === "in") return withoutShell(term, g, kitchen)
  return weighed(g, { by: unit === "oz" || unit === "lb" ? "weight" : "metric" })
}

const asksWhichOunce = (term: Term, kitchen: Kitchen): Reading =>
  asks(`Are these ounces${ofThing(kitchen)} a weight, or fluid ounces?`, [
    { label: "ounces by weight", edits: [edit(term.unitAt, "oz by weight")] },
    { label: "fluid ounces", edits: [edit(term.unitAt, "fl oz")] },
  ])

const liquids =
  /\b(water|milk|buttermilk|cream|drink|oil|juice|beer|ale|stout|cider|wine|coffee|tea|stock|whey|syrup|honey|molasses|treacle)\b/i
const dryOnes = /powder|\bdr(ied|y)\b|\bcream cheese\b|\bice\b/i

/** Whether it is as likely to be measured in a jug as on a scale. */
function pours(kitchen: Kitchen) {
  const { ingredient, name } = kitchen
  const words = `${name} ${ingredient?.name ?? ""}`
  if (dryOnes.test(words)) return false
  if (!ingredient) return liquids.test(thingOf(kitchen))
  if (["fat", "sugar"].includes(ingredient.role)) return liquids.test(words)
  // "oat milk" is known with oats and "coconut cream" with coconut; "milk chocolate" is no milk
  return ingredient.role === "liquid" || (ingredient.role === "inclusion" && liquids.test(lastWordOf(thingOf(kitchen))))
}

const lastWordOf = (thing: string) => /\p{L}+$/u.exec(thing.split(/[,(]/)[0]!.trim())?.[0] ?? ""

function withoutShell({ shell }: Term, g: Fraction, kitchen: Kitchen): Reading {
  if (kitchen.counted !== "egg") return asks("What does it weigh without its shell? Give that in grams.")
  const edible = g.sub(g.mul(shellShare))
  const said = [`Of ${showG(g)} of egg in the shell, 12 % is shell (USDA SR28): ${showG(edible)} is left.`]
  const drafts = [{ label: "weighed without shell", edits: [edit(shell!.at, "")] }]
  return weighed(edible, { by: "metric", said, drafts })
}
