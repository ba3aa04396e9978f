import { describe, expect, test } from "vitest"
import { workOut } from "../../../server/dough/formula/formula.ts"
import type { WrittenPart } from "../../../server/dough/formula/written.ts"
import { formula, part } from "./writing.ts"

const questions = (parts: WrittenPart[]) => workOut(formula(parts)).questions
const asked = (rows: string) => questions([part("dough", rows)]).map(({ words }) => words)

test("an ordinary loaf is asked nothing", () => {
  expect(asked("1000 g | bread flour\n680 g | water\n20 g | salt\n10 g | instant yeast")).toEqual([])
})

test("nor is a brioche, whose water is in its eggs", () => {
  const brioche =
    "500 g | flour\n10 g | salt\n60 g | sugar\n250 g | butter\n45 g | water\n250 g | eggs\n20 g | fresh yeast"
  expect(asked(brioche)).toEqual([])
})

describe("salt", () => {
  const loaf = (salt: string) => `500 g | flour\n350 g | water\n5 g | instant yeast\n${salt}`

  test("that is too little says what 2 % would be", () => {
    expect(asked(loaf("5 g | salt"))).toEqual([
      "Salt is only 1 % of the flour; most bread has 1.5–2.5 %. 2 % would be 10 g. Is that meant?",
    ])
  })

  test("that is missing", () => expect(asked(loaf("")).join()).toMatch(/^There is no salt in it/))

  test("that was perhaps reckoned on the whole dough", () => {
    expect(asked(loaf("17.5 g | salt")).join()).toMatch(/^Salt is 3.5 % of the flour.*It is 2.01 % of the whole dough/)
  })

  test("that may be in something unknown is not missed", () => {
    expect(asked(loaf("20 g | miso of the house"))).toEqual([])
  })
})

test.each([
  ["180 % | butter", /^Butter is 180 % of the flour.*50 % would be 250 g/],
  ["200 g | sugar", /^Sugar is 39.9 % of the flour/],
  ["10 % | cream cheese\n100 % | butter\n50 % | oil", /^There is more fat than flour in it: 134.6 %/],
  ["350 g | water", /hydration is as high as 130.1 %.*65 % would be 325 g of water/],
])("a loaf with another %s", (more, words) => {
  expect(asked(`500 g | flour\n300 g | water\n10 g | salt\n5 g | instant yeast\n${more}`).join("\n")).toMatch(words)
})

test.each([
  ["30 g | instant yeast", /^Instant yeast is 6 % of the flour.*Was fresh yeast meant/],
  ["60 g | fresh yeast", /^Fresh yeast is 12 % of the flour.*Is the amount right/],
  ["30 g | fresh yeast", /^$/],
  ["0 g | seeds", /neither yeast nor starter/],
  ["20 g | baking powder", /^$/],
])("%s on 500 g of flour", (yeast, words) => {
  expect(asked(`500 g | flour\n300 g | water\n10 g | salt\n${yeast}`).join()).toMatch(words)
})

test("a dry dough is asked about, unless something unknown may hold its water", () => {
  const rest = "5 g | instant yeast\n10 g | salt"
  expect(asked(`500 g | flour\n200 g | water\n${rest}`).join()).toMatch(/hydration is only 40.1 %/)
  expect(asked(`500 g | flour\n200 g | water\n90 g | lemon curd\n${rest}`)).toEqual([])
})

describe("a percentage printed beside grams", () => {
  const loaf = (rye: string) =>
    part(
      "dough",
      `128 g | ripe starter\n500 g (79.4 %) | bread flour\n110 g (15.9 %) | whole wheat flour\n${rye} | rye flour\n407 g (64.6 %) | water\n13 g | salt`,
    )

  // 79.4 and 64.6 % are of the 630 g without the starter's flour; 110 g happen to be 15.9 % with it.
  test("is of the flour that most of them fit, and asked about where it fits other grams", () => {
    expect(questions([loaf("20 g")])).toEqual([
      {
        ...{ about: "whole wheat flour", part: 0, line: 2 },
        words:
          "15.9 % is printed beside it, but 110 g are 17.5 % of the flour that is fresh in its part, 630 g. 15.9 % would be 100 g: which one holds?",
      },
    ])
  })

  test("may be rounded", () => {
    const rounded = part("dough", "630 g (100 %) | flour\n407 g (65 %) | water\n13 g (2 %) | salt\n6 g | instant yeast")
    expect(questions([rounded])).toEqual([])
  })

  test("may be of the part that it stands in", () => {
    const poolish = part("poolish", "468 g (100 %) | flour\n468 g (100 %) | water\n1 g | instant yeast", {
      goesInto: "dough",
    })
    expect(questions([poolish, part("dough", "900 g | flour\n468 g | water\n27 g | salt")])).toEqual([])
  })
})

test("flour by the cup and open ends are asked about, with the line they stand on", () => {
  const dough = part("dough", "at least 4 cups | bread flour\n2 cups | water\n10 g | salt\n5 g | instant yeast")
  expect(questions([dough])).toEqual([
    { about: "bread flour", words: expect.stringMatching(/dipped into the bag or spooned/), part: 0, line: 0 },
    {
      about: "bread flour",
      words: expect.stringMatching(/“at least 4 cups” of bread flour has no upper end/),
      part: 0,
      line: 0,
    },
  ])
  const weighed = part("dough", "500 g (4 cups) | bread flour\n2 cups | water\n10 g | salt\n5 g | instant yeast")
  expect(questions([weighed])).toEqual([])
})

describe("a levain of which not all is used", () => {
  const levain = (staysPercent = "") =>
    part("levain", "50 g | ripe starter\n200 g | flour\n200 g | water", { goesInto: "dough", staysPercent })
  const dough = (asked: string) => part("dough", `700 g | flour\n450 g | water\n18 g | salt\n${asked} | levain`)

  test("asks whether the rest stays in the jar", () => {
    expect(questions([levain(), dough("278 g")]).map(({ words }) => words)).toEqual([
      "Levain makes 450 g and 278 g of it are asked for here: do 172 g stay in the jar?",
    ])
    expect(questions([levain("172 g"), dough("278 g")])).toEqual([])
  })

  test("or whether more has to be made", () => {
    expect(questions([levain(), dough("500 g")]).map(({ words }) => words)).toEqual([
      "Levain makes only 450 g, but 500 g are asked for here. Which one holds?",
    ])
  })

  test("asks when most of it stays", () => {
    expect(questions([levain("300 g"), dough("150 g")]).map(({ words }) => words)).toEqual([
      "More of levain stays in its jar than goes on: 450 g are made and 150 g used. Is that meant?",
    ])
  })
})
