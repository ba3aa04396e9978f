import type { Range } from "../amounts.ts"
import { allergensNamed } from "./allergen-lists.ts"
import type { CountsAs } from "./counts-as.ts"
import type { Composition, Ingredient, Portion, Role } from "./ingredient.ts"

/** How the release is named to a reader. */
const sr28 = "USDA SR28"

/** What a baker uses of the release, without the name it goes by here: names.ts has those. */
export const rowsOfSr28 = (): Omit<Ingredient, "name">[] => table.trim().split("\n").map(readRow)

function readRow(line: string): Omit<Ingredient, "name"> {
  const [slug, ndb, role, countsAs, water, fat, sugar, protein, sodiumMg, portions, allergens] = line
    .split("|")
    .map((cell) => cell.trim()) as [
    string,
    string,
    Role,
    CountsAs,
    string,
    string,
    string,
    string,
    string,
    string,
    string,
  ]
  return {
    slug,
    ndb,
    role,
    countsAs,
    per100g: known({
      water: figure(water),
      fat: figure(fat),
      sugar: figure(sugar),
      protein: figure(protein),
      salt: saltOf(figure(sodiumMg)),
    }),
    portions: readPortions(portions),
    ...(packings[slug] && { packing: gPerMl(packings[slug]) }),
    allergens: allergensNamed(allergens),
    source: `${sr28}, NDB ${ndb}`,
  }
}

/** "-" is not published, and stays unknown. */
const figure = (cell: string) => (cell === "-" ? undefined : Number(cell))

/**
 * Salt from sodium in mg, both of 100 g: times 2.5, as a European label gives it, whatever the sodium came with (so
 * baking soda has "salt" too). Source: Regulation (EU) No 1169/2011, Annex I, point 11.
 */
const saltOf = (sodiumMg: number | undefined) => (sodiumMg === undefined ? undefined : (sodiumMg * 2.5) / 1000)

const known = (composition: Composition): Composition =>
  Object.fromEntries(Object.entries(composition).filter(([, g]) => g !== undefined))

/** "cup 137 dipped; egg 50 large" to portions; the usual one of each unit comes first. */
const readPortions = (cell: string): Portion[] =>
  cell
    .split(";")
    .map((words) => words.trim().match(/^(\D+?) ([\d.]+)(?: (.+))?$/))
    .filter((found) => found !== null)
    .map(([, unit, g, how]) => ({ unit: unit!, g: Number(g), ...(how && { how }) }))

/** A US cup, ml: 231 in³ to the gallon of sixteen cups. */
const cupMl = 236.5882365
const gPerMl = ({ low, high }: Range): Range => ({ low: low / cupMl, high: high / cupMl })

/**
 * Grams a cup where ways of filling it differ. Brown and powdered sugar and raisins: the two weights of the release.
 * White wheat flour: 137 dipped unsifted is the release's (NDB 20129 and 20084), 115 sifted and spooned is from USDA
 * Agriculture Handbook 456, from memory, not checked against the page.
 */
const whiteFlour = { low: 115, high: 137 }
const packings: Record<string, Range> = {
  "flour-bread-enriched": whiteFlour,
  "flour-bread-unenriched": whiteFlour,
  "flour-all-purpose-bleached": whiteFlour,
  "flour-all-purpose-unbleached": whiteFlour,
  "flour-all-purpose-unenriched": whiteFlour,
  "flour-self-rising": whiteFlour,
  "sugar-brown": { low: 145, high: 220 },
  "sugar-powdered": { low: 100, high: 120 },
  raisins: { low: 145, high: 165 },
}

