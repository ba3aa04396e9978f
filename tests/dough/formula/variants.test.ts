import { describe, expect, test } from "vitest"
import { workOut } from "../../../server/dough/formula/formula.ts"
import { applyTimes, applyVariant } from "../../../server/dough/formula/variants.ts"
import type { Variant } from "../../../server/dough/formula/written.ts"
import { exactly, formula, lines, part } from "./writing.ts"

const variant = (key: string, swaps: Variant["swaps"]): Variant => ({ key, name: key, about: "", swaps, times: [] })

const loaf = () =>
  formula(
    [
      part("build", "10 g | ripe starter\n20 g | flour\n20 g | water", { goesInto: "levain" }),
      part("levain", "75 g | flour\n75 g | water", { goesInto: "dough" }),
      part(
        "dough",
        "300 g | bread flour\n100 g | Wholemeal flour\n225 g | water\n40 g | butter\n10 g | salt\n200 g | levain",
      ),
    ],
    {
      variants: [
        variant("white", [{ part: "dough", insteadOf: "wholemeal flour", lines: lines("100 g | bread flour") }]),
        variant("oil", [{ part: "dough", insteadOf: "butter", lines: lines("33 g | rapeseed oil\n7 g | water") }]),
        variant("lean", [{ part: "dough", insteadOf: "butter", lines: [] }]),
        variant("yeast", [
          { part: "levain", insteadOf: "", lines: lines("100 g | bread flour\n100 g | water\n4 g | instant yeast") },
        ]),
        variant("lost", [
          { part: "dough", insteadOf: "margarine", lines: [] },
          { part: "poolish", insteadOf: "", lines: [] },
        ]),
      ],
    },
  )

const varied = (key: string) => workOut(applyVariant(loaf(), key).formula)

test("a swapped line stands where the old one stood, and every figure follows", () => {
  const { formula, problems } = applyVariant(loaf(), "oil")
  expect(problems).toEqual([])
  expect(formula.parts[2]!.lines.map(({ ingredient }) => ingredient)).toEqual([
    ...["bread flour", "Wholemeal flour", "water", "rapeseed oil", "water", "salt", "levain"],
  ])
  expect(varied("oil").hydration!.low).toBeGreaterThan(varied("").hydration!.low)
  expect(varied("white").flourProtein!.low).toBeLessThan(varied("").flourProtein!.low)
})

test("a line may be left out", () => {
  expect(varied("lean").fat).toEqual(exactly(0))
})

describe("yeast in place of a levain", () => {
  const { formula } = applyVariant(loaf(), "yeast")

  test("takes the levain and what was made for it away", () => {
    expect(formula.parts.map(({ key }) => key)).toEqual(["dough"])
  })

  test("keeps flour and water, and nothing is prefermented", () => {
    const [before, after] = [workOut(loaf()), workOut(formula)]
    expect(after.flour).toEqual(before.flour)
    expect(after.hydration).toEqual(before.hydration)
    expect(after).toMatchObject({ prefermented: exactly(0), cannot: [] })
  })
})

test("a final dough that is swapped as a whole keeps its parts", () => {
  const variants = [variant("all", [{ part: "dough", insteadOf: "", lines: lines("500 g | flour") }])]
  const { formula } = applyVariant({ ...loaf(), variants }, "all")
  expect(formula.parts.map(({ key }) => key)).toEqual(["build", "levain", "dough"])
  expect(formula.parts[2]!.lines).toHaveLength(1)
})

test("what it swaps and is no longer there is said, and the rest stands", () => {
  expect(applyVariant(loaf(), "lost")).toEqual({
    formula: loaf(),
    problems: ["Lost: margarine is no longer in dough.", "Lost: the part that it swaps is no longer there."],
  })
  expect(applyVariant(loaf(), "gone").problems).toEqual(["The variant that was chosen is no longer there."])
})

test("of two lines with the same words the first is swapped, and that is said", () => {
  const twice = formula([part("dough", "500 g | flour\n300 g | water\n50 g | water")], {
    variants: [variant("milk", [{ part: "dough", insteadOf: "water", lines: lines("300 g | milk") }])],
  })
  const { formula: swapped, problems } = applyVariant(twice, "milk")
  expect(swapped.parts[0]!.lines.map(({ ingredient }) => ingredient)).toEqual(["flour", "milk", "water"])
  expect(problems).toEqual(["Milk: dough has water in 2 lines; the first is swapped."])
})

test("the formula that it starts from stays as it was", () => {
  const before = loaf()
  for (const { key } of before.variants) applyVariant(before, key)
  expect(before).toEqual(loaf())
})

test("stages take the variant's times and keep the rest", () => {
  const stages = [
    { key: "bulk", lowMin: 240, highMin: 360, cue: "domed" },
    { key: "proof", lowMin: 60, highMin: 90, cue: "" },
  ]
  const times = [
    { stageKey: "bulk", lowMin: 60, highMin: 90 },
    { stageKey: "ripen", lowMin: 1, highMin: 2 },
  ]
  expect(applyTimes(stages, { name: "yeast", times })).toEqual({
    stages: [{ key: "bulk", lowMin: 60, highMin: 90, cue: "domed" }, stages[1]],
    problems: ["Yeast: a stage that it gives a time for is no longer there."],
  })
})
