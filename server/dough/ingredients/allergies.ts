import { allergensOf } from "./allergens.ts"
import type { Ingredient } from "./ingredient.ts"
import { wordsOf } from "./words.ts"

/**
 * What somebody may say they must not eat: what is on either list of allergen-lists.ts, once, by its US name where it has
 * one. Gluten is asked beside wheat: rye, barley and oats are on the European list alone.
 */
export const allergyKeys = [
  "cereals containing gluten",
  "wheat",
  "milk",
  "egg",
  "tree nuts",
  "peanut",
  "sesame",
  "soy",
  "fish",
  "crustacean shellfish",
  "molluscs",
  "celery",
  "mustard",
  "lupin",
  "sulphites",
] as const
export type AllergyKey = (typeof allergyKeys)[number]

/** How the two lists name each, at the beginning of what they say: "nuts (walnut)". */
const onLists: Record<AllergyKey, { us?: string; eu?: string }> = {
  "cereals containing gluten": { us: "wheat", eu: "cereals containing gluten" },
  wheat: { us: "wheat", eu: "cereals containing gluten (wheat)" },
  milk: { us: "milk", eu: "milk" },
  egg: { us: "egg", eu: "eggs" },
  "tree nuts": { us: "tree nuts", eu: "nuts" },
  peanut: { us: "peanut", eu: "peanuts" },
  sesame: { us: "sesame", eu: "sesame" },
  soy: { us: "soy", eu: "soybeans" },
  fish: { us: "fish", eu: "fish" },
  "crustacean shellfish": { us: "crustacean shellfish", eu: "crustaceans" },
  molluscs: { eu: "molluscs" },
  celery: { eu: "celery" },
  mustard: { eu: "mustard" },
  lupin: { eu: "lupin" },
  sulphites: { eu: "sulphites" },
}

export type StatedAllergies = { keys: readonly string[]; words: string }
export type PlacedIngredient = { ingredient: string; place: string }
/** `allergy` as it was stated, `how` sure its ingredient carries it. */
export type Met = PlacedIngredient & { allergy: string; how: "surely" | "perhaps" }
/**
 * What a person meets in a formula. `unknown` are ingredients that nobody here knows, `unmet` the allergies for which no name
 * gives anything away: never a promise that there is nothing.
 */
export type Meeting = { met: Met[]; unknown: PlacedIngredient[]; unmet: string[] }

/**
 * Holds stated allergies against the ingredients of a formula, by their names and what is known of them. What somebody said
 * in their own words is held against the names as well, and never counts for more than "perhaps".
 */
export function meetAllergies(
  { keys, words }: StatedAllergies,
  lines: readonly PlacedIngredient[],
  own: readonly Ingredient[] = [],
): Meeting {
  const carried = lines
    .filter(({ ingredient }) => wordsOf(ingredient).length)
    .map((line) => ({ line, found: allergensOf([line.ingredient], own) }))
  const known = allergyKeys.filter((key) => keys.includes(key))
  const terms = termsOf(words)
  const met = carried.flatMap(({ line, found }) => {
    const listed = [...found.us, ...found.eu]
    const of = (allergy: string, how: Met["how"] | undefined) => (how ? [{ ...line, allergy, how }] : [])
    return [
      ...known.flatMap((key) => of(key, howSure(key, listed))),
      ...terms.flatMap((term) => of(term, isNamed(term, line.ingredient, listed) ? "perhaps" : undefined)),
    ]
  })
  const stated = [...known, ...terms]
  return {
    met: stated.flatMap((allergy) => met.filter((one) => one.allergy === allergy)),
    unknown: stated.length ? carried.flatMap(({ line, found }) => (found.unknown.length ? [line] : [])) : [],
    unmet: stated.filter((allergy) => !met.some((one) => one.allergy === allergy)),
  }
}

type Listed = { allergen: string; sure: boolean }[]

function howSure(key: AllergyKey, listed: Listed): Met["how"] | undefined {
  const { us, eu } = onLists[key]
  const carried = listed.filter(({ allergen }) => (us && allergen.startsWith(us)) || (eu && allergen.startsWith(eu)))
  if (carried.some(({ sure }) => sure)) return "surely"
  // an own ingredient that only says "cereals" may be any of them
  const cereals = key === "wheat" && listed.some(({ allergen }) => allergen === "cereals containing gluten")
  return carried.length || cereals ? "perhaps" : undefined
}

/** "lactose, and kiwi fruit" in its pieces. */
const termsOf = (words: string) => [
  ...new Set(
    words
      .split(/[,;\n/]|\.(?:\s|$)|\b(?:and|or|also)\b/i)
      .map((term) => term.trim())
      .filter((term) => tellingOf(term).length),
  ),
]

/** The words of what somebody wrote that name a thing. Common practice, no published source. */
const tellingOf = (term: string) => wordsOf(term).filter((word) => !idle.has(word))
const idle = new Set(
  wordsOf(
    "I am my me a an the is are in it allergy allergic allergies intolerant intolerance to of no not none never any all every kind sort type some can cannot do does eat have has bad badly severe severely mild mildly very little bit raw trace reaction free please thing anything with without make ill",
  ),
)

function isNamed(term: string, ingredient: string, listed: Listed) {
  const telling = tellingOf(term)
  const names = [ingredient, ...listed.map(({ allergen }) => allergen)].flatMap(wordsOf)
  if (telling.some((word) => names.includes(word))) return true
  if (relatives.some(([said, name]) => said.test(term) && name.test(ingredient))) return true
  return alsoCalled.some(([called, keys]) => called.test(term) && keys.some((key) => howSure(key, listed)))
}

// What is on no list and goes by another name in a formula. Common practice, no published source.
const relatives: [RegExp, RegExp][] = [
  [/\b(bees?|propolis|pollen)\b/i, /\bhoney\b/i],
  [/\b(maize|corn|sweetcorn)\b/i, /\b(maize|corn\p{L}*|polenta|masa|sweetcorn)\b/iu],
  [/\b(alcohol|ethanol)\b/i, /\b(beer|ale|stout|lager|wine|rum|brandy|whisk(e?)y|cider)\b/i],
  [/\b(citrus|oranges?|lemons?)\b/i, /\b(orange|lemon|lime|citrus|citron|grapefruit|mandarin|peel)s?\b/i],
  [/\b(pulses?|legumes?|lentils?)\b/i, /\b(chickpea|gram|pea|lentil|bean|lupin|soya?)s?\b/i],
]

// What people call things that the lists name otherwise. Common practice, no published source.
const alsoCalled: [RegExp, AllergyKey[]][] = [
  [/\b(dairy|lactose|casein|whey|butter|cheese|cream|yogh?urt)\b/i, ["milk"]],
  [/gluten|c(o)?eliac/i, ["cereals containing gluten"]],
  [/\bnuts?\b|nut (allergy|oil)|\b(marzipan|praline)\b/i, ["tree nuts", "peanut"]],
  [/\b(groundnuts?|arachis)\b/i, ["peanut"]],
  [/\b(shellfish|seafood|prawns?|shrimps?|crabs?|lobsters?)\b/i, ["crustacean shellfish", "molluscs", "fish"]],
  [/\b(soya?|tofu|lecithin)\b/i, ["soy"]],
  [/\bsul(ph|f)ites?\b|\bwine\b/i, ["sulphites"]],
  [/\b(tahini|halva)\b/i, ["sesame"]],
  [/\blupine?s?\b/i, ["lupin"]],
]
