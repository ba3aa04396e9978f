import type { Say } from "../accounts/say.ts"
import type { FormulaContent } from "./content.ts"

/** What was just drafted from a class's bakes, as it now stands in the draft: stages by key, and "leaven". */
export function draftedIn(query: unknown, { stages }: FormulaContent, say: Say): string[] {
  const { drafted } = (query ?? {}) as { drafted?: unknown }
  const named = typeof drafted === "string" ? drafted.split(",") : []
  const lengths = stages
    .filter(({ key }) => named.includes(key))
    .map(({ name, lowMin, highMin, referenceC }) => {
      const meant = referenceC === undefined ? "" : ` at ${say.temperature(referenceC)}`
      return `${name}: ${say.minutesRange(lowMin, highMin)}${meant}.`
    })
  return named.includes("leaven")
    ? [...lengths, "The leaven’s amounts, and what they leave of flour and water."]
    : lengths
}
