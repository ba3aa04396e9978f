import { describe, expect, test } from "vitest"
import { allIngredients, allNames, countsAsOf, findIngredient } from "../../../server/dough/ingredients/catalogue.ts"
import { broughtBy, type Ingredient } from "../../../server/dough/ingredients/ingredient.ts"

test("has the 103 rows of the release and more, each slug, number and name once", () => {
  const ndbs = allIngredients.flatMap(({ ndb }) => ndb ?? [])
  expect(ndbs).toHaveLength(103)
  expect(new Set(ndbs).size).toBe(103)
  expect(new Set(allIngredients.map(({ slug }) => slug)).size).toBe(allIngredients.length)
  expect(new Set(allIngredients.map(({ name }) => name)).size).toBe(allIngredients.length)
})

test("every name and synonym leads to its own ingredient, in the plural, in capitals and with idle words too", () => {
  expect(allNames.length).toBeGreaterThan(1000)
  for (const { name, slug } of allNames) {
    expect(findIngredient(name)?.slug, name).toBe(slug)
    expect(findIngredient(name.toUpperCase())?.slug, name).toBe(slug)
    expect(findIngredient(`Organic ${name}, at room temperature (about)`)?.slug, name).toBe(slug)
  }
})

describe("is found by", () => {
  const cases: [slug: string, names: string[]][] = [
    ["flour-bread-enriched", ["strong white bread flour", "Bread flour", "flour (strong white)", "strong flour"]],
    ["flour-all-purpose-unbleached", ["AP", "all-purpose flour", "plain flour", "flour", "white flour for the levain"]],
    ["flour-whole-wheat", ["wholemeal", "whole wheat", "wholewheat flour", "stone-ground whole-wheat flour"]],
    ["flour-rye-dark", ["rye flour, dark", "dark rye"]],
    ["flour-rye-whole", ["whole rye flour", "wholegrain rye", "whole-grain rye flour"]],
    ["rye-grain", ["rye berries", "whole rye grains"]],
    ["milk-whole-3.25", ["warm whole milk", "milk", "Milk, whole", "cow's milk"]],
    ["milk-2pct", ["2 % milk", "semi-skimmed milk"]],
    [
      "butter-unsalted",
      ["unsalted butter, soft", "butter", "cold unsalted butter, cut into cubes", "butter, melted and cooled"],
    ],
    ["butter-salted", ["salted butter", "melted salted butter"]],
    ["buttermilk-lowfat", ["buttermilk"]],
    ["sugar-granulated", ["caster sugar", "sugar", "granulated sugar"]],
    ["sugar-powdered", ["icing sugar", "confectioners' sugar"]],
    ["olive-oil", ["extra virgin olive oil", "olive oil", "EVOO"]],
    ["yeast-instant", ["instant yeast", "fast-action dried yeast", "instant dry yeast"]],
    ["yeast-active-dry", ["dried yeast", "active dry yeast", "yeast"]],
    ["yeast-compressed", ["fresh yeast", "fresh yeast, crumbled", "compressed yeast"]],
    ["salt", ["salt", "fine sea salt", "salt, to taste"]],
    ["salt-coarse", ["sea salt", "flaky salt", "kosher salt", "sea salt flakes"]],
    ["egg-whole", ["eggs", "large free-range eggs, at room temperature", "beaten egg"]],
    ["egg-white", ["egg whites", "white of an egg"]],
    ["water", ["warm water", "water", "tap water", "lukewarm water plus more if needed"]],
    ["water", ["boiling water", "water at 32 °C", "water (30-32°C)", "water, 90F", "bassinage water"]],
    ["starter", ["active sourdough starter (100% hydration)"]],
    ["flour-bread-enriched", ["Strong bread flour (13% protein)", "bread flour, freshly milled"]],
    ["walnuts", ["chopped walnuts", "walnut halves, toasted"]],
    ["almonds", ["ground almonds", "almond flour"]],
    ["yogurt-whole", ["natural yoghurt", "plain yogurt"]],
    ["cream-other", ["crème fraîche", "cream", "double cream"]],
    ["milk-3.5pct", ["whole milk (3.5 %)", "whole milk, 3.5 % fat"]],
    ["starter", ["ripe starter", "levain", "active sourdough starter"]],
    ["starter-rye", ["rye sourdough"]],
  ]
  test.each(cases.flatMap(([slug, names]) => names.map((name) => [slug, name] as const)))("%s: %s", (slug, name) => {
    expect(findIngredient(name)?.slug).toBe(slug)
  })
})

