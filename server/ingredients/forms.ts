import { z } from "zod"
import { euFourteen, usNine } from "../dough/ingredients/allergen-lists.ts"
import { findIngredient } from "../dough/ingredients/catalogue.ts"
import type { Composition, Ingredient, Portion } from "../dough/ingredients/ingredient.ts"
import { ingredientKinds } from "../schema.ts"
import { type Form, maybeReadBy, maybeWords, words } from "../web/forms.ts"
import type { ClassIngredient } from "./queries.ts"

export const contents = ["water", "fat", "sugar", "protein", "salt"] as const
const spoons = ["cup", "tbsp", "tsp"] as const
const lists = { us: usNine, eu: euFourteen }

/** The field of an allergen's box, by its list and its place on it. */
export const boxOf = (list: "us" | "eu", at: number) => `${list}-${at}`

// 3 g/ml, over which nothing that is baked with lies; a piece of more than 5 kg is a slip. Our own choice.
const mostOf = { cup: 710, tbsp: 45, tsp: 15, piece: 5000 }

const grams = (most: number) =>
  maybeReadBy((text): { value: number } | { error: string } => {
    const found = text.trim().match(/^(\d{1,6}(?:[.,]\d{1,6})?) *(?:g|%)?$/i)
    if (!found) return { error: "Give grams, such as 12.5, or leave it blank." }
    const value = Number(found[1]!.replace(",", "."))
    return value <= most ? { value } : { error: `That is more than ${most} g.` }
  })
const someGrams = (most: number) =>
  grams(most).refine((g) => g !== 0, "Leave it blank if it is not known; it cannot be 0 g.")

/** An ingredient as an instructor writes it down, with its ticked boxes; what is left blank is not known. */
export const ingredientForm = z
  .looseObject({
    name: words("Name the ingredient.", 80).refine(
      (name) => findIngredient(name, [nameOnly(name)]),
      "Give it a name of letters, as it is written in formulas.",
    ),
    kind: z.enum(ingredientKinds, "Choose what it is."),
    ...{ water: grams(100), fat: grams(100), sugar: grams(100), protein: grams(100), salt: grams(100) },
    ...{ cup: someGrams(mostOf.cup), tbsp: someGrams(mostOf.tbsp), tsp: someGrams(mostOf.tsp) },
    pieceName: maybeWords(30),
    piece: someGrams(mostOf.piece),
    remark: maybeWords(300),
  })
  .superRefine((typed, context) => {
    const sum = contents.reduce((total, content) => total + (typed[content] ?? 0), 0)
    // Figures rounded to a tenth on a pack may add up to a little more.
    if (sum > 100.5) {
      const message = `These add up to ${Number(sum.toFixed(1))} g, more than there is in 100 g.`
      context.addIssue({ code: "custom", path: ["contents"], message })
    }
    if (spoons.some((spoon) => spoon === typed.pieceName.toLowerCase()))
      context.addIssue({ code: "custom", path: ["pieceName"], message: "Spoons and cups have fields of their own." })
    if (typed.piece !== null && !typed.pieceName)
      context.addIssue({ code: "custom", path: ["pieceName"], message: "Say what one piece of it is called." })
    if (typed.piece === null && typed.pieceName)
      context.addIssue({ code: "custom", path: ["piece"], message: `Say what one ${typed.pieceName} weighs.` })
  })
  .transform((typed) => ({
    name: typed.name,
    kind: typed.kind,
    per100g: Object.fromEntries(contents.flatMap((content) => pair(content, typed[content]))) as Composition,
    portions: [
      ...spoons.flatMap((unit) => portion(unit, typed[unit])),
      ...portion(typed.pieceName.toLowerCase(), typed.piece),
    ],
    usAllergens: tickedOf("us", typed),
    euAllergens: tickedOf("eu", typed),
    remark: typed.remark,
  }))

/** An ingredient as its form shows it. */
export function typedIngredient(known: ClassIngredient): Form["typed"] {
  const piece = known.portions.find(({ unit }) => !spoons.some((spoon) => spoon === unit))
  const weights = Object.fromEntries(known.portions.map(({ unit, g }) => [unit, String(g)]))
  const ticks = (list: "us" | "eu", on: string[]) =>
    Object.fromEntries(lists[list].map((allergen, at) => [boxOf(list, at), on.includes(allergen) ? "on" : ""]))
  return {
    ...{ name: known.name, kind: known.kind, remark: known.remark },
    ...Object.fromEntries(contents.map((content) => [content, String(known.per100g[content] ?? "")])),
    ...Object.fromEntries(spoons.map((unit) => [unit, weights[unit] ?? ""])),
    ...{ pieceName: piece?.unit ?? "", piece: piece ? String(piece.g) : "" },
    ...ticks("us", known.usAllergens),
    ...ticks("eu", known.euAllergens),
  }
}

const pair = (content: string, g: number | null) => (g === null ? [] : [[content, g] as const])
const portion = (unit: string, g: number | null): Portion[] => (g === null ? [] : [{ unit, g }])
const tickedOf = (list: "us" | "eu", typed: Record<string, unknown>) =>
  lists[list].filter((_, at) => typed[boxOf(list, at)] === "on")

/** Just enough of an ingredient to see whether it would be found by its name. */
const nameOnly = (name: string): Ingredient => ({
  ...{ slug: "own-0", name, role: "inclusion", countsAs: "other", per100g: {}, portions: [] },
  ...{ allergens: { us: [], eu: [] }, source: "" },
})
