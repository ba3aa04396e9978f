import { describe, expect, test } from "vitest"
import { warmFromC } from "../../server/dough/heat/stood-warm.ts"
import type { Stage } from "../../server/dough/schedule.ts"
import { cToF } from "../../server/dough/units.ts"
import { cautionsFor } from "../../server/formulas/cautions.ts"

const bulk: Stage = {
  ...{ key: "bulk", kind: "bulk", name: "Bulk", lowMin: 60, highMin: 60, referenceC: 25, drivenByTemperature: true },
  ...{ handsOnMin: 0, cue: "", tip: "" },
}
const linesOf = (names: string[]) => names.map((ingredient) => ({ ingredient }))
const told = (names: string[], finishing: string[] = []) =>
  cautionsFor({ parts: [{ lines: linesOf(names) }], finishing: linesOf(finishing), stages: [bulk] })
const words = (key: string, names: string[], finishing: string[] = []) =>
  told(names, finishing).find((one) => one.key === key)?.words

describe("what cautions say", () => {
  test.each([
    ["cold-food", "at or below 5 °C (41 °F)", "FDA Food Code 3-501.16, FDA page on egg safety (primary)"],
    ["cold-food", "at or above 57 °C (135 °F)", "FDA Food Code 3-501.16, FDA page on egg safety (primary)"],
    ["cold-food", "2 hours out of the cold in all, 1 hour above 32 °C (90 °F)", "USDA FSIS (secondary)"],
    ["warm", "2 hours out of the cold in all, 1 hour above 32 °C (USDA FSIS)", "USDA FSIS (secondary)"],
    ["warm", "4 hours, or 6", "FDA Food Code 3-501.19(B) and (C), as Wisconsin and Minnesota adopted it (secondary)"],
    ["honey", "under 12 months, not even baked", "INSPQ (primary); UF IFAS EDIS AA142 (secondary)"],
    ["lye", "15 to 20 minutes", "a supplier's sheet (secondary)"],
  ])("of %s: “%s”: %s", (key, said) => {
    expect(words(key, ["bread flour", "egg", "whole milk", "honey", "lye"], ["custard"])).toContain(said)
  })

  test("limits in °C are those printed beside 41, 70 and 90 °F: FDA Food Code 3-501.16 and .19, USDA FSIS (secondary)", () => {
    const { cold, room, hot } = warmFromC
    expect([cold, room, hot].map((c) => Math.round(cToF(c)))).toEqual([41, 70, 90])
  })
})

describe("foods that the definition of TCS makes a class think of: FDA Food Code 1-201.10 (secondary)", () => {
  test.each([
    "custard",
    "whipping cream",
    "cheddar",
    "ham",
    "garlic oil",
    "herbs in oil",
    "cooked vegetables",
    "potatoes",
  ])("%s may have to be kept cold, and is not classed", (name) => {
    const caution = words("cold-food", ["bread flour", "water"], [name])
    expect(caution).toContain("not ours to say")
    expect(caution).toContain("follow your local rules")
  })

  test("a plain loaf is not spoken of, as plain baked loaves are normally not treated so: from memory", () => {
    expect(words("cold-food", ["bread flour", "rye flour", "ripe starter", "water", "salt"])).toBeUndefined()
  })
})

describe("allergens of a loaf: FALCPA, FASTER Act, FDA guidance Edition 5; Reg. (EU) 1169/2011 Annex II (secondary)", () => {
  const none = "none is plain from the names"
  test.each([
    [["dark rye flour", "water", "salt"], none, "cereals containing gluten (rye), from dark rye flour"],
    [["water", "pine nuts"], "tree nuts (pine nut), from pine nuts", none],
    [["water", "coconut"], none, none],
    [["water", "chestnuts"], none, none],
    [["water", "lupin flour"], none, "lupin, from lupin flour"],
  ])("%j: US “%s”, EU and UK “%s”", (names, us, eu) => {
    const said = words("allergens", names)!
    expect(said).toContain(`On the US list: ${us}.`)
    expect(said).toContain(`On the EU and UK list: ${eu}.`)
  })

  test("an ingredient that nobody knows is said to be unknown, never none", () => {
    expect(words("allergens", ["Old Ferry mix"])).toContain("Not known here: Old Ferry mix.")
  })
})