describe("a thing that only sounds alike is itself or nothing", () => {
  test.each([
    ["almond milk", "almond-other"],
    ["oat milk", "oat-other"],
    ["coconut milk", "coconut"],
    ["soy milk", "soymilk"],
    ["butternut squash", "vegetable"],
    ["butternut", "vegetable"],
    ["peanut butter", "peanuts"],
    ["cocoa butter", "oil-other"],
    ["vegan butter", "butter-plant"],
    ["browned butter", "butter-brown"],
    ["buckwheat flour", "flour-buckwheat"],
    ["rice flour", "flour-rice-white"],
    ["corn flour", "flour-corn"],
    ["cornflour", "flour-corn"],
    ["corn starch", "starch"],
    ["coconut flour", "coconut"],
    ["egg noodles", "egg-noodles"],
    ["eggplant", "vegetable"],
    ["cream of tartar", "leaven-other"],
    ["malt vinegar", "vinegar-malt"],
    ["cream cheese", "cream-cheese"],
    ["nutmeg", "herb-and-spice"],
    ["rose water", "water-of-something"],
    ["celery salt", "celery"],
    ["nutritional yeast", "yeast-not-for-dough"],
    ["yeast extract", "yeast-extract"],
    ["spelt flour", "flour-spelt"],
    ["very strong bread flour", "flour-wheat-other"],
    ["extra strong bread flour", "flour-wheat-other"],
    ["mashed potato", "potato-mashed"],
    ["pasta water", "pasta-water"],
    ["potato starch", "starch"],
    ["sesame oil", "sesame-other"],
    ["brown rice flour", "flour-rice-brown"],
    ["gluten-free flour", undefined],
    ["honey mustard", undefined],
    ["butter or oil", undefined],
    ["milk and water", undefined],
    ["cocoa and butter", undefined],
    ["salt and pepper", undefined],
    ["sugar-free syrup", undefined],
    ["butterscotch", undefined],
    ["flour tortillas", undefined],
    ["egg replacer", undefined],
    ["oat cream", undefined],
    ["buttercream", undefined],
    ["seasoned salt", undefined],
    ["type 997 flour", undefined],
    ["water chestnuts", undefined],
    ["gingerbread spice", undefined],
    ["the usual", undefined],
    ["warm", undefined],
    ["", undefined],
  ])("%j: %s", (name, slug) => expect(findIngredient(name)?.slug).toBe(slug))
})

const oursOf = (name: string): Ingredient => ({
  slug: "own-7",
  name,
  role: "flour",
  countsAs: "flour",
  per100g: { water: 14 },
  portions: [],
  allergens: { us: [], eu: [] },
  source: "this class",
})

test("one's own list comes first, and the catalogue is still there", () => {
  const own = [oursOf("Mill Lane flour"), oursOf("wholemeal")]
  expect(findIngredient("mill lane flours, sifted", own)?.slug).toBe("own-7")
  expect(findIngredient("Wholemeal", own)?.slug).toBe("own-7")
  expect(findIngredient("honey", own)?.slug).toBe("honey")
  expect(findIngredient("mill lane flour")).toBeUndefined()
})

test("counts as what the catalogue says, and where it is silent as its name suggests", () => {
  expect(countsAsOf("emmer flour")).toBe("flour")
  expect(countsAsOf("flour for dusting")).toBe("other")
  expect(countsAsOf("type 997 flour")).toBe("flour")
  expect(countsAsOf("egg replacer")).toBe("other")
  expect(countsAsOf("Mill Lane", [oursOf("mill lane")])).toBe("flour")
})

test("nothing brings more than its own mass, and what is not published is missing", () => {
  for (const { name, per100g } of allIngredients) {
    const { salt: _, ...rest } = per100g
    const sum = Object.values(rest).reduce((total, g) => total + g, 0)
    expect(sum, name).toBeLessThanOrEqual(100.1)
  }
  expect(findIngredient("semolina")!.per100g).not.toHaveProperty("sugar")
})

test("brings its share of every 100 g", () => {
  expect(broughtBy(findIngredient("whole milk")!, 200)).toEqual({
    water: 176.26,
    fat: 6.5,
    sugar: 10.1,
    protein: 6.3,
    salt: 0.215,
  })
  expect(broughtBy(findIngredient("pine nuts")!, 50)).toEqual({})
  expect(() => broughtBy(findIngredient("salt")!, -1)).toThrow(RangeError)
})
