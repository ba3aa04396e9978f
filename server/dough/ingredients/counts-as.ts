/** What an ingredient counts as in the formula's totals. */
export type CountsAs = "flour" | "water" | "salt" | "starter" | "leaven" | "other"

/** The words a page shows for each. */
export const countsAsNames: Record<CountsAs, string> = {
  flour: "flour",
  water: "water",
  salt: "salt",
  starter: "ripe starter, half flour half water",
  leaven: "yeast",
  other: "other",
}

/**
 * Guesses from an ingredient's usual English name what it counts as; the writer can always say otherwise.
 *
 * Flour is what the trade puts into the 100 %: ground cereals (wheat, rye, spelt, rice, buckwheat, maize meal...), by
 * name, by type number (550, T65, 00) or as "wholemeal". "other" although they sound like flour: nut, coconut and pulse
 * flours and starches, which bind water quite differently and are usually given on top of the flour; "corn flour", which
 * is a starch in some countries and ground maize in others; malt flour and gluten, used by the pinch; whole, cracked
 * or flaked grain, bran and germ, which belong to a soaker; flour for dusting, which hardly enters the dough.
 * "starter" is taken as ripe and half flour, half water: a stiff one needs to be written as a part of its own.
 * "leaven" is baker's yeast; baking powder and soda do not ferment and are "other".
 * Common practice, no published source.
 */
export function guessCountsAs(ingredient: string): CountsAs {
  const name = ingredient.normalize("NFKC").toLowerCase()
  if (/\bdust/.test(name)) return "other"
  // "flour for the starter" is flour: what it is meant for says nothing about what it is.
  const thing = name.replace(/\bfor\b.*/, "")
  return guesses.find(([, pattern]) => pattern.test(thing))?.[0] ?? "other"
}

// The first that fits counts, so each line may rely on the ones above it.
const guesses: [CountsAs, RegExp][] = [
  ["other", /nutritional yeast|yeast extract|\bsalt ?water\b|\bbrine\b|butter|margarine|ice cream/],
  ["other", /\b(rose|blossom|flower|coconut) water\b|water chestnut/],
  ["starter", /\bstarter\b|\bmother\b|\bmadre\b|\blevain\b|\bleaven\b|\bsourdough\b(?!.*\bflour)|\bdiscard\b/],
  ["leaven", /\byeast\b/],
  ["salt", /\bsalt\b/],
  ["water", /\bwater\b|\bice\b/],
  [
    "other",
    /almond|nuts?\b|coconut|\bpeas?\b|chickpea|gram flour|\bbeans?\b|\bsoya?\b|lentil|lupin|linseed|flax|\bseeds?\b/,
  ],
  ["other", /potato|tapioca|cassava|starch|corn ?flour|diastatic|malt (flour|powder|extract)|malted barley|gluten/],
  ["flour", /\bflours?\b|wholemeal|\b(corn|maize) ?meal\b|semolina|\bsemola\b|\batta\b|\bmaida\b|\bmanitoba\b/],
  ["flour", /\b(type|tipo|t) ?\d{2,4}\b|^\W*(00|\d{3,4})\W*$|\b(strong|plain|bread) (white|brown)\b/],
  [
    "other",
    /flake|berr(y|ies)|\bgrains\b|kernel|grits|groats|chops?\b|cracked|rolled|\bbran\b|\bgerm\b|bread|crumb|malt/,
  ],
  ["flour", /\b(wheat|rye|spelt|einkorn|emmer|khorasan|durum)\b/],
]
