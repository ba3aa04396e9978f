import { type Meeting, meetAllergies, type PlacedIngredient } from "../dough/ingredients/allergies.ts"
import type { Ingredient } from "../dough/ingredients/ingredient.ts"
import { listed } from "../formulas/caution.ts"
import type { FormulaContent } from "../formulas/content.ts"
import type { Person } from "./queries.ts"

/** What one person's stated allergies come to in a formula, in sentences without their full stop; the surest first. */
export type MetBy = { name: string; says: { how: "surely" | "perhaps" | "look"; words: string }[] }

type Formula = Pick<FormulaContent, "parts" | "finishing" | "variants">

/** Everybody's allergies held against a formula: the ways to make it and what goes on top included. */
export function metBy(people: Person[], formula: Formula, own: readonly Ingredient[]): MetBy[] {
  const lines = placedIn(formula)
  return people.map(({ shownName, allergies }) => ({
    name: shownName,
    says: saying(meetAllergies(allergies, lines, own)),
  }))
}

function placedIn({ parts, finishing, variants }: Formula): PlacedIngredient[] {
  const at = (place: string) => (line: { ingredient: string }) => ({ ingredient: line.ingredient.trim(), place })
  const all = [
    ...parts.flatMap(({ name, lines }) => lines.map(at(name || "a part without a name"))),
    ...finishing.map(at("the topping")),
    ...variants.flatMap(({ name, swaps }) =>
      swaps.flatMap(({ lines }) => lines.map(at(`“${name || "another way"}”, one of the ways to make it`))),
    ),
  ]
  return all.filter(({ ingredient }) => ingredient)
}

function saying({ met, unknown, unmet }: Meeting): MetBy["says"] {
  const from = ({ ingredient, place }: PlacedIngredient) => `from ${place} (${ingredient})`
  const told = (how: "surely" | "perhaps") =>
    met
      .filter((one) => one.how === how)
      .map((one) => ({ how, words: `${how === "perhaps" ? "perhaps " : ""}${one.allergy}, ${from(one)}` }))
  const look = (words: string) => ({ how: "look" as const, words })
  const nothingByName = (one: boolean) =>
    one
      ? "no name here gives it away, which does not mean that it is not there"
      : "no name here gives them away, which does not mean that they are not there"
  return [
    ...told("surely"),
    ...told("perhaps"),
    ...unknown.map(({ ingredient, place }) =>
      look(`${ingredient}, in ${place}: nobody here knows what is in it; read its pack`),
    ),
    ...(unmet.length ? [look(`${listed(unmet)}: ${nothingByName(unmet.length === 1)}`)] : []),
  ]
}
