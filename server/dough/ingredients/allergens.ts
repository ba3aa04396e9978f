import { allergensNamed } from "./allergen-lists.ts"
import { findIngredient } from "./catalogue.ts"
import type { Ingredient } from "./ingredient.ts"
import { wordsOf } from "./words.ts"

/** An allergen and the ingredients it comes from; not `sure` when each of them carries it only perhaps. */
export type Found = { allergen: string; from: string[]; sure: boolean }

/**
 * The allergens of ingredients by name, on the list of the US and on that of the EU and the UK, each with what it comes
 * from. An ingredient that neither one's own list nor the catalogue knows is in `unknown` (to be checked on its pack),
 * never taken as free of anything; what its words give away counts as perhaps there.
 */
export function allergensOf(names: readonly string[], own: readonly Ingredient[] = []) {
  const typed = [...new Set(names.map((name) => name.trim()))].filter((name) => wordsOf(name).length)
  const looked = typed.map((name) => ({ name, ingredient: findIngredient(name, own) }))
  const carried = looked.map(({ name, ingredient }) => ({ name, allergens: ingredient?.allergens ?? given(name) }))
  return {
    us: foundOn("us", carried),
    eu: foundOn("eu", carried),
    unknown: looked.filter(({ ingredient }) => !ingredient).map(({ name }) => name),
  }
}

function foundOn(list: "us" | "eu", carried: { name: string; allergens: Ingredient["allergens"] }[]): Found[] {
  const found = new Map<string, Found>()
  const add = (allergen: string, name: string, sure: boolean) => {
    const known = found.get(allergen) ?? { allergen, from: [], sure: false }
    found.set(allergen, { allergen, from: [...known.from, name], sure: known.sure || sure })
  }
  for (const { name, allergens } of carried) {
    for (const allergen of allergens[list]) add(allergen, name, true)
    for (const allergen of allergens.may?.[list] ?? []) add(allergen, name, false)
  }
  return [...found.values()]
}

/** What the words of an unknown ingredient give away, all of it perhaps. */
function given(name: string): Ingredient["allergens"] {
  const freeOfWheat = /\b(gluten|wheat)[ -]free\b/i.test(name)
  const told = name
    .toLowerCase()
    .replace(/\p{L}+[ -]free\b/gu, "")
    .replace(likeOfAnimals, "$1")
    .replace(otherFlours, "$1")
  const words = wordsOf(told)
  const kinds = Object.entries(signs)
    .filter(([, sign]) => sign.split(" ").some((word) => words.includes(word)))
    .map(([kind]) => kind)
  const flour = words.some((word) => word === "flour" || word === "wholemeal") && !freeOfWheat
  return allergensNamed([...new Set([...(flour ? ["wheat"] : []), ...kinds])].map((kind) => `${kind}?`).join(" "))
}

const likeOfAnimals =
  /\b(vegan|plant|almond|hazelnut|cashew|peanut|nut|soya?|oat|rice|coconut|cocoa|shea|apple|body)(?:[ -]based)? ?(?:milk|butter|buttercream|cream|cheese|yogh?urt|eggs?)\b|\b(?:cream of tartar|eggs? (?:replacer|substitute))/g
const otherFlours =
  /\b(rye|barley|oat|rice|buckwheat|maize|corn|millet|sorghum|teff|quinoa|chickpea|gram|pea|lentil|bean|almond|coconut|soya?|lupin|tapioca|cassava|potato|chestnut|banana)(?: \p{L}+)? (?:flour|wholemeal)\b/gu

// Words that give an allergen away: common practice, no published source.
const signs: Record<string, string> = {
  wheat:
    "wheat spelt einkorn emmer farro khorasan kamut durum semolina triticale gluten atta maida bread breadcrumb starter levain sourdough poolish biga sponge preferment tangzhong yudane dough pasta noodle biscuit cookie cracker",
  rye: "rye triticale pumpernickel",
  barley: "barley malt malted beer ale stout",
  oats: "oat oatmeal muesli granola",
  egg: "egg yolk meringue mayonnaise",
  milk: "milk buttermilk butter buttercream cream creme cheese yogurt whey ghee custard kefir casein ricotta mozzarella cheddar parmesan mascarpone",
  nut: "nut praline marzipan nougat muesli granola",
  ...Object.fromEntries(
    ["almond", "hazelnut", "walnut", "cashew", "pecan", "pistachio", "macadamia", "heartnut"].map((nut) => [nut, nut]),
  ),
  brazil: "brazil",
  pine: "pine pinenut pignoli",
  peanut: "peanut groundnut satay",
  sesame: "sesame tahini halva zaatar",
  soy: "soy soybean tofu miso tamari lecithin edamame",
  lupin: "lupin lupine",
  mustard: "mustard",
  celery: "celery celeriac",
  sulphites: "wine sultana apricot sulphite sulfite",
  fish: "fish anchovy tuna salmon sardine",
  crustacean: "prawn shrimp crab lobster crayfish",
  mollusc: "mussel clam oyster squid octopus snail",
}
