import { findIngredient } from "../ingredients/catalogue.ts"
import type { Ingredient } from "../ingredients/ingredient.ts"
import { gramsPerOunce, gramsPerPound, type MassUnit } from "../quantity/measures.ts"
import { readQuantity } from "../quantity/read.ts"
import type { Measures } from "../quantity/reading.ts"
import { type Token, tidy, tokensOf } from "../quantity/tokens.ts"
import type { For, Thing } from "./shopping.ts"

/** So much of it, g; or so many of them, each taken as `eachG`. */
export type Purchase = { of: "mass"; g: number } | { of: "pieces"; unit: string; count: number; eachG: number }

type Shopper = { unit: Extract<MassUnit, "g" | "oz">; measures?: Measures; own?: Ingredient[] }

/**
 * What is bought of a thing: eggs whole, packets whole where the formula is written in packets, everything else by mass,
 * rounded up. The most that a range may take is bought. undefined where no amount is known, or none is needed.
 */
export function purchaseOf(thing: Thing, shopper: Shopper): Purchase | undefined {
  if (!thing.g || thing.g.high === 0) return undefined
  return eggsOf(thing, shopper) ?? packsOf(thing, shopper) ?? { of: "mass", g: sensibly(thing.g.high, shopper.unit) }
}

/** From `below` up to here in steps of so much. What is sensible to ask for in a shop is our own judgement. */
const steps: Record<Shopper["unit"], [upTo: number, step: number][]> = {
  g: [
    [20, 1],
    [100, 5],
    [250, 10],
    [1000, 50],
    [5000, 100],
    [20_000, 500],
    [Number.POSITIVE_INFINITY, 1000],
  ],
  oz: [
    [2 * gramsPerOunce, gramsPerOunce / 8],
    [8 * gramsPerOunce, gramsPerOunce / 2],
    [gramsPerPound, gramsPerOunce],
    [5 * gramsPerPound, gramsPerPound / 4],
    [40 * gramsPerPound, gramsPerPound / 2],
    [Number.POSITIVE_INFINITY, gramsPerPound],
  ],
}

/** A mass rounded up to what is sensible to ask for, g; binary noise is no reason to buy more. */
export function sensibly(g: number, unit: Shopper["unit"]): number {
  const [, step] = steps[unit].find(([upTo]) => g <= upTo)!
  return Math.ceil(Number((g / step).toPrecision(12))) * step
}

// For less than a tenth of an egg or a packet more nobody opens another. Our own judgement.
const letGo = 0.1
const whole = (count: number) => Math.max(1, Math.ceil(Number(count.toPrecision(12)) - letGo))

/** Whole eggs, and one more for each yolk or white, of which one egg has both. */
function eggsOf({ id, fors }: Thing, shopper: Shopper): Purchase | undefined {
  if (id !== "egg") return undefined
  const counts = { egg: 0, yolk: 0, white: 0 }
  let eachG = 0
  for (const one of fors) {
    const slug = findIngredient(one.written.ingredient, shopper.own)?.slug
    const unit = slug === "egg-yolk" ? "yolk" : slug === "egg-white" ? "white" : "egg"
    const oneG = gramsOfOne(unit, one, shopper)
    if (!oneG) return undefined
    if (unit === "egg" || !eachG) eachG = oneG
    counts[unit] += (one.g?.high ?? 0) / oneG
  }
  return { of: "pieces", unit: "egg", count: whole(counts.egg + Math.max(counts.yolk, counts.white)), eachG }
}

/** Of a thing that every line gives in one kind of packet, of one size. */
function packsOf({ g, fors }: Thing, shopper: Shopper): Purchase | undefined {
  const packs = fors.map((one) => {
    const unit = packIn(one, shopper)
    return unit ? { unit, eachG: gramsOfOne(unit, one, shopper) ?? gramsByCount(one) } : undefined
  })
  const [first] = packs
  if (!first?.eachG || !g) return undefined
  const alike = packs.every((pack) => pack?.unit === first.unit && Math.abs((pack.eachG ?? 0) - first.eachG!) < 0.01)
  return alike ? { of: "pieces", unit: first.unit, count: whole(g.high / first.eachG), eachG: first.eachG } : undefined
}

const packed = new Set(
  "packet cube cake block stick can tin jar bag bottle carton tub container punnet box banana".split(" "),
)

function packIn({ written }: For, { own }: Shopper): string | undefined {
  const pieces = findIngredient(written.ingredient, own)?.portions.map(({ unit }) => unit) ?? []
  return tokensOf(tidy(written.readAs || written.quantity), pieces).find(isPack)?.unit.name
}
type UnitToken = Extract<Token, { is: "unit" }>
const isPack = (token: Token): token is UnitToken => token.is === "unit" && packed.has(token.unit.name)

function gramsOfOne(unit: string, { written }: For, { measures, own }: Shopper): number | undefined {
  const name = written.ingredient
  const read = readQuantity(`1 ${unit}`, { ingredient: findIngredient(name, own), name, measures })
  return read.kind === "mass" ? read.g.high : undefined
}

/** "2 cans of 400 g" say what one holds only by what both do; what was scaled since keeps that. */
function gramsByCount({ written, figures }: For): number | undefined {
  const typed = /^\s*(\d{1,3})\s*(?:[x×]\s*\d|[a-z])/i.exec(written.readAs || written.quantity)
  const { quantity } = figures
  return typed && quantity.kind === "mass" ? quantity.g.high / Number(typed[1]) : undefined
}
