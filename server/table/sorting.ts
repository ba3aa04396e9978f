import type { Laid } from "./laid.ts"
import { compare, type TraitKey, traitKeys } from "./values.ts"

const results = ["fermented", "rise", "verdict", "difference", "crumb"] as const
/** What rows can be sorted by: the name, what differed, what resulted. */
export const columns = ["name", ...traitKeys, ...results] as const
export type Column = (typeof columns)[number]

const resulted: Record<(typeof results)[number], (laid: Laid) => number | undefined> = {
  fermented: ({ row: { fermented } }) => fermented?.hours,
  rise: ({ row: { rise } }) => rise?.share,
  verdict: ({ row: { verdict } }) => ("mean" in verdict ? verdict.mean : undefined),
  difference: ({ row: { differences, fermented } }) => differences[0]?.weight ?? (fermented ? 0 : undefined),
  crumb: ({ bake }) => bake.crumbs[0]?.share,
}

/** Sorted either way; what has no value in the column comes last, and equals stay in order of name. */
export function sorted<Item extends Laid>(items: Item[], { sort, way }: { sort: Column; way: "up" | "down" }): Item[] {
  const sign = way === "up" ? 1 : -1
  const named = sort === "name" ? sign : 1
  const byName = items.toSorted((a, b) => named * a.name.localeCompare(b.name, "en") || a.bake.id - b.bake.id)
  if (sort === "name") return byName
  const valued = byName.map((item) => ({ item, value: valueIn(item, sort) }))
  const known = valued.filter(({ value }) => value !== undefined)
  const unknown = valued.filter(({ value }) => value === undefined)
  return [...known.toSorted((a, b) => sign * compare(a.value!, b.value!)), ...unknown].map(({ item }) => item)
}

function valueIn(laid: Laid, sort: Exclude<Column, "name">) {
  return isResult(sort) ? resulted[sort](laid) : laid.values[sort as TraitKey]?.order
}
const isResult = (column: Column): column is (typeof results)[number] => (results as readonly string[]).includes(column)
