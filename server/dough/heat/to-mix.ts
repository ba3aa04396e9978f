import type { Range, Share } from "../amounts.ts"
import { heldBack, saysHeldBack } from "../bill/held-back.ts"
import { findIngredient } from "../ingredients/catalogue.ts"
import type { CountsAs } from "../ingredients/counts-as.ts"
import type { Ingredient, Role } from "../ingredients/ingredient.ts"
import type { Quantity } from "../quantity/reading.ts"
import { type Heated, specificHeatOf, specificHeatOfMix, specificHeats } from "./specific-heat.ts"

/** What of a formula counts here: its parts as written, and what was worked out for them, line by line. */
export type Part = { key: string; name: string; goesInto: string; lines: PartLine[] }
type PartLine = { ingredient: string; quantity?: string; note?: string }
export type WorkedPart = { used?: Range; lines: WorkedLine[] }
type WorkedLine = { g?: Range; share?: Range<Share>; countsAs: CountsAs; counted?: boolean; quantity?: Quantity }

/**
 * One thing that brings its own temperature into the dough: all the flour, ripe starter, another part, a line that
 * weighs much, or the "rest", all that carries too little heat to ask about. `ferments`: it is a starter or a part that holds yeast or starter.
 */
export type Thing = Heated & { key: string; name: string; ferments: boolean }

/**
 * A part that is mixed with a liquid whose temperature can be chosen: its water, or milk and the like where it has none.
 * Masses are in grams, or, where the formula has ratios but no masses, shares of all its flour. `without` names what has
 * no amount yet and is left out. Of the liquid, `heldBack` waits until the dough is felt (see heldBack), 0 where nothing does.
 */
export type ToMix = {
  key: string
  name: string
  unit: "g" | "share"
  liquid: Heated & { name: string; isWater: boolean; range: Range; heldBack: number }
  things: Thing[]
  without: string[]
}

/**
 * The parts of a formula for which somebody can choose the liquid's temperature, final doughs first. Amounts given as a
 * range count at their middle. A part without any liquid, or whose liquid has no amount, is not among them.
 */
export function mixesOf(parts: Part[], worked: WorkedPart[], own: Ingredient[] = []): ToMix[] {
  const formula = { parts, worked, own }
  const finalFirst = [...parts.keys()].sort(
    (a, b) => Number(parts[a]!.goesInto !== "") - Number(parts[b]!.goesInto !== ""),
  )
  return finalFirst.flatMap((index) => mixOf(formula, index) ?? [])
}

type Formula = { parts: Part[]; worked: WorkedPart[]; own: Ingredient[] }
type Weighed = Heated & { key: string; name: string; countsAs: CountsAs; role?: Role; range: Range; held: number }

function mixOf(formula: Formula, index: number): ToMix | undefined {
  const { key, name } = formula.parts[index]!
  const inside = withDescendants(formula, index)
  const unit = unitOf(inside.flatMap((one) => formula.worked[one]?.lines ?? []))
  const lines = weighedIn(formula, index, unit)
  const liquids = liquidsAmong(lines)
  if (!liquids[0]) return undefined
  const range = { low: sum(liquids.map(({ range }) => range.low)), high: sum(liquids.map(({ range }) => range.high)) }
  const isWater = liquids[0].countsAs === "water"
  const heldBack = sum(liquids.map(({ held }) => held))
  const liquid = { name: isWater ? "water" : liquids[0].name, isWater, range, heldBack, ...mixed(liquids) }
  const brought = childrenOf(formula, index).flatMap((child) => broughtBy(formula, child, unit, [index]) ?? [])
  const things = [...grouped(lines.filter((line) => !liquids.includes(line))), ...brought]
  const without = inside.flatMap((one) => unknownIn(formula, one, unit))
  return { key, name, unit, liquid, things: lumped(things, liquid), without }
}

/** All the water; where there is none, the heaviest other liquid. */
function liquidsAmong(lines: Weighed[]): Weighed[] {
  const water = lines.filter(({ countsAs }) => countsAs === "water")
  const others = lines.filter(({ role }) => role === "liquid").sort((a, b) => b.mass - a.mass)
  return water.length ? water : others.slice(0, 1)
}

/** Shares of the flour only where they say more than grams do. */
function unitOf(lines: WorkedLine[]): ToMix["unit"] {
  const known = lines.filter(({ g, share }) => g || share)
  return known.some(({ g }) => !g) && known.every(({ share }) => share) ? "share" : "g"
}

const amountOf = ({ g, share }: WorkedLine, unit: ToMix["unit"]) => (unit === "g" ? g : share)

function weighedIn({ parts, worked, own }: Formula, index: number, unit: ToMix["unit"]): Weighed[] {
  return parts[index]!.lines.flatMap((written, at) => {
    const line = worked[index]?.lines[at]
    const range = line && line.counted !== false ? amountOf(line, unit) : undefined
    if (!line || !range?.high) return []
    const { countsAs } = line
    const name = written.ingredient.trim()
    const ingredient = findIngredient(name, own)
    const kJPerKgK = heatOfLine(countsAs, ingredient)
    const held = heldOf(written, line, range)
    return [{ key: `line.${at}`, name, countsAs, role: ingredient?.role, range, mass: middle(range), kJPerKgK, held }]
  })
}

