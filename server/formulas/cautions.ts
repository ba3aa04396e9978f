import type { FormulaContent } from "./content.ts"

export type Caution = { title: string; words: string }

/** What to mind with this formula, told from the names of its ingredients and the kinds of its stages. */
export function cautionsFor({ parts, stages }: FormulaContent): Caution[] {
  const names = parts.flatMap(({ lines }) => lines.map(({ ingredient }) => plain(ingredient))).filter(Boolean)
  const has = (pattern: RegExp) => names.some((name) => pattern.test(name))
  const cautions: Caution[] = []
  if (names.length) cautions.push(raw)
  if (has(perishable)) cautions.push(leftWarm)
  if (has(/\bhoney\b/)) cautions.push(honey)
  if (has(/\blye\b|sodium hydroxide|caustic soda/)) cautions.push(lye)
  if (stages.some(({ kind }) => kind === "bake")) cautions.push(heat)
  if (names.length) cautions.push(allergens(names))
  return cautions
}

/** Lower case, and without the milks and butters that come from no animal. */
const plain = (ingredient: string) =>
  ingredient
    .normalize("NFKC")
    .toLowerCase()
    .replace(/\b(oat|rice|coconut|cocoa|shea|apple|body) ?(milk|butter|cream)\b/g, "$1")
    .replace(/\b(almond|hazelnut|cashew|peanut|nut|soya?) (milk|butter|cream|yogh?urt)\b/g, "$1")
    .replace(/\b(cream of tartar|eggplant)\b/g, "")
    .trim()

// FDA, "Handling flour safely: what you need to know" (5 December 2023): raw flour carries E. coli and Salmonella.
const raw: Caution = {
  title: "Do not taste raw",
  words:
    "Raw flour and dough can carry germs that only baking kills. Taste nothing before it is baked, and wash hands and tools.",
}

// FDA Food Code 3-501.19, time without cold (4 h in a food business); the 2 h, and 1 h above 90 °F (32 °C), are the advice
// of USDA FSIS to households. Rules of a place come first.
const leftWarm: Caution = {
  title: "Egg and dairy left warm",
  words:
    "Egg, milk, butter or cream does not keep at room temperature: the usual advice is 2 hours in all, 1 hour above 32 °C (90 °F). Keep long rests cold; where you bake for others, the local food code decides.",
}
const perishable =
  /\beggs?\b|\byolks?\b|\bmilk\b|buttermilk|\bbutter\b|\bcream\b|\bcustard\b|\bcheese\b|yogh?urt|\bwhey\b/

// INSPQ (Québec public health); UF/IFAS EDIS AA142; California Department of Public Health, on infant botulism.
const honey: Caution = {
  title: "Honey",
  words: "Not for infants under 12 months, not even baked: the spores that make them ill survive an oven.",
}

// 21 CFR 184.1763 lets lye onto food; goggles, gloves and the order of mixing are common practice, no published source.
const lye: Caution = {
  title: "Lye burns",
  words:
    "Wear goggles and gloves, keep others away, and stir lye into cold water, never water into lye. On skin or in an eye: rinse at once for 15 to 20 minutes and get help.",
}

// Common practice, no published source.
const heat: Caution = {
  title: "Steam and hot iron",
  words:
    "A lid or an oven door opened lets out steam that scalds; hot iron looks like cold iron. Dry, thick gloves, face away, and a place ready to set it down.",
}

// US: the nine of FALCPA and the FASTER Act; EU and UK: Annex II of Regulation (EU) No 1169/2011. Names cannot show
// everything, so the answer is never "none".
function allergens(names: string[]): Caution {
  const found = kinds.filter(([, pattern]) => names.some((name) => pattern.test(name))).map(([kind]) => kind)
  const rest = "Only the names of the ingredients were looked at: check every pack, also for traces."
  return {
    title: "Allergens",
    words: found.length
      ? `Contains or may contain: ${found.join(", ")}. ${rest}`
      : `None is plain from the names. ${rest}`,
  }
}

const otherGrain =
  "rye|barley|oats?|rice|buckwheat|maize|corn|millet|sorghum|teff|chickpea|gram|almond|coconut|soya?|lupin|tapioca|potato"
const kinds: [string, RegExp][] = [
  [
    "wheat (gluten)",
    new RegExp(
      String.raw`\b(wheat|spelt|einkorn|emmer|khorasan|durum|semolina|gluten|atta|maida|starter|levain|triticale)\b|^(?!.*\b(${otherGrain})\b).*\b(flour|wholemeal)\b`,
    ),
  ],
  ["rye, barley or oats (gluten)", /\b(rye|barley|malt|oats?|beer)\b/],
  ["egg", /\beggs?\b|\byolks?\b/],
  ["milk", /\bmilk\b|buttermilk|\bbutter\b|\bcream\b|\bcheese\b|yogh?urt|\bwhey\b|\bghee\b/],
  ["nuts", /almond|hazelnut|walnut|pecan|cashew|pistachio|macadamia|brazil nut|pine ?nut|\bnuts?\b|marzipan|praline/],
  ["peanut", /peanut/],
  ["sesame", /sesame|tahini/],
  ["soy", /\bsoya?\b|lecithin/],
  ["lupin", /lupin/],
  ["mustard", /mustard/],
]
