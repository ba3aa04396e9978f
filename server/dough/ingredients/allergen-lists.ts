import type { Ingredient } from "./ingredient.ts"

/**
 * The nine major food allergens of US law. Source: Food Allergen Labeling and Consumer Protection Act of 2004, and the
 * FASTER Act of 2021 for sesame.
 */
export const usNine = [
  "milk",
  "egg",
  "fish",
  "crustacean shellfish",
  "tree nuts",
  "peanut",
  "wheat",
  "soy",
  "sesame",
] as const

/** The fourteen of the EU, and of the UK. Source: Regulation (EU) No 1169/2011, Annex II. */
export const euFourteen = [
  "cereals containing gluten",
  "crustaceans",
  "eggs",
  "fish",
  "peanuts",
  "soybeans",
  "milk",
  "nuts",
  "celery",
  "mustard",
  "sesame",
  "sulphites",
  "lupin",
  "molluscs",
] as const

/**
 * What the US calls tree nuts since January 2025; coconut and chestnut are no longer among them. Source: FDA, Questions
 * and Answers Regarding Food Allergens, Edition 5 (6 January 2025), Table 1, seen in a reprint.
 */
export const usTreeNuts = [
  "almond",
  "black walnut",
  "Brazil nut",
  "California walnut",
  "cashew",
  "hazelnut",
  "heartnut",
  "macadamia",
  "pecan",
  "pine nut",
  "pistachio",
  "walnut",
] as const

/** What the EU and the UK call nuts. Source: Regulation (EU) No 1169/2011, Annex II, item 8. */
export const euNuts = [
  "almond",
  "hazelnut",
  "walnut",
  "cashew",
  "pecan",
  "Brazil nut",
  "pistachio",
  "macadamia",
] as const

type Entry = { us?: string; eu?: string }

const gluten = (cereal: string) => `cereals containing gluten (${cereal})`
const nut = (kind: string, inTheEu: boolean): Entry => ({
  us: `tree nuts (${kind})`,
  ...(inTheEu && { eu: `nuts (${kind})` }),
})

/** What each of the words used in our tables is called on the two lists, and on which of them it is. */
const entries: Record<string, Entry> = {
  // Wheat is every Triticum: spelt, khorasan, einkorn, emmer, durum. Rye, barley and oats are on the European list alone.
  wheat: { us: "wheat", eu: gluten("wheat") },
  rye: { eu: gluten("rye") },
  barley: { eu: gluten("barley") },
  oats: { eu: gluten("oats") },
  milk: { us: "milk", eu: "milk" },
  egg: { us: "egg", eu: "eggs" },
  fish: { us: "fish", eu: "fish" },
  crustacean: { us: "crustacean shellfish", eu: "crustaceans" },
  mollusc: { eu: "molluscs" },
  peanut: { us: "peanut", eu: "peanuts" },
  soy: { us: "soy", eu: "soybeans" },
  sesame: { us: "sesame", eu: "sesame" },
  lupin: { eu: "lupin" },
  mustard: { eu: "mustard" },
  celery: { eu: "celery" },
  // Above 10 mg of SO₂ in a kilogram or litre.
  sulphites: { eu: "sulphites" },
  nut: { us: "tree nuts", eu: "nuts" },
  almond: nut("almond", true),
  hazelnut: nut("hazelnut", true),
  walnut: nut("walnut", true),
  cashew: nut("cashew", true),
  pecan: nut("pecan", true),
  brazil: nut("Brazil nut", true),
  pistachio: nut("pistachio", true),
  macadamia: nut("macadamia", true),
  pine: nut("pine nut", false),
  heartnut: nut("heartnut", false),
  blackwalnut: nut("black walnut", false),
}

/** "rye wheat?" to what both lists call them; with "?" it is only in some packs. Throws RangeError for another word. */
export function allergensNamed(words: string): Ingredient["allergens"] {
  const all = words.split(/\s+/).filter(Boolean)
  const some = all.filter((word) => word.endsWith("?")).map((word) => word.slice(0, -1))
  const sure = onBothLists(all.filter((word) => !word.endsWith("?")))
  return some.length ? { ...sure, may: onBothLists(some) } : sure
}

function onBothLists(words: string[]) {
  const found = words.map((word) => {
    const entry = entries[word]
    if (!entry) throw new RangeError(`No allergen is called ${word}`)
    return entry
  })
  const on = (list: "us" | "eu") => found.map((entry) => entry[list]).filter((name) => name !== undefined)
  return { us: on("us"), eu: on("eu") }
}
