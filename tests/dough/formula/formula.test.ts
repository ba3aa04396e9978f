import { describe, expect, test } from "vitest"
import { workOut } from "../../../server/dough/formula/formula.ts"
import type { WrittenFormula, WrittenPart } from "../../../server/dough/formula/written.ts"
import { exactly, formula, part, range } from "./writing.ts"

const figures = (parts: WrittenPart[], more: Partial<WrittenFormula> = {}) => workOut(formula(parts, more))

const tinLoaf = () => [
  part("levain", "60 g | bread flour\n60 g | water\n20 g | ripe starter", { goesInto: "dough", staysPercent: "10 %" }),
  part("soaker", "50 g | rye flour\n100 g | water", { goesInto: "dough" }),
  part("dough", "400 g | bread flour\n200 g | water\n2 % | salt"),
]

describe("a formula with parts", () => {
  // Flour that reaches the dough: 0.9 · (60 + 10) + 50 + 400 = 513 g; water 0.9 · 70 + 100 + 200 = 363 g.
  const worked = figures(tinLoaf())

  test("counts the flour in the levain, less what stays in its jar", () => {
    expect(worked.flour).toEqual(exactly(513))
    expect(worked.water).toEqual(exactly(363))
    expect(worked.hydration).toEqual(exactly(363 / 513))
  })

  test("turns percentages into grams of the total flour", () => {
    expect(worked.parts[2]!.lines[2]).toMatchObject({ g: exactly(10.26), share: exactly(0.02) })
    expect(worked.salt).toEqual(exactly(0.02))
  })

  test("adds the parts up to the dough", () => {
    expect(worked.parts[0]).toMatchObject({ made: exactly(140), used: exactly(126), hydration: exactly(1) })
    expect(worked.parts[2]!.made).toEqual(exactly(400 + 200 + 10.26 + 126 + 150))
    expect(worked.dough).toEqual(worked.parts[2]!.made)
    expect(worked.cannot).toEqual([])
  })

  test("does not call a soaker prefermented", () => {
    expect(worked.prefermented).toEqual(exactly(63 / 513))
  })

  test("says for each line what it was taken for", () => {
    expect(worked.parts[0]!.lines[2]).toMatchObject({ countsAs: "starter", guessed: true })
  })
})

test("jars are followed through nested parts", () => {
  const worked = figures([
    part("first", "50 | flour\n50 | water", { goesInto: "second", staysPercent: "50" }),
    part("second", "75 | flour\n75 | water\n1 | yeast", { goesInto: "dough", staysPercent: "20" }),
    part("dough", "400 | flour"),
  ])
  expect(worked.flour).toEqual(exactly(400 + 0.8 * (75 + 0.5 * 50)))
  // The first part has no yeast of its own, but its flour ferments in the second.
  expect(worked.prefermented).toEqual(exactly(80 / 480))
})

test("a percentage is of what reaches the dough, so more is made when a jar keeps some", () => {
  const worked = figures([
    part("levain", "10 % | flour\n10 % | water", { goesInto: "dough", staysPercent: "20" }),
    part("dough", "900 | flour"),
  ])
  expect(worked.flour).toEqual(exactly(1000))
  expect(worked.parts[0]!.lines[0]).toMatchObject({ share: exactly(0.1), g: exactly(125) })
})

test("a starter line in the dough is half flour, half water, all of it prefermented", () => {
  const worked = figures([part("dough", "450 | flour\n300 | water\n100 | ripe starter")])
  expect(worked).toMatchObject({ flour: exactly(500), hydration: exactly(0.7), prefermented: exactly(0.1) })
})

describe("all flour in percent", () => {
  const rows = "80 % | bread flour\n20 % | rye\n70 % | water\n2 % | salt"

  test("gives ratios without masses, and says what is missing", () => {
    const worked = figures([part("dough", rows)])
    expect(worked).toMatchObject({ hydration: exactly(0.7), salt: exactly(0.02) })
    expect(worked.dough).toBeUndefined()
    expect(worked.parts[0]!.lines[0]!.g).toBeUndefined()
    expect(worked.cannot).toEqual([
      "All flour is in percent, so there are no masses: give the number of pieces and the mass of one.",
    ])
  })

  test("takes the masses from the pieces", () => {
    const worked = figures([part("dough", rows)], { pieces: "2", pieceMass: "860 g" })
    expect(worked).toMatchObject({ dough: exactly(1720), flour: exactly(1000), cannot: [] })
    expect(worked.pieces).toEqual({ count: 2, eachG: exactly(860) })
  })

  test("a line by mass is part of the pieces", () => {
    const worked = figures([part("dough", `${rows}\n100 g | seeds`)], { pieces: "2", pieceMass: "910 g" })
    expect(worked.flour).toEqual(exactly(1000))
  })

  test("flours that add up to more are divided by their sum, and that is said", () => {
    const worked = figures([part("dough", "100 % | flour\n65 % | water\n20 % | ripe starter")])
    expect(worked.hydration).toEqual(exactly(75 / 110))
    expect(worked.cannot.join()).toMatch(/add up to 110 % instead of 100 %/)
  })
})