/** A line that is held back whole says so; else it is what heldBack tells of a range. */
function heldOf({ quantity = "", note = "" }: PartLine, { quantity: read, countsAs }: WorkedLine, range: Range) {
  const written = { quantity, note }
  if (range.low === range.high) return countsAs === "water" && saysHeldBack(written) ? range.high : 0
  return (read && heldBack(written, { quantity: read, countsAs, g: range })?.laterG) ?? 0
}

/** By composition where that is known, else by what it counts as and what it is. */
function heatOfLine(countsAs: CountsAs, { per100g = {}, role = "inclusion" }: Partial<Ingredient> = {}): number {
  const { flour, water, milk, egg, butter } = specificHeats
  const counted: Partial<Record<CountsAs, number>> = { flour, water, starter: (flour + water) / 2 }
  const byRole: Partial<Record<Role, number>> = { liquid: milk, egg, fat: butter }
  return specificHeatOf(per100g) ?? counted[countsAs] ?? byRole[role] ?? unknownHeat
}
// Between dry flour and wet dough. Our own guess.
const unknownHeat = 2.3

/** All the flour as one thing, all starter as another, the other lines each by itself. */
function grouped(lines: Weighed[]): Thing[] {
  const flours = lines.filter(({ countsAs }) => countsAs === "flour")
  const starters = lines.filter(({ countsAs }) => countsAs === "starter")
  const others = lines.filter((line) => !flours.includes(line) && !starters.includes(line))
  return [
    ...(flours.length ? [{ key: "flour", name: "flour", ferments: false, ...mixed(flours) }] : []),
    ...(starters.length ? [{ key: "starter", name: "ripe starter", ferments: true, ...mixed(starters) }] : []),
    ...others.map(({ key, name, mass, kJPerKgK }) => ({ key, name, ferments: false, mass, kJPerKgK })),
  ]
}

/** What of another part goes in, as one thing; undefined for one of which no amount is known. `above` ends circles. */
function broughtBy(formula: Formula, index: number, unit: ToMix["unit"], above: number[]): Thing | undefined {
  const { key, name } = formula.parts[index]!
  const lines = weighedIn(formula, index, unit)
  const children = childrenOf(formula, index).filter((child) => !above.includes(child))
  const brought = children.flatMap((child) => broughtBy(formula, child, unit, [...above, index]) ?? [])
  const inside = [...lines, ...brought]
  if (!inside.length) return undefined
  const { used } = formula.worked[index]!
  const { mass, kJPerKgK } = mixed(inside)
  const ferments =
    lines.some(({ countsAs }) => countsAs === "starter" || countsAs === "leaven") || brought.some((one) => one.ferments)
  return {
    key: `part.${key}`,
    name: name || "a part without a name",
    ferments,
    kJPerKgK,
    mass: unit === "g" && used ? middle(used) : mass,
  }
}

/** What carries little of the heat becomes one thing, at the end. */
function lumped(things: Thing[], liquid: Heated): Thing[] {
  const all = sum([liquid, ...things].map(heat))
  const small = things.filter((thing) => thing.key !== "flour" && heat(thing) < worthAsking * all)
  if (!small.length) return things
  const rest = { key: "rest", name: small.map(({ name }) => name).join(", "), ferments: false, ...mixed(small) }
  return [...things.filter((thing) => !small.includes(thing)), rest]
}
// Ten degrees more or less in such a thing move the dough by less than half a degree. Our own limit.
const worthAsking = 0.04

function unknownIn({ parts, worked }: Formula, index: number, unit: ToMix["unit"]): string[] {
  return parts[index]!.lines.flatMap(({ ingredient }, at) => {
    const line = worked[index]?.lines[at]
    return ingredient.trim() && line?.counted !== false && !(line && amountOf(line, unit)) ? [ingredient.trim()] : []
  })
}

const childrenOf = ({ parts }: Formula, index: number) =>
  [...parts.keys()].filter((child) => child !== index && parts[child]!.goesInto === parts[index]!.key)

function withDescendants(formula: Formula, index: number, above: number[] = []): number[] {
  const children = childrenOf(formula, index).filter((child) => ![...above, index].includes(child))
  return [index, ...children.flatMap((child) => withDescendants(formula, child, [...above, index]))]
}

const mixed = (things: Heated[]): Heated => ({
  mass: sum(things.map(({ mass }) => mass)),
  kJPerKgK: specificHeatOfMix(things),
})
const heat = ({ mass, kJPerKgK }: Heated) => mass * kJPerKgK
const middle = ({ low, high }: Range) => (low + high) / 2
const sum = (values: number[]) => values.reduce((total, one) => total + one, 0)
