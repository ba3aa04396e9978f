import Fraction from "fraction.js"
import type { Ingredient, Portion } from "../ingredients/ingredient.ts"
import { showMass, showRange } from "../units.ts"
import type { Manner } from "./lexicon.ts"
import {
  isMetricVolume,
  type KitchenVolume,
  type MetricVolume,
  millilitresOf,
  otherSystems,
  type System,
  systemWords,
} from "./measures.ts"
import type { Term } from "./term.ts"
import { asks, type Draft, edit, type Kitchen, ofThing, type Reading, showG, weighed } from "./weighed.ts"

/** A term in a unit of volume, weighed by what a cup or spoon of the ingredient weighs. */
export function weighVolume(term: Term, unit: KitchenVolume | MetricVolume, kitchen: Kitchen): Reading {
  const system = term.system ?? kitchen.measures
  const ml = millilitresOf(unit, system)
  if (!ml) return asksWhose(term, unit, system)
  const weight = weightPerMl(unit, term.manner, kitchen)
  const words = unitWords(unit, system, ml)
  if (!weight) return asks(`What does ${words}${ofThing(kitchen)} weigh? Give the amount in grams.`)
  const sample = isMetricVolume(unit) && ml.compare(100) < 0 ? new Fraction(100) : ml
  const taken = `${capital(words)}${ofThing(kitchen)} is taken as ${showG(sample.mul(weight.gPerMl))}`
  const packing = packingOf(term, unit, ml, kitchen)
  return weighed(term.value.mul(ml).mul(weight.gPerMl), {
    by: isMetricVolume(unit) ? "volume" : "other",
    said: [`${taken}${weight.how}: ${weight.source}.`, ...packing.said, ...mannerSaid(term.manner)],
    drafts: [...packing.drafts, ...systemDrafts(term, unit, system)],
    ...(isVague(term.manner) && { about: true }),
  })
}

const capital = (text: string) => text.charAt(0).toUpperCase() + text.slice(1)

/** "1 US cup (237 ml)", "1 ml". */
function unitWords(unit: KitchenVolume | MetricVolume, system: System, ml: Fraction) {
  if (isMetricVolume(unit)) return ml.compare(100) < 0 ? "100 ml" : `1 ${unit}`
  return `1 ${systemWords[system]} ${unit} (${Number(ml.valueOf().toPrecision(3))} ml)`
}

function asksWhose(term: Term, unit: KitchenVolume | MetricVolume, system: System) {
  const whose: Draft[] = (["us", "imperial"] as const).map((other) => inSystem(term, unit, other))
  return asks(`Whose ${unit} is meant? There is no ${systemWords[system]} one.`, whose)
}

const inSystem = (term: Term, unit: string, system: System): Draft => ({
  label: `${systemWords[system]} ${unit}`,
  edits: [edit(term.unitAt, `${systemWords[system]} ${unit}`)],
})

const systemDrafts = (term: Term, unit: KitchenVolume | MetricVolume, system: System): Draft[] =>
  term.system || isMetricVolume(unit) ? [] : otherSystems(unit, system).map((other) => inSystem(term, unit, other))

const isVague = (manner: Manner | undefined) => manner === "scant" || manner === "heaped"
const mannerSaid = (manner: Manner | undefined) =>
  isVague(manner) ? [`How much ${manner} means is not known; it is counted as level.`] : []

type Weight = { gPerMl: Fraction; how: string; source: string }

function weightPerMl(
  unit: KitchenVolume | MetricVolume,
  manner: Manner | undefined,
  kitchen: Kitchen,
): Weight | undefined {
  const { ingredient } = kitchen
  if (!ingredient) return isWater(kitchen.name) ? waterPerMl : undefined
  const portion = portionFor(unit, manner, ingredient)
  if (!portion) return undefined
  const { source, packing } = ingredient
  const isNamed = manner && portion.how && filled(manner)?.test(portion.how)
  if (packing && !isNamed && manner === "loose") return { gPerMl: exact(packing.low), how: " filled loosely", source }
  if (packing && !isNamed && manner === "packed") return { gPerMl: exact(packing.high), how: " packed", source }
  const gPerMl = exact(portion.g).div(millilitresOf(portion.unit, "us")!)
  const from = portion.unit === unit || gPerMl.equals(1) ? "" : `, from ${showG(exact(portion.g))} a US ${portion.unit}`
  return { gPerMl, how: `${from}${portion.how ? ` (${portion.how})` : ""}`, source }
}

// 0.998 to 1.000 g/ml from 4 to 20 °C; a kitchen takes 1.
const waterPerMl: Weight = { gPerMl: new Fraction(1), how: "", source: "water weighs 1 g per ml" }

/** Ice is left out: a cup of it holds more air than anybody could say. */
const isWater = (name: string) =>
  /\bwater\b/i.test(name) && !/\b(ice|rose|blossom|flower|coconut|salt)\b|chestnut/i.test(name)

/** Exact decimals of a figure that was published as such. */
export const exact = (value: number) => new Fraction(value >= 1e-6 && value < 1e20 ? String(value) : value.toFixed(12))

type SpoonPortion = Portion & { unit: "cup" | "tbsp" | "tsp" }
const isSpoon = (portion: Portion): portion is SpoonPortion => ["cup", "tbsp", "tsp"].includes(portion.unit)

/** The portion nearest in size, and filled in the same manner where one is known. Portions are US measures. */
function portionFor(unit: string, manner: Manner | undefined, { portions }: Ingredient): SpoonPortion | undefined {
  const nearest =
    unit === "tsp"
      ? ["tsp", "tbsp", "cup"]
      : unit === "tbsp" || unit === "dsp"
        ? ["tbsp", "tsp", "cup"]
        : ["cup", "tbsp", "tsp"]
  for (const name of nearest) {
    const ofUnit = portions.filter(isSpoon).filter((portion) => portion.unit === name)
    const found = ofUnit.find(({ how }) => filled(manner)?.test(how ?? "")) ?? ofUnit[0]
    if (found) return found
  }
}

const filled = (manner: Manner | undefined) =>
  manner === "packed" ? /(^|[^n])packed/ : manner === "loose" ? /\b(sifted|unpacked|not packed)/ : undefined

function packingOf(
  term: Term,
  unit: string,
  ml: Fraction,
  { ingredient }: Kitchen,
): { said: string[]; drafts: Draft[] } {
  const packing = ingredient?.packing
  if (!packing || isMetricVolume(unit) || term.manner === "loose" || term.manner === "packed")
    return { said: [], drafts: [] }
  const ends = showRange({ low: packing.low * ml.valueOf(), high: packing.high * ml.valueOf() }, (g) =>
    showMass(g, "g"),
  )
  const { end } = term.unitAt
  const filledAs = (words: string): Draft => ({ label: words, edits: [edit({ start: end, end }, ` ${words}`)] })
  return {
    said: [`Loosely filled or packed, it weighs ${ends}; weigh it where you can.`],
    drafts: [filledAs("loosely packed"), filledAs("packed")],
  }
}

/** A pinch between finger and thumb as a sixteenth of a teaspoon: common practice, no published source. */
export function weighPinch(term: Term, kitchen: Kitchen): Reading {
  const teaspoon = weighVolume({ ...term, value: term.value.div(16), manner: undefined }, "tsp", kitchen)
  if (teaspoon.is === "asks") return asks(`A pinch${ofThing(kitchen)} has no known weight. Give the amount in grams.`)
  return {
    ...teaspoon,
    about: true,
    said: ["A pinch is taken as 1/16 tsp (common practice).", ...teaspoon.said],
    drafts: [],
  }
}
