import { allergensOf, type Found } from "../dough/ingredients/allergens.ts"
import { findIngredient } from "../dough/ingredients/catalogue.ts"
import type { Ingredient } from "../dough/ingredients/ingredient.ts"
import type { AllergenList } from "../schema.ts"
import { type Caution, listed } from "./caution.ts"

/** What the names of the ingredients say of allergens, on the lists that count. Names cannot show everything, so never "none". */
export function allergenWords(names: string[], own: readonly Ingredient[], list: AllergenList): Caution {
  const { us, eu, unknown } = allergensOf(names, own)
  const theirs = ownAmong(names, own)
  const said = [
    list !== "eu" && `On the US list: ${allOf(us)}.`,
    list !== "us" && `On the EU and UK list: ${allOf(eu)}.`,
    unknown.length && `Not known here: ${listed(unknown)}.`,
    `May be missing: own ingredients${theirs.length ? `, such as ${listed(theirs)}, which ${theirs.length === 1 ? "is" : "are"} taken as this class wrote ${theirs.length === 1 ? "it" : "them"}` : ""}.`,
    "Only the names of the ingredients were looked at: check every pack, also for traces.",
  ]
  const found = list === "eu" ? eu : list === "us" ? us : [...us, ...eu]
  const brief = [...new Set(found.map(({ allergen, sure }) => `${sure ? "" : "perhaps "}${allergen}`))]
  return {
    key: "allergens",
    title: "Allergens",
    words: said.filter(Boolean).join(" "),
    short: `Allergens: ${brief.length ? brief.join(", ") : "none plain from the names"}.${unknown.length ? ` Not known: ${listed(unknown)}.` : ""} May be missing: own ingredients. Check every pack.`,
  }
}

/** Those of the names that only a class's own list knows. */
const ownAmong = (names: string[], own: readonly Ingredient[]) => [
  ...new Set(names.filter((name) => own.some((one) => one === findIngredient(name, own)))),
]

type Told = { parts: { lines: { ingredient: string }[] }[]; finishing?: { ingredient: string }[] }

/**
 * What one baker's own ingredients bring onto the lists of allergens that the formula did not have there, and those whose
 * allergens nobody here knows; null when there is nothing to say.
 */
export function allergensBrought(
  { parts, finishing = [] }: Told,
  names: readonly string[],
  own: readonly Ingredient[] = [],
): { title: string; words: string } | null {
  const before = allergensOf(
    [...parts.flatMap(({ lines }) => lines), ...finishing].map(({ ingredient }) => ingredient),
    own,
  )
  const after = allergensOf(names, own)
  const fresh = (list: "us" | "eu") =>
    after[list].filter(
      ({ allergen, sure }) => !before[list].some((one) => one.allergen === allergen && (one.sure || !sure)),
    )
  const [us, eu] = [fresh("us"), fresh("eu")]
  const unknown = after.unknown.filter((name) => !before.unknown.includes(name))
  if (!us.length && !eu.length && !unknown.length) return null
  const [usWords, euWords] = [us, eu].map((list) => list.map(one).join("; "))
  const said = [
    ...(usWords === euWords
      ? [usWords && `On the US list and that of the EU and UK: ${usWords}.`]
      : [usWords && `On the US list: ${usWords}.`, euWords && `On the EU and UK list: ${euWords}.`]),
    unknown.length && `Not known here: ${listed(unknown)}; check the pack.`,
  ]
  return { title: "Allergens the formula does not have", words: said.filter(Boolean).join(" ") }
}

const allOf = (found: Found[]) => found.map(one).join("; ") || "none is plain from the names"
const one = ({ allergen, from, sure }: Found) => `${sure ? "" : "perhaps "}${allergen}, from ${listed(from)}`
