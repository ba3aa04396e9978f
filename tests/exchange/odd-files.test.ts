import { expect, test } from "vitest"
import { bringIn, mostPasted } from "../../server/exchange/bring-in.ts"
import { plainText } from "../../server/exchange/plain.ts"
import { dataBlocksIn } from "../../server/exchange/recipes-in.ts"

const read = (text: string, which = 0) => bringIn(text, { measures: "us", which })
function brought(text: string, which = 0) {
  const result = read(text, which)
  if ("problem" in result) throw new Error(result.problem)
  return result
}
const problem = (text: string) => {
  const result = read(text)
  return "problem" in result ? result.problem : undefined
}
const recipe = { "@type": "Recipe", name: "Plain loaf", recipeIngredient: ["500 g bread flour", "350 g water"] }
const block = (data: unknown) => `<script type="application/ld+json">${JSON.stringify(data)}</script>`

test.each([
  ["alone", recipe],
  ["in an array", [{ "@type": "WebSite" }, recipe]],
  ["in a graph", { "@context": "https://schema.org", "@graph": [{ "@type": "WebPage" }, recipe] }],
  ["as the thing a page is about", { "@type": "WebPage", mainEntity: recipe }],
  ["in a list of items", { "@type": "ItemList", itemListElement: [{ "@type": "ListItem", item: recipe }] }],
  ["of two types", { ...recipe, "@type": ["Recipe", "NewsArticle"] }],
  ["by its whole address", { ...recipe, "@type": "http://schema.org/Recipe" }],
  ["under the old name", { "@type": "Recipe", name: "Plain loaf", ingredients: recipe.recipeIngredient }],
])("a recipe %s is found, in a file and in a page", (_, data) => {
  for (const text of [
    JSON.stringify(data),
    `<html><head>${block({ "@type": "Person" })}${block(data)}</head></html>`,
  ]) {
    const { title, content } = brought(text)
    expect(title).toBe("Plain loaf")
    expect(content.parts[0]!.lines.map(({ quantity }) => quantity)).toEqual(["500 g", "350 g"])
  }
})

test.each([
  ["a text", "Mix for 10 minutes.\nBake 40 minutes."],
  ["texts", ["Mix for 10 minutes.", "Bake 40 minutes."]],
  [
    "steps",
    [
      { "@type": "HowToStep", text: "Mix for 10 minutes." },
      { "@type": "HowToStep", text: "Bake 40 minutes." },
    ],
  ],
  [
    "a list of steps",
    { "@type": "ItemList", itemListElement: [{ text: "Mix for 10 minutes." }, { text: "Bake 40 minutes." }] },
  ],
  ["HTML", "<ol><li>Mix for 10&nbsp;minutes.</li><li>Bake 40 minutes.</li></ol>"],
  ["sections", [{ "@type": "HowToSection", name: "", itemListElement: ["Mix for 10 minutes.", "Bake 40 minutes."] }]],
])("instructions as %s become stages", (_, recipeInstructions) => {
  const { content } = brought(JSON.stringify({ ...recipe, recipeInstructions }))
  expect(content.stages.map(({ kind, highMin }) => [kind, highMin])).toEqual([
    ["mix", 10],
    ["bake", 40],
  ])
})

test("what is only pointed to is put in its place, and what points to itself ends", () => {
  const graph = [
    { ...recipe, author: { "@id": "#jo" }, recipeInstructions: [{ "@id": "#one" }] },
    { "@id": "#jo", "@type": "Person", name: "Jo Example", knows: { "@id": "#jo" } },
    { "@id": "#one", "@type": "HowToStep", text: "Bake 40 minutes." },
  ]
  const { content } = brought(JSON.stringify({ "@graph": graph }))
  expect(content.about).toContain("By Jo Example")
  expect(content.stages).toMatchObject([{ kind: "bake", highMin: 40 }])
})

test("where it comes from and its licence stay with it", () => {
  const { content } = brought(
    JSON.stringify({
      ...recipe,
      url: "https://bread.example/plain",
      author: [{ name: "Jo" }, { name: "Max" }],
      license: "https://creativecommons.org/licenses/by/4.0/",
    }),
  )
  expect(content.about.split("\n")).toEqual([
    "By Jo, Max",
    "From https://bread.example/plain",
    "Licence: https://creativecommons.org/licenses/by/4.0/",
  ])
})

test("of several recipes in a page one is read, and the others can be", () => {
  const text = [recipe, { ...recipe, name: "Rye loaf" }].map(block).join("")
  expect(brought(text).recipes).toEqual(["Plain loaf", "Rye loaf"])
  expect(brought(text, 1).title).toBe("Rye loaf")
  expect(brought(brought(text).source, 1).title).toBe("Rye loaf")
  expect(brought(text, 99).title).toBe("Plain loaf")
})

