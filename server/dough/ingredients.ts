/** What an ingredient counts as in the formula's totals. */
export type CountsAs = "flour" | "water" | "salt" | "starter" | "leaven" | "other"

/** The words a page shows for each. */
export const countsAsNames: Record<CountsAs, string> = {
  flour: "flour",
  water: "water",
  salt: "salt",
  starter: "ripe starter, half flour half water",
  leaven: "yeast",
  other: "something else",
}

export function guessCountsAs(ingredient: string): CountsAs {
  throw new Error(`not built yet: ${ingredient}`)
}
