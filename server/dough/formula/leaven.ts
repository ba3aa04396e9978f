import type { Yeast } from "../fermentation/bakers-yeast.ts"
import type { Figures, LineFigures } from "./formula.ts"

/** What makes a dough rise. */
export type Leaven = "sourdough" | "baker's yeast" | "both" | "none"

/** What makes it rise, told from the lines that count as ripe starter and as yeast and have some of it. */
export function leavenOf({ parts }: Pick<Figures, "parts">): Leaven {
  const lines = parts.flatMap(({ lines }) => lines.filter(({ counted, g }) => counted && g?.high !== 0))
  const has = (what: "starter" | "leaven") => lines.some(({ countsAs }) => countsAs === what)
  if (has("starter")) return has("leaven") ? "both" : "sourdough"
  return has("leaven") ? "baker's yeast" : "none"
}

/** How a line's yeast is sold: fresh or instant where it says so, else active dry. */
export function yeastOf({ ingredient }: Pick<LineFigures, "ingredient">, typed: string): Yeast {
  if (ingredient?.slug === "yeast-compressed") return "fresh"
  return /instant|quick|fast|rapid|easy/i.test(typed) ? "instant" : "active dry"
}