test.each([
  ["1 &frac12; cups &amp; a bit", "1 ½ cups & a bit"],
  ["Bread &amp;amp; butter", "Bread & butter"],
  ["<p>One</p><p>Two<br>Three</p>", "One\nTwo\nThree"],
  ["5 < 6 and 7 > 6", "5 < 6 and 7 > 6"],
  ["a &lt;b&gt;bold&lt;/b&gt; one", "a bold one"],
  ["R&D at 24 &deg;C", "R&D at 24 °C"],
])("%j reads %j", (text, plain) => {
  expect(plainText(text)).toBe(plain)
})

test.each([
  ["nothing", " \n ", "Paste a formula"],
  ["broken JSON", '{"@type": "Recipe", ', "begins like JSON"],
  ["JSON of something else", '{"@type": "Person"}', "no recipe of schema.org"],
  ["a page without recipe data", "<html><body>500 g flour</body></html>", "paste those"],
  [
    "a page with a broken block",
    '<html><script type="application/ld+json">{"@type": "Rec</script></html>',
    "paste those",
  ],
  ["too much text", "flour\n".repeat(mostPasted), "letters"],
  ["a table with an open quotation mark", 'amount,ingredient\n500 g,"flour\n', "cannot be read"],
  ["hundreds of lines", "500 g flour\n".repeat(400), "more than one formula"],
  ["arrays in arrays", "[".repeat(50_000) + "]".repeat(50_000), "nested too deeply"],
  ["things in things", `${'{"a":'.repeat(5000)}1${"}".repeat(5000)}`, "nested too deeply"],
])("%s is refused in words", (_, text, words) => {
  expect(problem(text)).toContain(words)
})

test("a page of nothing but opened elements and scripts is soon done with", () => {
  expect(problem(`<html>${"<div>".repeat(200_000)}`)).toContain("paste those")
  expect(dataBlocksIn("<script ".repeat(100_000))).toEqual([])
  expect(dataBlocksIn(`<script type="application/ld+json">{}`)).toEqual(["{}"])
  const many = Array.from({ length: 2000 }, () => block({ "@type": "Thing" })).join("")
  expect(problem(`<html>${many}`)).toContain("paste those")
})

test("a sentence without an end is read in stretches", () => {
  const words = "knead 1 min, then rest 2 min, ".repeat(1000)
  expect(problem(`Loaf\n500 g flour\n1. ${words}`)).toContain("more than one formula")
  expect(problem(JSON.stringify({ ...recipe, recipeInstructions: words }))).toContain("more than one formula")
  expect(brought(JSON.stringify({ ...recipe, recipeInstructions: "mix ".repeat(5000) })).content.stages.length).toBe(20)
})

test("letters that a database cannot keep are gone", () => {
  const text = `{"@type":"Recipe","name":"A\\u0000b \\ud83d c","recipeIngredient":["500 g flour\\u0000"],"__proto__":{"a":1}}`
  const { title, content } = brought(text)
  expect(title).toBe("Ab \ufffd c")
  expect(JSON.stringify(content)).not.toMatch(/\\u0000|\\ud83d/)
})

test("[Levain] is a heading, not JSON", () => {
  expect(brought("[Levain]\n100 g flour").kind).toBe("text")
})

test("somebody else's table is read by its columns, with the unit that stands over the amounts", () => {
  const { kind, content, left } = brought(
    "Ingredient;Weight (g);Baker's %\nBread flour;1000;100\nWater;700;70\nSalt;20 g;2\n",
  )
  expect(kind).toBe("table")
  expect(content.parts[0]!.lines.map(({ quantity, ingredient }) => [quantity, ingredient])).toEqual([
    ["1000 g", "Bread flour"],
    ["700 g", "Water"],
    ["20 g", "Salt"],
  ])
  expect(left).toContain("Water, baker's %: 70")
})

test("whole formulas of ours that somebody wrote wrongly are refused, and their recipe is read", () => {
  const context = { oven: "https://bread.example/schemas/formula-1.json#" }
  for (const own of [{}, { parts: "x" }, null, { parts: [], stages: [{ kind: "dance" }] }]) {
    const result = brought(
      JSON.stringify({ ...recipe, "@context": ["https://schema.org", context], "oven:formula": own }),
    )
    expect(result.kind).toBe("recipe")
    expect(result.remarks[0]).toContain("cannot be read")
    expect(result.content.parts[0]!.lines).toHaveLength(2)
  }
})
