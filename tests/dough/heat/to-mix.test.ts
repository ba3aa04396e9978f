import { expect, test } from "vitest"
import { specificHeats } from "../../../server/dough/heat/specific-heat.ts"
import { mixesOf, type Part, type WorkedPart } from "../../../server/dough/heat/to-mix.ts"
import type { CountsAs } from "../../../server/dough/ingredients/counts-as.ts"
import { readQuantity } from "../../../server/dough/quantity/read.ts"

type Line = [ingredient: string, g: number | undefined, countsAs: CountsAs, share?: number]
const at = (value: number | undefined) => (value === undefined ? undefined : { low: value, high: value })
function formula(parts: Record<string, { goesInto: string; lines: Line[]; used?: number }>): [Part[], WorkedPart[]] {
  return [
    Object.entries(parts).map(([key, { goesInto, lines }]) => ({
      ...{ key, name: key, goesInto },
      lines: lines.map(([ingredient]) => ({ ingredient })),
    })),
    Object.values(parts).map(({ lines, used }) => ({
      used: at(used),
      lines: lines.map(([, g, countsAs, share]) => ({ g: at(g), countsAs, share: at(share) })),
    })),
  ]
}

const levain: Line[] = [
  ["bread flour", 90, "flour"],
  ["water", 90, "water"],
  ["ripe starter", 20, "starter"],
]
const final: Line[] = [
  ["bread flour", 400, "flour"],
  ["whole rye flour", 100, "flour"],
  ["water", 330, "water"],
  ["salt", 10, "salt"],
  ["honey", 20, "other"],
]
const tin = formula({
  levain: { goesInto: "dough", lines: levain, used: 190 },
  dough: { goesInto: "", lines: final },
})

test("the final dough comes first, with its own water only", () => {
  const [dough, own] = mixesOf(...tin)
  expect(dough).toMatchObject({ key: "dough", unit: "g", liquid: { name: "water", isWater: true, mass: 330 } })
  expect(own).toMatchObject({ key: "levain", liquid: { mass: 90 } })
})

test("flours are one thing, a levain is one as far as it goes in, and what weighs little is the rest", () => {
  const { things } = mixesOf(...tin)[0]!
  expect(things.map(({ key, mass }) => [key, mass])).toEqual([
    ["flour", 500],
    ["part.levain", 190],
    ["rest", 30],
  ])
  expect(things[1]).toMatchObject({ name: "levain", ferments: true })
  expect(things[2]!.name).toBe("salt, honey")
})

test("a levain of equal flour and water carries heat halfway between both", () => {
  const { kJPerKgK } = mixesOf(...tin)[0]!.things[1]!
  expect(kJPerKgK).toBeCloseTo((specificHeats.flour + specificHeats.water) / 2, 1)
})

test("what is in a part of a part counts once, in the part that goes in", () => {
  const nested = formula({
    starter: {
      goesInto: "levain",
      lines: [
        ["bread flour", 20, "flour"],
        ["water", 20, "water"],
      ],
      used: 40,
    },
    levain: { goesInto: "dough", lines: levain, used: 240 },
    dough: { goesInto: "", lines: final },
  })
  const { things } = mixesOf(...nested)[0]!
  expect(things.filter(({ key }) => key.startsWith("part.")).map(({ mass }) => mass)).toEqual([240])
})

test("a dough without water is tempered by its milk", () => {
  const brioche = formula({
    dough: {
      goesInto: "",
      lines: [
        ["bread flour", 500, "flour"],
        ["whole milk", 120, "other"],
        ["egg", 200, "other"],
        ["butter", 250, "other"],
      ],
    },
  })
  const [dough] = mixesOf(...brioche)
  expect(dough!.liquid).toMatchObject({ name: "whole milk", isWater: false, mass: 120 })
  expect(dough!.liquid.kJPerKgK).toBeCloseTo(specificHeats.milk, 1)
  expect(dough!.things.map(({ name }) => name)).toEqual(["flour", "egg", "butter"])
})

test("an ingredient known by name only carries heat by what it is", () => {
  const lines: Line[] = [
    ["bread flour", 500, "flour"],
    ["water", 200, "water"],
    ["duck egg", 150, "other"],
    ["vegan butter", 150, "other"],
    ["moon dust", 150, "other"],
  ]
  const { things } = mixesOf(...formula({ dough: { goesInto: "", lines } }))[0]!
  const heats = new Map(things.map(({ name, kJPerKgK }) => [name, kJPerKgK]))
  expect(heats.get("duck egg")).toBe(specificHeats.egg)
  expect(heats.get("vegan butter")).toBe(specificHeats.butter)
  expect(heats.get("moon dust")).toBeGreaterThan(specificHeats.flour)
})

test("a formula of percentages alone has ratios, which is all that temperatures need", () => {
  const ratios = formula({
    dough: {
      goesInto: "",
      lines: [
        ["flour", undefined, "flour", 1],
        ["water", undefined, "water", 0.65],
      ],
    },
  })
  expect(mixesOf(...ratios)[0]).toMatchObject({ unit: "share", liquid: { mass: 0.65 }, things: [{ mass: 1 }] })
})

test("what has no amount yet is named and left out; without any liquid there is nothing to choose", () => {
  const lines: Line[] = [
    ["flour", 500, "flour"],
    ["water", 300, "water"],
    ["seeds", undefined, "other"],
  ]
  expect(mixesOf(...formula({ dough: { goesInto: "", lines } }))[0]!.without).toEqual(["seeds"])
  expect(mixesOf(...formula({ dough: { goesInto: "", lines: [["flour", 500, "flour"]] } }))).toEqual([])
  expect(mixesOf([], [])).toEqual([])
})

test("parts that go into each other in a circle end somewhere", () => {
  const circle = formula({ a: { goesInto: "b", lines: levain }, b: { goesInto: "a", lines: final } })
  expect(mixesOf(...circle)).toHaveLength(2)
})

test("of a range of water the last is held back, and of a line that says so all of it", () => {
  const heldIn = (...lines: [quantity: string, low: number, high: number, note?: string][]) => {
    const written = lines.map(([quantity, , , note = ""]) => ({ quantity, note, ingredient: "water" }))
    const worked = lines.map(([quantity, low, high]) => ({
      ...{ g: { low, high }, countsAs: "water" as const, quantity: readQuantity(quantity) },
    }))
    const part = { key: "dough", name: "Dough", goesInto: "", lines: written }
    return mixesOf([part], [{ lines: worked }])[0]!.liquid.heldBack
  }
  expect(heldIn(["335–365 g", 335, 365])).toBe(30)
  expect(heldIn(["335 g", 335, 335], ["30 g", 30, 30, "hold back"])).toBe(30)
  expect(heldIn(["350 g", 350, 350, "lukewarm"])).toBe(0)
})
