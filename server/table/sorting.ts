import { z } from "zod"
import { linings } from "./axis.ts"
import type { Row } from "./row.ts"

const columns = ["name", "fermented", "rise", "dough", "verdict", "difference"] as const
type Column = (typeof columns)[number]

/** What the address may ask for; anything else is as if it were not there. */
export const view = z.object({
  sort: z.enum(columns).catch("name"),
  way: z.enum(["up", "down"]).catch("up"),
  lined: z.enum(linings).catch("table"),
})
export type View = z.output<typeof view>

const values: Record<Exclude<Column, "name">, (row: Row) => number | undefined> = {
  fermented: ({ fermented }) => fermented?.hours,
  rise: ({ rise }) => rise?.share,
  dough: ({ warmth }) => warmth?.meanC ?? warmth?.last.c,
  verdict: ({ verdict }) => ("mean" in verdict ? verdict.mean : undefined),
  difference: ({ differences, fermented }) => differences[0]?.weight ?? (fermented ? 0 : undefined),
}

/** Sorted either way; what has no value in the column comes last, and equals stay in order of name. */
export function sorted<Item extends { row: Row; name: string; nth: number }>(
  items: Item[],
  { sort, way }: View,
): Item[] {
  const sign = way === "up" ? 1 : -1
  if (sort === "name") return items.toSorted((a, b) => sign * a.name.localeCompare(b.name, "en") || a.nth - b.nth)
  const [known, unknown] = [items.filter((one) => isKnown(one)), items.filter((one) => !isKnown(one))]
  return [...known.toSorted((a, b) => sign * (values[sort](a.row)! - values[sort](b.row)!)), ...unknown]

  function isKnown({ row }: Item) {
    return values[sort as Exclude<Column, "name">](row) !== undefined
  }
}
