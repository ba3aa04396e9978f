import type { DayPlan } from "../dough/day/day.ts"
import type { Ingredient } from "../dough/ingredients/ingredient.ts"
import type { Stage } from "../dough/schedule.ts"
import type { AllergenList } from "../schema.ts"
import { allergenWords } from "./allergen-words.ts"
import type { Caution } from "./caution.ts"
import { coldFood, heat, honey, lye, raw, sharing } from "./caution-words.ts"
import { warmDough } from "./warm-dough.ts"

export { allergensBrought } from "./allergen-words.ts"

type Lines = { ingredient: string }[]
/** What the cautions look at in a formula. */
type Told = {
  parts: { lines: Lines; goesInto?: string }[]
  finishing?: Lines
  variants?: { swaps: { lines: Lines }[] }[]
  stages: Stage[]
}
/** `own` are ingredients that only a class knows, `list` whose allergens count there, `plan` the day that is looked at. */
type Minding = { own?: readonly Ingredient[]; list?: AllergenList; plan?: DayPlan }

/**
 * What to mind with this formula, told from the names of its ingredients (with what goes on top, and with what its variants
 * take instead) and from its stages. Nothing is classed as safe or unsafe: that is for the rules of a place.
 */
export function cautionsFor(told: Told, { own = [], list = "both", plan }: Minding = {}): Caution[] {
  const { parts, finishing = [], variants = [], stages } = told
  const swapped = variants.flatMap(({ swaps }) => swaps).flatMap(({ lines }) => lines)
  const inDough = namesIn([...parts.flatMap(({ lines }) => lines), ...swapped])
  const all = [...inDough, ...namesIn(finishing)]
  if (all.length === 0) return stages.some(isBake) ? [heat] : []
  const names = all.map(plain)
  const has = (pattern: RegExp) => names.some((name) => pattern.test(name))
  const oilOnTop = namesIn(finishing).some((name) => /\boil\b/i.test(name))
  const onTop = new Set(oilOnTop ? namesIn(finishing).filter((name) => herbs.test(plain(name))) : [])
  const cold = all.filter((name) => coldFoods.test(plain(name)) || onTop.has(name))
  const fromTheFirst = parts.some(({ goesInto, lines }) => goesInto && namesIn(lines).map(plain).some(isPerishable))
  return [
    raw(has(egg)),
    ...(inDough.map(plain).some(isPerishable) ? [warmDough({ stages, fromTheFirst, ...(plan ? { plan } : {}) })] : []),
    ...(cold.length ? [coldFood([...new Set(cold.map((name) => name.toLowerCase()))])] : []),
    ...(has(/\bhoney\b/) ? [honey] : []),
    ...(has(/\blye\b|sodium hydroxide|caustic soda/) ? [lye] : []),
    ...(stages.some(isBake) ? [heat] : []),
    allergenWords(all, own, list),
    sharing(list),
  ]
}

const namesIn = (lines: Lines) => lines.map(({ ingredient }) => ingredient.trim()).filter(Boolean)
const isBake = ({ kind }: Stage) => kind === "bake"

/** Lower case, and without the milks and butters that come from no animal. */
const plain = (ingredient: string) =>
  ingredient
    .normalize("NFKC")
    .toLowerCase()
    .replace(/\b(oat|rice|coconut|cocoa|shea|apple|body) ?(milk|butter|cream)\b/g, "$1")
    .replace(/\b(almond|hazelnut|cashew|peanut|nut|soya?) (milk|butter|cream|yogh?urt)\b/g, "$1")
    .replace(/\b(cream of tartar|eggplant|egg replacer|cream crackers?)\b/g, "")
    .replace(
      /\bpotato (starch|flour|flakes)\b|\b(dried|powdered) (garlic|onion)\b|\b(garlic|onion|tomato) powder\b/g,
      "",
    )
    .trim()

const egg = /\beggs?\b|\byolks?\b/
/** What a dough may not stand warm with for long. Butter alone keeps at room temperature: USDA, from memory. */
const perishable = new RegExp(
  `${egg.source}|\\bmilk\\b|buttermilk|\\bcream\\b|\\bcustard\\b|\\bcheese\\b|\\bricotta\\b|yogh?urt|\\bwhey\\b`,
)
const isPerishable = (name: string) => perishable.test(name)

// Toppings and fillings that food businesses have to think of: after the definition of TCS food in FDA Food Code 1-201.10.
const coldFoods = new RegExp(
  [
    ...["custard", "cr[eè]me", "cream", "cheese", "ricotta", "mozzarella", "cheddar", "parmesan", "feta"],
    ...["meat", "ham", "bacon", "sausages?", "chorizo", "salami", "pepperoni", "pancetta", "chicken", "beef", "pork"],
    ...["lamb", "turkey", "tuna", "anchov(?:y|ies)", "potato(?:es)?", "onions?", "leeks?", "spinach", "mushrooms?"],
    ...["peppers", "tomato(?:es)?", "courgettes?", "aubergines?", "squash", "sweetcorn", "pumpkin(?! seed)"],
    ...["(?:roast(?:ed)?|cooked|fried|grilled) (?:vegetables?|veg|garlic|beetroot|carrots?)", "in oil"],
    "(?:garlic|herb|basil|chilli|rosemary) oil",
  ]
    .map((word) => `\\b${word}\\b`)
    .join("|"),
)
const herbs = /\bgarlic\b|\bbasil\b|\brosemary\b|\bthyme\b|\boregano\b|\bsage\b|\bparsley\b|\bdill\b|\bherbs?\b/
