import { allergensNamed } from "./allergen-lists.ts"
import type { Ingredient } from "./ingredient.ts"
import type { Named } from "./names.ts"
import { rowsOfSr28 } from "./sr28.ts"

/** Things the release has no row for, whose figures follow from a row it has, from nature or from another table. */
export const workedOut = (): Named[] => [
  ...ofFao(),
  {
    slug: "water",
    name: "water",
    synonyms: ["[tap/filtered/bottled/mineral/spring/still/sparkling/drinking/] water"],
    role: "liquid",
    countsAs: "water",
    per100g: { water: 100, fat: 0, sugar: 0, protein: 0, salt: 0 },
    portions: [
      { unit: "cup", g: 236.5882365 },
      { unit: "tbsp", g: 14.78676478125 },
      { unit: "tsp", g: 4.92892159375 },
    ],
    allergens: allergensNamed(""),
    source: "1 g/ml, its density at 4 °C",
  },
  {
    slug: "ice",
    name: "ice",
    synonyms: ["ice [cube/water/]", "iced water"],
    role: "liquid",
    countsAs: "water",
    per100g: { water: 100, fat: 0, sugar: 0, protein: 0, salt: 0 },
    // Three cubes weigh 64 g: WEIGHT table of the release, NDB 14429. A cup of ice depends on the lumps.
    portions: [{ unit: "cube", g: 64 / 3 }],
    allergens: allergensNamed(""),
    source: "the density of water; a cube as in USDA SR28, NDB 14429",
  },
  {
    ...as("salt", "crystals of every size, so no spoon is given"),
    slug: "salt-coarse",
    name: "coarse or flaky salt",
    synonyms: [
      "[coarse/flaky/flake/] sea salt",
      "sea salt flake",
      "[coarse/flaky/flake/kosher/rock/gray/pink/himalayan] salt",
      "salt flake",
    ],
    portions: [],
  },
  {
    ...as("yeast-active-dry", "the release has no instant yeast; a 7 g packet holds 2¼ teaspoons, common practice"),
    slug: "yeast-instant",
    name: "instant yeast",
    synonyms: [
      "instant [dried/baker/] yeast",
      "[fast action/fast acting/quick/easy blend/easy bake/rapid rise/quick rise/bread machine] [dried/] yeast",
      "osmotolerant [instant/] [dried/] yeast",
    ],
    portions: [
      { unit: "tsp", g: 7 / 2.25 },
      { unit: "packet", g: 7 },
    ],
  },
  {
    ...as("rye-grain", "milled whole, with nothing taken out; a cup of it was not weighed"),
    slug: "flour-rye-whole",
    name: "wholemeal rye flour",
    synonyms: [
      "[whole/wholemeal/wholegrain] rye flour",
      "[whole/wholemeal/wholegrain] rye",
      "rye meal",
      "pumpernickel flour",
    ],
    role: "flour",
    countsAs: "flour",
    portions: [],
  },
  {
    ...as("spelt-grain-uncooked", "milled whole, with nothing taken out; a cup of it was not weighed"),
    slug: "flour-spelt-whole",
    name: "wholemeal spelt flour",
    synonyms: ["[whole/wholemeal/wholegrain] spelt flour", "wholemeal spelt"],
    role: "flour",
    countsAs: "flour",
    portions: [],
  },
  {
    ...as("canola-oil", "a vegetable oil of no named kind, as canola, sunflower and soybean oil, which are alike"),
    slug: "oil-vegetable",
    name: "vegetable oil",
    synonyms: ["[vegetable/neutral/cooking/] oil"],
    portions: [
      { unit: "cup", g: 218 },
      { unit: "tsp", g: 4.5 },
    ],
    allergens: allergensNamed("soy?"),
  },
]

/**
 * Milks that the release has not, or not so. Source: FAO, Food composition tables for international use (1949), Table 2,
 * items 250, 254, 255 and 257; its carbohydrate is not told apart, so the sugar stays unknown.
 */
const ofFao = (): Named[] =>
  (
    [
      [
        "milk-3.5pct",
        "milk with 3.5 % fat",
        ["3.5% [fat/] [whole/] milk"],
        250,
        { water: 87.3, fat: 3.5, protein: 3.5 },
      ],
      [
        "milk-0.4pct",
        "milk with 0.4 % fat",
        ["[0.3%/0.4%/0.5%] [fat/] milk"],
        254,
        { water: 90.2, fat: 0.4, protein: 3.6 },
      ],
      ["cream-20pct", "single cream", ["[20%/light/pouring] cream"], 255, { water: 72.4, fat: 20, protein: 2.9 }],
      ["milk-sheep", "sheep's milk", ["[sheep/ewe] milk"], 257, { water: 82.3, fat: 6.5, protein: 5.8 }],
    ] as const
  ).map(([slug, name, synonyms, item, per100g]) => ({
    ...{ slug, name, synonyms: [...synonyms], role: "liquid", countsAs: "other", per100g, portions: [] },
    allergens: allergensNamed("milk"),
    source: `FAO 1949, item ${item}`,
  }))

/** The figures of a row of the release without its number, for a thing that is not quite that row. */
function as(slug: string, why: string): Omit<Ingredient, "slug" | "name"> {
  const { slug: _, ndb, ...row } = rowsOfSr28().find((each) => each.slug === slug)!
  return { ...row, source: `as USDA SR28, NDB ${ndb}: ${why}` }
}
