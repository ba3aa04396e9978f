import { expect, test } from "vitest"
import { doughFactor, phGate, saltGate, sugarGate, sugarTurns } from "../../../server/dough/fermentation/gates.ts"

test("salt slows both, and lactobacilli more", () => {
  expect(saltGate("yeast", 0)).toBe(1)
  expect(saltGate("yeast", 0.02)).toBeLessThan(1)
  expect(saltGate("lactobacilli", 0.02)).toBeLessThan(saltGate("yeast", 0.02))
  expect(saltGate("lactobacilli", 0.06)).toBe(0)
})

test("sugar slows from 5 % on, more and more, until yeast stops", () => {
  expect(sugarGate(sugarTurns)).toBe(1)
  expect(sugarGate(0.2)).toBeCloseTo(0.5, 12)
  expect([sugarGate(0.35), sugarGate(0.5)]).toEqual([0, 0])
})

test("acid stops lactobacilli; what it does to yeast below pH 3.5 nobody published", () => {
  expect([phGate("lactobacilli", 3.8), phGate("lactobacilli", 5), phGate("lactobacilli", 7)]).toEqual([0, 1, 0])
  expect(phGate("yeast", 3.3)).toBeUndefined()
})

test("an ordinary dough works as usual, a sweet or saltless one does not", () => {
  expect(doughFactor({ saltShare: 0.02, sugarShare: 0.03 })).toBe(1)
  expect(doughFactor({ saltShare: 0, sugarShare: 0 })).toBeGreaterThan(1)
  expect(doughFactor({ saltShare: 0.015, sugarShare: 0.18 })).toBeLessThan(0.7)
})

test.each([-0.01, 1.5, Number.NaN])("%d is no share of salt or sugar", (share) => {
  expect(() => saltGate("yeast", share)).toThrow(RangeError)
  expect(() => sugarGate(share)).toThrow(RangeError)
})