// USDA National Nutrient Database for Standard Reference, Release 28 (September 2015, revised May 2016), Agricultural
// Research Service; public domain. Tables FOOD_DES, NUT_DATA and WEIGHT, read from the copy in the public repository
// masilver99/SR28-PSQL and compared with Release 26 in MunkiPhD/ndb_data: cream, sour cream, the cheeses and the sugars
// of maple syrup changed between the two, so the release matters. Per 100 g without shell, hull or peel.
// Weights given there for half a cup, ten hazelnuts, fifty raisins or one fluid ounce (beer) are told here for one cup or
// one piece. Allergens: allergen-lists.ts; "?" is "only in some packs". Margarine with milk in it is common practice.
//
// slug | NDB number | role | counts as | water | fat | sugars | protein | sodium, mg | portions, g | allergens
const table = `
milk-whole-3.25              | 01077 | liquid    | other  | 88.13 |  3.25 |  5.05 |  3.15 |    43 | cup 244; tbsp 15 | milk
milk-2pct                    | 01079 | liquid    | other  | 89.21 |  1.98 |  5.06 |   3.3 |    47 | cup 244 | milk
milk-skim                    | 01085 | liquid    | other  | 90.84 |  0.08 |  5.09 |  3.37 |    42 | cup 245 | milk
milk-1pct                    | 01082 | liquid    | other  | 89.92 |  0.97 |   5.2 |  3.37 |    44 | cup 244 | milk
buttermilk-lowfat            | 01088 | liquid    | other  | 90.13 |  0.88 |  4.79 |  3.31 |   190 | cup 245 | milk
buttermilk-whole             | 01230 | liquid    | other  | 87.91 |  3.31 |  4.88 |  3.21 |   105 | cup 245 | milk
cream-heavy                  | 01053 | liquid    | other  | 57.81 | 36.08 |  2.92 |  2.84 |    27 | cup 238 fluid; cup 120 whipped; tbsp 15 | milk
cream-half-and-half          | 01049 | liquid    | other  | 81.24 | 10.39 |  4.13 |  3.13 |    61 | cup 242; tbsp 15 | milk
sour-cream                   | 01056 | liquid    | other  | 73.07 | 19.35 |  3.41 |  2.44 |    31 | cup 230; tbsp 12 | milk
butter-unsalted              | 01145 | fat       | other  | 17.94 | 81.11 |  0.06 |  0.85 |    11 | cup 227; tbsp 14.2; stick 113; pat 5 | milk
butter-salted                | 01001 | fat       | other  | 15.87 | 81.11 |  0.06 |  0.85 |   643 | cup 227; tbsp 14.2; stick 113; pat 5 | milk
butter-oil-ghee              | 01003 | fat       | other  |  0.24 | 99.48 |     0 |  0.28 |     2 | cup 205; tbsp 12.8 | milk
egg-whole                    | 01123 | egg       | other  | 76.15 |  9.51 |  0.37 | 12.56 |   142 | egg 50 large; egg 38 small; egg 44 medium; egg 56 extra large; egg 63 jumbo; cup 243 | egg
egg-white                    | 01124 | egg       | other  | 87.57 |  0.17 |  0.71 |  10.9 |   166 | white 33 of a large egg; cup 243 | egg
egg-yolk                     | 01125 | egg       | other  | 52.31 | 26.54 |  0.56 | 15.86 |    48 | yolk 17 of a large egg; cup 243 | egg
honey                        | 19296 | sugar     | other  |  17.1 |     0 | 82.12 |   0.3 |     4 | cup 339; tbsp 21; packet 14 |
molasses                     | 19304 | sugar     | other  | 21.87 |   0.1 | 74.72 |     0 |    37 | cup 337; tbsp 20 |
maple-syrup                  | 19353 | sugar     | other  | 32.39 |  0.06 | 60.46 |  0.04 |    12 | cup 315; tbsp 20 |
malt-syrup                   | 19352 | sugar     | other  |  21.1 |     0 |  71.3 |   6.2 |    35 | cup 332; tbsp 21 | barley
corn-syrup-light             | 19350 | sugar     | other  | 22.81 |   0.2 | 76.77 |     0 |    62 | cup 341; tbsp 22 |
olive-oil                    | 04053 | fat       | other  |     0 |   100 |     0 |     0 |     2 | cup 216; tbsp 13.5; tsp 4.5 |
canola-oil                   | 04582 | fat       | other  |     0 |   100 |     0 |     0 |     0 | cup 218; tbsp 14; tsp 4.5 |
sunflower-oil                | 04506 | fat       | other  |     0 |   100 |     0 |     0 |     0 | cup 218; tbsp 13.6; tsp 4.5 |
soybean-oil                  | 04044 | fat       | other  |     0 |   100 |     0 |     0 |     0 | cup 218; tbsp 13.6; tsp 4.5 | soy?
coconut-oil                  | 04047 | fat       | other  |  0.03 | 99.06 |     0 |     0 |     0 | cup 218; tbsp 13.6; tsp 4.5 |
lard                         | 04002 | fat       | other  |     0 |   100 |     0 |     0 |     0 | cup 205; tbsp 12.8 |
shortening                   | 04031 | fat       | other  |     0 |   100 |     0 |     0 |     0 | cup 205; tbsp 12.8 | soy?
margarine-80-stick           | 04610 | fat       | other  | 16.52 | 80.71 |     0 |  0.16 |   751 | cup 227; tbsp 14; tsp 4.7; stick 113; pat 5 | soy? milk?
sugar-granulated             | 19335 | sugar     | other  |  0.02 |     0 |  99.8 |     0 |     1 | cup 200; tsp 4.2; packet 2.8; cube 2.3 |
sugar-brown                  | 19334 | sugar     | other  |  1.34 |     0 | 97.02 |  0.12 |    28 | cup 220 packed; cup 145 unpacked; tsp 4.6 packed; tsp 3 unpacked |
sugar-powdered               | 19336 | sugar     | other  |  0.23 |     0 | 97.81 |     0 |     2 | cup 120 unsifted; cup 100 sifted; tbsp 8 unsifted; tsp 2.5 |
flour-bread-enriched         | 20083 | flour     | flour  | 13.36 |  1.66 |  0.31 | 11.98 |     2 | cup 137 | wheat
flour-bread-unenriched       | 20129 | flour     | flour  | 13.36 |  1.66 |  0.31 | 11.98 |     2 | cup 137 dipped, unsifted | wheat
flour-all-purpose-bleached   | 20081 | flour     | flour  | 11.92 |  0.98 |  0.27 | 10.33 |     2 | cup 125 | wheat
flour-all-purpose-unbleached | 20581 | flour     | flour  | 11.92 |  0.98 |  0.27 | 10.33 |     2 | cup 125 | wheat
flour-all-purpose-unenriched | 20481 | flour     | flour  | 11.92 |  0.98 |  0.27 | 10.33 |     2 | cup 125 | wheat
flour-whole-wheat            | 20080 | flour     | flour  | 10.74 |   2.5 |  0.41 | 13.21 |     2 | cup 120 | wheat
flour-whole-wheat-soft       | 20649 | flour     | flour  | 12.42 |  1.95 |  1.02 |  9.61 |     3 |  | wheat
flour-cake                   | 20084 | flour     | flour  | 12.51 |  0.86 |  0.31 |   8.2 |     2 | cup 137 dipped, unsifted | wheat
flour-self-rising            | 20082 | flour     | flour  | 10.59 |  0.97 |  0.22 |  9.89 |  1193 | cup 125 | wheat
flour-rye-dark               | 20063 | flour     | flour  | 10.75 |  2.22 |  2.31 | 15.91 |     2 | cup 128 | rye
flour-rye-medium             | 20064 | flour     | flour  | 10.97 |  1.52 |   1.1 | 10.88 |     2 | cup 102 | rye
flour-rye-light              | 20065 | flour     | flour  |  11.4 |  1.33 |  0.93 |  9.82 |     2 | cup 102 | rye
rye-grain                    | 20062 | inclusion | other  |  10.6 |  1.63 |  0.98 | 10.34 |     2 | cup 169 | rye
spelt-grain-uncooked         | 20140 | inclusion | other  | 11.02 |  2.43 |  6.82 | 14.57 |     8 | cup 174 | wheat
semolina-unenriched          | 20466 | flour     | flour  | 12.67 |  1.05 |     - | 12.68 |     1 | cup 167 | wheat
flour-buckwheat              | 20011 | flour     | flour  | 11.15 |   3.1 |   2.6 | 12.62 |    11 | cup 120 |
flour-rice-white             | 20061 | flour     | flour  | 11.89 |  1.42 |  0.12 |  5.95 |     0 | cup 158 |
flour-corn-whole             | 20016 | flour     | flour  | 10.91 |  3.86 |  0.64 |  6.93 |     5 | cup 117 |
cornmeal-whole-yellow        | 20020 | flour     | flour  | 10.26 |  3.59 |  0.64 |  8.12 |    35 | cup 122 |
flour-barley                 | 20130 | flour     | flour  | 12.11 |   1.6 |   0.8 |  10.5 |     4 | cup 148 | barley
flour-oat                    | 20132 | flour     | flour  |  8.55 |  9.12 |   0.8 | 14.66 |    19 | cup 104 | oats
oats                         | 20038 | inclusion | other  |  8.22 |   6.9 |     - | 16.89 |     2 | cup 156 | oats
oats-rolled-dry              | 08120 | inclusion | other  | 10.84 |  6.52 |  0.99 | 13.15 |     6 | cup 81 | oats
wheat-bran                   | 20077 | inclusion | other  |  9.89 |  4.25 |  0.41 | 15.55 |     2 | cup 58 | wheat
wheat-germ                   | 20078 | inclusion | other  | 11.12 |  9.72 |     - | 23.15 |    12 | cup 115 | wheat
vital-wheat-gluten           | 48052 | inclusion | other  |   8.2 |  1.85 |     0 | 75.16 |    29 |  | wheat
potato-raw                   | 11352 | inclusion | other  | 79.25 |  0.09 |  0.82 |  2.05 |     6 | cup 150 diced; potato 213 medium; potato 369 large; potato 170 small |
potato-boiled-in-skin-flesh  | 11365 | inclusion | other  | 76.98 |   0.1 |  0.91 |  1.87 |     4 | cup 156; potato 136 6 cm across |
potato-boiled-without-skin   | 11367 | inclusion | other  | 77.46 |   0.1 |  0.89 |  1.71 |     5 | cup 156; potato 167 medium; potato 300 large; potato 125 small |
potato-flakes-dry            | 11378 | inclusion | other  |  6.58 |  0.41 |  3.36 |  8.34 |    77 | cup 60 |
potato-flour                 | 11413 | inclusion | other  |  6.52 |  0.34 |  3.52 |   6.9 |    55 | cup 160 |
yogurt-whole                 | 01116 | liquid    | other  |  87.9 |  3.25 |  4.66 |  3.47 |    46 | cup 245; container 170 6 oz; container 227 8 oz | milk
yogurt-lowfat                | 01117 | liquid    | other  | 85.07 |  1.55 |  7.04 |  5.25 |    70 | cup 245; container 170 6 oz; container 227 8 oz | milk
yogurt-skim                  | 01118 | liquid    | other  | 85.23 |  0.18 |  7.68 |  5.73 |    77 | cup 245; container 170 6 oz; container 227 8 oz | milk
yogurt-greek-nonfat          | 01256 | liquid    | other  |  85.1 |  0.39 |  3.24 | 10.19 |    36 | container 170 | milk
yogurt-greek-whole           | 01293 | liquid    | other  |  81.3 |     5 |     4 |     9 |    35 |  | milk
water-tap                    | 14411 | liquid    | water  |  99.9 |     0 |     0 |     0 |     4 | cup 237 |
water-municipal              | 14429 | liquid    | water  |  99.9 |     0 |     0 |     0 |     3 | cup 237 |
salt                         | 02047 | salt      | salt   |   0.2 |     0 |     0 |     0 | 38758 | tsp 6; tbsp 18; cup 292; dash 0.4 |
yeast-active-dry             | 18375 | leaven    | leaven |  5.08 |  7.61 |     0 | 40.44 |    51 | tsp 4; tbsp 12; packet 7.2 |
yeast-compressed             | 18374 | leaven    | leaven |    69 |   1.9 |     0 |   8.4 |    30 | cake 17 0.6 oz |
baking-powder                | 18369 | leaven    | other  |     5 |     0 |     0 |     0 | 10600 | tsp 4.6 |
baking-soda                  | 18372 | leaven    | other  |   0.2 |     0 |     0 |     0 | 27360 | tsp 4.6 |
milk-dry-nonfat              | 01091 | inclusion | other  |  3.16 |  0.77 | 51.98 | 36.16 |   535 | cup 120 | milk
milk-dry-nonfat-instant      | 01092 | inclusion | other  |  3.96 |  0.72 | 52.19 |  35.1 |   549 | cup 68; envelope 91 | milk
milk-dry-whole               | 01090 | inclusion | other  |  2.47 | 26.71 | 38.42 | 26.32 |   371 | cup 128 | milk
milk-evaporated              | 01096 | liquid    | other  | 74.04 |  7.56 | 10.04 |  6.81 |   106 | cup 252; can 369 13 oz | milk
milk-condensed-sweetened     | 01095 | liquid    | other  | 27.16 |   8.7 |  54.4 |  7.91 |   127 | cup 306 | milk
buttermilk-dried             | 01094 | inclusion | other  |  2.97 |  5.78 |    49 |  34.3 |   517 | cup 120; tbsp 6.5 | milk
milk-goat                    | 01106 | liquid    | other  | 87.03 |  4.14 |  4.45 |  3.56 |    50 | cup 244 | milk
sesame-seed                  | 12023 | inclusion | other  |  4.69 | 49.67 |   0.3 | 17.73 |    11 | cup 144; tbsp 9 | sesame
sunflower-seed               | 12036 | inclusion | other  |  4.73 | 51.46 |  2.62 | 20.78 |     9 | cup 140 |
flaxseed                     | 12220 | inclusion | other  |  6.96 | 42.16 |  1.55 | 18.29 |    30 | cup 168 whole; tbsp 10.3 whole; tbsp 7 ground; tsp 3.4 whole; tsp 2.5 ground |
pumpkin-seed                 | 12014 | inclusion | other  |  5.23 | 49.05 |   1.4 | 30.23 |     7 | cup 129 |
chia-seed                    | 12006 | inclusion | other  |   5.8 | 30.74 |     - | 16.54 |    16 |  |
walnuts                      | 12155 | inclusion | other  |  4.07 | 65.21 |  2.61 | 15.23 |     2 | cup 117 chopped; cup 100 halves; cup 120 pieces; cup 80 ground | walnut
almonds                      | 12061 | inclusion | other  |  4.41 | 49.93 |  4.35 | 21.15 |     1 | cup 143 whole; cup 92 sliced; cup 108 slivered; cup 95 ground; almond 1.2 | almond
pecans                       | 12142 | inclusion | other  |  3.52 | 71.97 |  3.97 |  9.17 |     0 | cup 109 chopped; cup 99 halves | pecan
hazelnuts                    | 12120 | inclusion | other  |  5.31 | 60.75 |  4.34 | 14.95 |     0 | cup 115 chopped; cup 135 whole; cup 75 ground; hazelnut 1.4 | hazelnut
raisins                      | 09298 | inclusion | other  | 15.43 |  0.46 | 59.19 |  3.07 |    11 | cup 145 not packed; cup 165 packed; raisin 0.52 | sulphites?
cocoa                        | 19165 | inclusion | other  |     3 |  13.7 |  1.75 |  19.6 |    21 | cup 86; tbsp 5.4 |
ricotta-whole                | 01036 | inclusion | other  |  71.7 | 12.98 |  0.27 | 11.26 |    84 | cup 246 | milk
cream-cheese                 | 01017 | inclusion | other  | 52.62 | 34.44 |  3.76 |  6.15 |   314 | cup 232; tbsp 14.5; tbsp 10 whipped; package 85 3 oz | milk
cheddar                      | 01009 | inclusion | other  | 37.02 | 33.31 |  0.48 | 22.87 |   653 | cup 113 shredded; cup 132 diced; cup 244 melted; slice 28 | milk
parmesan-grated              | 01032 | inclusion | other  | 22.65 | 27.84 |  0.07 | 28.42 |  1804 | cup 100; tbsp 5 | milk
pumpkin-raw                  | 11422 | inclusion | other  |  91.6 |   0.1 |  2.76 |     1 |     1 | cup 116 cubes |
pumpkin-canned               | 11424 | inclusion | other  | 89.97 |  0.28 |   3.3 |   1.1 |     5 | cup 245 |
sweet-potato-raw             | 11507 | inclusion | other  | 77.28 |  0.05 |  4.18 |  1.57 |    55 | cup 133 cubes; sweet potato 130 13 cm long |
banana-raw                   | 09040 | inclusion | other  | 74.91 |  0.33 | 12.23 |  1.09 |     1 | cup 225 mashed; cup 150 sliced; banana 118 medium; banana 101 small; banana 136 large |
beer-regular                 | 14003 | liquid    | other  | 91.96 |     0 |     0 |  0.46 |     4 | can 356; cup 237.6 8 fl oz | barley wheat?
soymilk                      | 16120 | liquid    | other  | 88.05 |  1.75 |  3.99 |  3.27 |    51 | cup 243 | soy
vinegar-cider                | 02048 | liquid    | other  | 93.81 |     0 |   0.4 |     0 |     5 | cup 239; tbsp 14.9; tsp 5 |
`
