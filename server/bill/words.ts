import type { Say } from "../accounts/say.ts"
import type { Range } from "../dough/amounts.ts"
import { type Purchase, purchaseOf } from "../dough/bill/buying.ts"
import type { For, Thing } from "../dough/bill/shopping.ts"
import { findIngredient } from "../dough/ingredients/catalogue.ts"
import type { Ingredient } from "../dough/ingredients/ingredient.ts"
import { wordsOf } from "../dough/ingredients/words.ts"
import { gramsPerOunce, gramsPerPound, millilitresOf } from "../dough/quantity/measures.ts"
import type { Measures } from "../dough/quantity/reading.ts"
import { showRange, showVolume } from "../dough/units.ts"
import { inFractions } from "../scaling/scales.ts"

/** A thing of the list in words. `id` is what it is, whatever it is called; `asks` are its amounts that nobody can tell. */
export type ListedThing = {
  id: string
  name: string
  buy: string | null
  exactly: string | null
  about: string[]
  asks: string[]
}

/** In whose words, with the class's own ingredients, and the measures that the formula is written in. */
export type Shopper = { unit: "g" | "oz"; say: Say; own: Ingredient[]; measures: Measures }

/** A thing with how much of it to buy, how much exactly is needed and what for. */
export function listedThing(thing: Thing, shopper: Shopper): ListedThing {
  const { id, name, g, fors } = thing
  const purchase = purchaseOf(thing, shopper)
  const needed = g?.high ? inAll(g, shopper) : null
  const buy = purchase ? inTheShop(purchase, shopper) : null
  return {
    ...{ id, name, buy },
    exactly: needed === buy ? null : needed,
    about: [...volumeOf(thing, shopper), ...forWhat(thing, shopper)],
    asks: fors.flatMap(({ asks, written }) => (asks ? [asked(written, asks)] : [])),
  }
}

/** What is needed, to the gram; a class's in kilograms. */
export function inAll(g: Range, { unit, say }: Pick<Shopper, "unit" | "say">): string {
  if (unit === "oz" || g.high < 2000) return say.massRange(g)
  return showRange(g, (one) => `${Number((one / 1000).toFixed(3))} kg`)
}

const asked = ({ quantity }: For["written"], asks: string) => (quantity.trim() ? `“${quantity.trim()}”: ${asks}` : asks)

/** "750 g", "1.1 kg", "1 3/4 lb", "3 eggs", "2 packets of 7 g". */
function inTheShop(purchase: Purchase, { unit, say }: Shopper): string {
  if (purchase.of === "mass") return unit === "g" ? inGrams(purchase.g) : inOunces(purchase.g)
  const { unit: piece, count, eachG } = purchase
  const named = count === 1 ? piece : /(x|s|sh|ch)$/.test(piece) ? `${piece}es` : `${piece}s`
  return `${count} ${named}${piece === "egg" ? "" : ` of ${say.mass(eachG)}`}`
}

const inGrams = (g: number) => (g < 1000 ? `${Number(g.toFixed(1))} g` : `${Number((g / 1000).toFixed(2))} kg`)
const inOunces = (g: number) =>
  g < gramsPerPound * 0.999 ? `${inFractions(g / gramsPerOunce)} oz` : `${inFractions(g / gramsPerPound)} lb`

/** What pours is sold by volume. */
function volumeOf({ g, fors }: Thing, { own, unit: massUnit }: Shopper): string[] {
  const ingredient = findIngredient(fors[0]!.written.ingredient, own)
  if (!g?.high || !ingredient || !pours(ingredient)) return []
  const spoon = ingredient.portions.find(({ unit }) => unit === "cup" || unit === "tbsp")
  const ml = spoon && millilitresOf(spoon.unit as "cup" | "tbsp", "us")?.valueOf()
  return spoon && ml ? [`about ${poured((g.high / spoon.g) * ml, massUnit)}`] : []
}

const poured = (ml: number, unit: Shopper["unit"]) =>
  unit === "g" ? showVolume(ml < 100 ? ml : Math.round(ml / 10) * 10) : `${Math.ceil(ml / fluidOunceMl)} fl oz`
const fluidOunceMl = millilitresOf("fl oz", "us")!.valueOf()
const pours = ({ role, slug }: Ingredient) => role === "liquid" || /(^|-)oil(-|$)/.test(slug)

/** How much of it goes where, and what it is called there, where that is more than one place or name. */
function forWhat({ name, fors }: Thing, shopper: Shopper): string[] {
  if (fors.length === 1) return fors[0]!.part === undefined ? [onTheDough] : []
  return fors.map(({ part, g, written }) => {
    const called = wordsOf(written.ingredient).join() === wordsOf(name).join() ? "" : ` as ${written.ingredient}`
    const where = part === undefined ? onTheDough : `for ${lower(part || "a part without a name")}`
    return `${g ? inAll(g, shopper) : "some"}${called} ${where}`
  })
}

const onTheDough = "on and around the dough"
const lower = (words: string) => words.charAt(0).toLowerCase() + words.slice(1)
