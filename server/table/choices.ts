import type { Laid } from "./laid.ts"
import type { Trait } from "./traits.ts"
import { type Band, bandOf, compare, type TraitKey, unknown } from "./values.ts"

/** A respect by which bakes can be picked or grouped, and the bands there are, with how many bakes are in each. */
export type Choice = { key: TraitKey; head: string; bands: (Band & { count: number })[] }

/** Where there is but one band there is nothing to choose. */
export function choicesOf(items: Laid[], traits: Trait[]): Choice[] {
  return traits
    .filter(({ sorts }) => sorts)
    .map(({ key, head }) => ({ key, head, bands: bandsOf(items, key) }))
    .filter(({ bands }) => bands.length > 1)
}

/** The bands in which these bakes are, in their own order, what is not known last. */
function bandsOf(items: Laid[], key: TraitKey) {
  return groupsBy(items, key).map(({ band, items }) => ({ ...band, count: items.length }))
}

/** The bakes by band, each in the order in which they came. */
export function groupsBy<Item extends Laid>(items: Item[], key: TraitKey): { band: Band; items: Item[] }[] {
  const groups = new Map<string, { band: Band; items: Item[] }>()
  for (const item of items) {
    const band = bandOf(item.values[key])
    const group = groups.get(band.key)
    if (group) group.items.push(item)
    else groups.set(band.key, { band, items: [item] })
  }
  const last = ({ band }: { band: Band }) => Number(band === unknown)
  return [...groups.values()].sort((a, b) => last(a) - last(b) || compare(a.band.order, b.band.order))
}

/** Those that are in all of these bands. */
export function pickedFrom<Item extends Laid>(items: Item[], only: { [Key in TraitKey]?: string }): Item[] {
  const wanted = Object.entries(only) as [TraitKey, string][]
  return items.filter(({ values }) => wanted.every(([key, band]) => bandOf(values[key]).key === band))
}
