import { describe, expect, test } from "vitest"
import { workOut } from "../../../server/dough/formula/formula.ts"
import type { WrittenPart } from "../../../server/dough/formula/written.ts"
import type { Levain } from "../../../server/dough/levain/builds.ts"
import { feedingsBy, repeated, warmthFor } from "../../../server/dough/levain/by-ratio.ts"
import { prefermentsOf } from "../../../server/dough/levain/part.ts"
import { ripeInWords } from "../../../server/dough/levain/ripe-in-words.ts"
import { readFeeding } from "../../../server/levain/typed.ts"

const line = ([quantity, ingredient]: [string, string]) => ({
  ...{ quantity, ingredient, note: "", countsAs: "" as const, readAs: "" },
})
const part = (key: string, goesInto: string, lines: [string, string][], staysPercent = ""): WrittenPart => ({
  ...{ key, name: key, goesInto, staysPercent, lines: lines.map(line) },
})
const dough = part("dough", "", [
  ["900 g", "bread flour"],
  ["600 g", "water"],
])
function found(...parts: WrittenPart[]) {
  const formula = { parts, finishing: [], variants: [], pieces: "", pieceMass: "", pieceTolerance: "" }
  return prefermentsOf(parts, workOut(formula))
}

describe("the preferment of a formula", () => {
  test("is its levain, with flour mix, feeding, what stays and what reaches the dough", () => {
    const levain = part(
      "levain",
      "dough",
      [
        ["30 g", "ripe starter"],
        ["82 g", "bread flour"],
        ["18 g", "wholemeal flour"],
        ["85 g", "water"],
        ["1 g", "barley malt"],
      ],
      "10",
    )
    const [one] = found(levain, dough)
    expect(one).toMatchObject({
      kind: "levain",
      stays: { share: 0.1 },
      written: { starter: 30, flour: 100, water: 85 },
    })
    expect(one!.usedG).toBeCloseTo(0.9 * 216, 9)
    expect(one!.hydration).toBeCloseTo(100 / 115, 9)
    expect(one!.food.map(({ share }) => share)).toEqual([0.82, 0.18, 1])
    expect(one!.other).toBeCloseTo(0.01, 9)
  })

  test("counts the build before it as starter, and comes before it", () => {
    const first = part("first", "second", [
      ["10 g", "ripe starter"],
      ["20 g", "rye flour"],
      ["20 g", "water"],
    ])
    const second = part("second", "dough", [
      ["150 g", "bread flour"],
      ["150 g", "water"],
    ])
    const [one, other] = found(first, second, dough)
    expect([one!.key, other!.key]).toEqual(["second", "first"])
    expect(one!.written).toEqual({ starter: 50, flour: 150, water: 150 })
  })

  test("may be known in percent only", () => {
    const percent = part("dough", "", [
      ["80 %", "bread flour"],
      ["60 %", "water"],
    ])
    const [one] = found(
      part("levain", "dough", [
        ["4 %", "ripe starter"],
        ["20 %", "bread flour"],
        ["20 %", "water"],
      ]),
      percent,
    )
    expect(one!.usedG).toBeUndefined()
    expect(one!.written!.flour / one!.written!.starter).toBeCloseTo(5, 9)
  })

  test("is ripe starter in the dough itself where there is no part for it", () => {
    const [one] = found({ ...dough, lines: [...dough.lines, line(["200 g", "ripe starter"])] })
    expect(one).toMatchObject({ kind: "line", usedG: 200, hydration: 1 })
    expect(one!.written).toBeUndefined()
  })

  test("is yeasted where yeast raises it, and none where there is none", () => {
    const [one] = found(
      part("poolish", "dough", [
        ["100 g", "bread flour"],
        ["100 g", "water"],
        ["1 g", "fresh yeast"],
      ]),
      dough,
    )
    expect(one).toMatchObject({ kind: "yeasted", lines: [{}, {}, { name: "fresh yeast" }] })
    expect(one!.yeast).toBeCloseTo(0.0033, 4)
    expect(found(dough)).toEqual([])
  })
})

test.each([
  ["Doubled, and just beginning to dimple.", 1],
  ["Risen by half, domed.", 0.5],
  ["Up by about three quarters.", 0.75],
  ["It has tripled.", 2],
  ["+80 % in the jar", 0.8],
  ["2.5 times its volume", 1.5],
  ["Smells of yoghurt.", undefined],
  ["72 % hydration, at 24 °C.", undefined],
])("ripe in the words “%s” is a rise of %s", (words, rise) => {
  expect(ripeInWords(words)?.rise).toBe(rise)
})

test.each([
  ["1:5:5", { starter: 1, flour: 5, water: 5 }],
  ["1 : 2,5 : 2", { starter: 1, flour: 2.5, water: 2 }],
  ["20 g + 40 g + 40 g", { starter: 20, flour: 40, water: 40 }],
  ["20 60 60 g", { starter: 20, flour: 60, water: 60 }],
])("“%s” is a feeding", (text, value) => {
  expect(readFeeding(text)).toEqual({ value })
})
test.each(["1:2", "0:5:5", "1:0:0", "1:5:5:5", "one to five", "1:900:900", ""])("“%s” is none", (text) => {
  expect("error" in readFeeding(text)).toBe(true)
})

describe("by a ratio", () => {
  const levain: Levain = {
    need: { neededG: 220, keepG: 0, sticks: { share: 0 } },
    starter: { hydration: 1 },
    ...{ hydration: 1, other: 0, rise: 1, atC: 22 },
  }
  const ratio = { starter: 1, flour: 2, water: 2 }

  test("as few builds as the starter makes enough with", () => {
    const builds = (g: number) => feedingsBy(ratio, { ...levain, starter: { g, hydration: 1 } })?.length
    expect([44, 43.9, 9, 8, 1].map(builds)).toEqual([1, 2, 2, 3, undefined])
  })

  test("the warmth for a time is the one at which it takes that time, however many builds", () => {
    const feedAt = new Date("2026-11-14T08:00:00Z")
    for (const count of [1, 2, 3] as const) {
      const ripeAt = new Date(+feedAt + count * 8 * 3_600_000)
      const warmth = warmthFor(repeated(ratio, count, levain), 1, { feedAt, ripeAt })
      expect(warmth.kind === "found" && warmth.value).toBeCloseTo(21.4, 0)
    }
  })
})