describe("ranges", () => {
  test("a water range becomes a range of hydration and dough", () => {
    const worked = figures([part("dough", "500 | flour\n300–350 | water\n2 % | salt")])
    expect(worked).toMatchObject({ hydration: range(0.6, 0.7), dough: range(810, 860), salt: exactly(0.02) })
    expect(worked.salt!.low).toBe(worked.salt!.high)
  })

  test("a flour range moves its own share and the whole together", () => {
    const worked = figures([part("dough", "400 | flour\n0–100 | rye\n300 | water")])
    expect(worked.parts[0]!.lines[1]!.share).toEqual(range(0, 0.2))
    expect(worked.hydration).toEqual(range(0.6, 0.75))
  })

  test("very many ranges still give an answer, and say how", () => {
    const worked = figures([part("dough", `500 | flour\n${Array(14).fill("1–2 | seeds").join("\n")}`)])
    expect(worked.dough).toEqual(range(500 + 8 + 9, 500 + 16 + 9))
    expect(worked.cannot.join()).toMatch(/middle of the 6 narrowest/)
  })
})

describe("what is missing or wrong", () => {
  test("an unread water leaves the flour and salt standing", () => {
    const worked = figures([part("dough", "500 | flour\nsome | water\n10 | salt")])
    expect(worked).toMatchObject({ flour: exactly(500), salt: exactly(0.02) })
    expect(worked.hydration).toBeUndefined()
    expect(worked.dough).toBeUndefined()
    expect(worked.parts[0]!.lines[1]!.problem).toMatch(/has no weight/)
    expect(worked.cannot).toEqual(["water has no amount that can be read, so there is no hydration and no dough mass."])
  })

  test("an unread flour leaves no percentages rather than wrong ones", () => {
    const worked = figures([part("dough", "500 | flour\nsome | rye\n300 | water")])
    expect(worked.flour).toBeUndefined()
    expect(worked.hydration).toBeUndefined()
    expect(worked.parts[0]!.lines[2]).toMatchObject({ g: exactly(300) })
  })

  test("empty rows do not count", () => {
    expect(figures([part("dough", "500 | flour\n | \n300 | water")])).toMatchObject({ dough: exactly(800), cannot: [] })
  })

  test("a line that only repeats a part is not counted twice", () => {
    const worked = figures([
      part("Levain", "50 | flour\n50 | water\n1 | yeast", { goesInto: "dough" }),
      part("dough", "450 | flour\n101 | levain"),
    ])
    expect(worked.dough).toEqual(exactly(551))
    expect(worked.parts[1]!.lines[1]!.problem).toMatch(/not counted/)
  })

  test("a circle of parts is named and gives no totals", () => {
    const worked = figures([part("a", "10 | flour", { goesInto: "b" }), part("b", "10 | water", { goesInto: "a" })])
    expect(worked.parts[0]!.problem).toBe("a goes, by way of other parts, into itself.")
    expect(worked.flour).toBeUndefined()
    expect(worked.cannot.join()).toMatch(/No part is the final dough/)
  })

  test("a part that goes nowhere is named, and keeps its own figures", () => {
    const worked = figures([part("levain", "10 | flour\n8 | water", { goesInto: "?" }), part("dough", "10 | flour")])
    expect(worked.parts[0]).toMatchObject({ problem: expect.stringMatching(/does not exist/), hydration: exactly(0.8) })
    expect(worked.flour).toBeUndefined()
  })

  test.each(["100", "-5", "some", "10–20"])("%s %% cannot stay in a jar", (staysPercent) => {
    const worked = figures([
      part("levain", "10 | flour", { goesInto: "dough", staysPercent }),
      part("dough", "9 | flour"),
    ])
    expect(worked.parts[0]!.problem).toMatch(/must be one percentage from 0 to below 100/)
    expect(worked.flour).toBeUndefined()
  })

  test("two final doughs are added up, and that is said", () => {
    const worked = figures([part("dough", "100 | flour"), part("crust", "20 | flour")])
    expect(worked.flour).toEqual(exactly(120))
    expect(worked.cannot).toEqual(["dough and crust go into nothing else; the totals are of all of them together."])
  })

  test("flours in percent must leave room for flour by mass", () => {
    const worked = figures([part("dough", "500 | flour\n100 % | rye")])
    expect(worked.flour).toBeUndefined()
    expect(worked.cannot.join()).toMatch(/leave nothing/)
  })

  test("nothing at all is answered in words", () => {
    expect(figures([]).cannot.join()).toMatch(/no parts yet/)
    expect(figures([part("dough", "300 | water")]).cannot).toEqual([
      "There is no flour yet, so there are no percentages.",
    ])
  })
})

describe("pieces", () => {
  const dough = part("dough", "1000 | flour\n700 | water")

  test("share the dough", () => {
    expect(figures([dough], { pieces: "2" }).pieces).toEqual({ count: 2, eachG: exactly(850) })
  })

  test("that do not fit the dough are pointed out", () => {
    expect(figures([dough], { pieces: "2", pieceMass: "850 g" }).cannot).toEqual([])
    expect(figures([dough], { pieces: "2", pieceMass: "900 g" }).cannot).toEqual([
      "The dough gives 2 pieces of 850 g, not of 900 g as written.",
    ])
  })

  test.each(["0", "-1", "1.5", "some"])("cannot be %s", (pieces) => {
    expect(figures([dough], { pieces }).cannot).toEqual(["The number of pieces must be a whole number above 0."])
  })
})
