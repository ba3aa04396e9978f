import { allergensOf, type Found } from "../dough/ingredients/allergens.ts"
import type { Ingredient } from "../dough/ingredients/ingredient.ts"

export type Caution = { title: string; words: string }

type Lines = { ingredient: string }[]
/** What the cautions look at in a formula. */
type Told = {
  parts: { lines: Lines }[]
  finishing?: Lines
  variants?: { swaps: { lines: Lines }[] }[]
  stages: { kind: string }[]
}

/**
 * What to mind with this formula, told from the names of its ingredients (with what goes on top, and with what its variants
 * take instead) and the kinds of its stages. `own` are ingredients that only a class knows.
 */
export function cautionsFor(
  { parts, finishing = [], variants = [], stages }: Told,
  own: readonly Ingredient[] = [],
): Caution[] {
  const swapped = variants.flatMap(({ swaps }) => swaps)
  const lines = [...[...parts, ...swapped].flatMap((each) => each.lines), ...finishing]
  const typed = lines.map(({ ingredient }) => ingredient.trim()).filter(Boolean)
  const names = typed.map(plain)
  const has = (pattern: RegExp) => names.some((name) => pattern.test(name))
  const cautions: Caution[] = []
  if (names.length) cautions.push(raw)
  if (has(perishable)) cautions.push(leftWarm)
  if (has(/\bhoney\b/)) cautions.push(honey)
  if (has(/\blye\b|sodium hydroxide|caustic soda/)) cautions.push(lye)
  if (stages.some(({ kind }) => kind === "bake")) cautions.push(heat)
  if (names.length) cautions.push(allergens(typed, own))
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

// Names cannot show everything, so the answer is never "none".
function allergens(names: string[], own: readonly Ingredient[]): Caution {
  const { us, eu, unknown } = allergensOf(names, own)
  const unread = unknown.length ? ` Not known here: ${listed(unknown)}.` : ""
  const rest = "Only the names of the ingredients were looked at: check every pack, also for traces."
  return {
    title: "Allergens",
    words: `On the US list: ${allOf(us)}. On the EU and UK list: ${allOf(eu)}.${unread} ${rest}`,
  }
}

/**
 * What one baker's own ingredients bring onto the lists of allergens that the formula did not have there, and those whose
 * allergens nobody here knows; null when there is nothing to say.
 */
export function allergensBrought(
  { parts, finishing = [] }: Pick<Told, "parts" | "finishing">,
  names: readonly string[],
  own: readonly Ingredient[] = [],
): Caution | null {
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
const listed = (names: string[]) => new Intl.ListFormat("en-GB", { type: "conjunction" }).format(names)
