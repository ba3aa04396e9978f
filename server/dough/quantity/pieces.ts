import Fraction from "fraction.js"
import type { Ingredient, Portion } from "../ingredients/ingredient.ts"
import { weighEggs } from "./eggs.ts"
import { gramsOf } from "./measures.ts"
import { isEgg, type Term } from "./term.ts"
import { exact } from "./volumes.ts"
import {
  type Asked,
  asks,
  type Draft,
  edit,
  type Kitchen,
  ofThing,
  type Reading,
  showG,
  thingOf,
  weighed,
} from "./weighed.ts"

/** Things that were counted: eggs, sticks of butter, packets of yeast, or a portion of the ingredient. */
export function weighPieces(term: Term, name: string, kitchen: Kitchen): Reading {
  if (isEgg({ of: "pieces", name })) return weighEggs(term, kitchen)
  const known = portionOf(name, term.size, kitchen) ?? usual(name, kitchen)
  if (!known) return asksWhatItWeighs(term, name, kitchen)
  const said = `One ${name}${ofThing(kitchen, name)} is taken as ${showG(known.g)}: ${known.source}.`
  const others = isYeast(kitchen) && name !== "packet" ? cubeDrafts(term, name, known.g) : []
  return weighed(term.value.mul(known.g), { said: [said], drafts: others })
}

/** The unit in which a bare number of this ingredient counts, if it is something one counts. */
export function countedAs(words: string[], ingredient: Ingredient | undefined): string | undefined {
  const named = (unit: string) => words.includes(unit) || words.includes(`${unit}s`)
  if (ingredient) return ingredient.role === "egg" ? "egg" : ingredient.portions.find(({ unit }) => named(unit))?.unit
  const isOther = words.some((word) => ["wash", "noodles", "powder", "dried"].includes(word))
  return named("egg") && !isOther ? "egg" : undefined
}

type Known = { g: Fraction; source: string }

function portionOf(name: string, size: string | undefined, { ingredient }: Kitchen): Known | undefined {
  const portions = ingredient?.portions.filter(({ unit }) => unit === name) ?? []
  const sized = (portion: Portion) => size !== undefined && portion.how?.split(" ").includes(size)
  const portion = portions.find(sized) ?? portions[0]
  return portion && ingredient && { g: exact(portion.g), source: ingredient.source }
}

/** What a packet is when the ingredient does not say so itself. */
function usual(name: string, kitchen: Kitchen): Known | undefined {
  const thing = thingOf(kitchen)
  // A quarter of a pound is printed on the wrapper: US common practice, no published source.
  if (name === "stick" && /butter|margarine|shortening/i.test(thing))
    return { g: gramsOf.oz.mul(4), source: "4 oz, as sold in the US" }
  // 7 g or 1/4 oz is printed on the packet: common practice, no published source; USDA SR28 has 7.2 g.
  const isDry = isYeast(kitchen) && !isFresh(kitchen)
  if (name === "packet" && isDry) return { g: new Fraction(7), source: "7 g or 1/4 oz, as sold" }
}

const isYeast = (kitchen: Kitchen) => /yeast/i.test(`${thingOf(kitchen)} ${kitchen.ingredient?.slug ?? ""}`)
const isFresh = (kitchen: Kitchen) =>
  /fresh|compressed|cake/i.test(`${thingOf(kitchen)} ${kitchen.ingredient?.slug ?? ""}`)

// Fresh yeast is sold in 17 g cakes (0.6 oz, USDA SR28 NDB 18374) and 57 g ones (2 oz) in the US, and in cubes of 25, 40,
// 42 or 50 g in Europe: common practice, no published source.
const cubesG = [17, 25, 40, 42, 50, 57]

const cubeDrafts = (term: Term, name: string, known?: Fraction): Draft[] =>
  cubesG.filter((g) => !known?.equals(g)).map((g) => holding(term, name, `${g} g`))

/** "2 cubes" becomes "2 cubes of 42 g". */
const holding = (term: Term, name: string, each: string): Draft => ({
  label: `${name} of ${each}`,
  edits: [edit({ start: term.unitAt.end, end: term.unitAt.end }, ` of ${each}`)],
})

const vagueWords =
  "dash handful fistful knob drizzle splash glug sprinkle sprinkling dusting dollop lump drop smidgen tad hint squeeze"

function asksWhatItWeighs(term: Term, name: string, kitchen: Kitchen): Asked {
  const thing = ofThing(kitchen, name)
  if (name === "part") return asks("Parts are a ratio, not an amount. Give grams, or a percentage of the flour.")
  if (name === "rest" || name === "remainder") return asks("How much is the rest? Give it in grams.")
  if (name === "spoon") return asks("Which spoon is meant?", [inUnit(term, "tbsp"), inUnit(term, "tsp")])
  if (name === "dash") return asks(`A dash${thing} has no fixed weight. Give grams, or a spoon.`, [eighths(term)])
  if (vagueWords.split(" ").includes(name))
    return asks(`A ${name}${thing} has no fixed weight. Give the amount in grams.`)
  if (["cube", "cake", "block", "packet"].includes(name) && isYeast(kitchen))
    return asks(`What does one ${name}${thing} weigh?`, cubeDrafts(term, name))
  return asks(`What does one ${name}${thing} weigh? Give the amount in grams.`)
}

/** The same number in another unit. */
export const inUnit = (term: Term, unit: string): Draft => ({ label: unit, edits: [edit(term.unitAt, unit)] })

/** A dash as an eighth of a teaspoon is common practice, but nobody measures it. */
const eighths = (term: Term): Draft => ({
  label: "1/8 tsp",
  edits: [edit({ start: term.numberAt.start, end: term.unitAt.end }, `${term.value.div(8).toFraction(true)} tsp`)],
})
