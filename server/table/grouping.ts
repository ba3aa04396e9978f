import type { Say } from "../accounts/say.ts"
import { median } from "../dough/statistics/spread.ts"
import { groupsBy } from "./choices.ts"
import type { Laid } from "./laid.ts"
import type { TraitKey } from "./values.ts"

/** The rows of a table in one or more groups, each with its middle; without `by` they are one group without a name. */
export function grouped<Item extends Laid>(items: Item[], by: TraitKey | "", say: Say) {
  if (!by) return [{ words: "", middle: "", items }]
  return groupsBy(items, by).map(({ band, items }) => ({ words: band.words, middle: middleOf(items, say), items }))
}

/** "median of 5: 6.9 ref h, rise +45 %, dough 23.4 °C"; of fewer than three nothing is said to be the middle. */
function middleOf(items: Laid[], say: Say): string {
  const middles = [
    inWords(
      items.map(({ row }) => row.fermented?.hours),
      (h) => `${say.hours(h)} ref h`,
    ),
    inWords(
      items.map(({ row }) => row.rise?.share),
      (share) => `rise ${say.rise(share)}`,
    ),
    inWords(
      items.map(({ row }) => doughC(row)),
      (c) => `dough ${say.temperature(c)}`,
    ),
  ].filter(Boolean)
  if (middles.length) return `medians: ${middles.join(", ")}`
  return "too few figures for a median"
}

const doughC = ({ warmth }: Laid["row"]) => (warmth?.from === "dough" ? warmth.meanC : undefined)

function inWords(values: (number | undefined)[], words: (value: number) => string) {
  const known = values.filter((value) => value !== undefined)
  const middle = median(known)
  if (!middle.enough) return ""
  return `${words(middle.value)}${known.length < values.length ? ` of ${known.length}` : ""}`
}
