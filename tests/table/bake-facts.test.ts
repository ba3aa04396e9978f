import { expect, test } from "vitest"
import type { Change } from "../../server/changes/as-baked.ts"
import { bakeFactsOf } from "../../server/table/bake-facts.ts"
import { factsOf } from "../../server/table/facts.ts"
import { layRow } from "../../server/table/row.ts"
import type { Log } from "../../server/table/spans.ts"
import { log, nextDay, onPlan, stages, target } from "./log.ts"

const warm = [
  ["dough", "09:00", 24],
  ["dough", "16:20", 24],
] satisfies Parameters<typeof log>[1]
const bakeFacts = (of: Log) => bakeFactsOf(factsOf(of, stages, target, nextDay), of)

test("what was not logged is left out", () => {
  expect(bakeFacts(log({}))).toEqual({
    culture: "sourdough",
    plannedHours: expect.any(Number),
    stages: [],
    cues: [],
    changes: [],
  })
})

test("dough that waits for its oven goes on fermenting", () => {
  const straight = bakeFacts(log(onPlan, warm)).hours!
  const waiting = bakeFacts(log({ ...onPlan, bake: ["17:20", "18:00"] }, warm)).hours!
  expect(straight.done).toBeCloseTo(straight.planned!, 10)
  expect(waiting.done).toBeCloseTo(straight.done + 1, 10)
})

test("twice the levain needs fewer hours, and the verdict follows", () => {
  const of = (share: number): Log["raised"] => ({
    planned: { leaven: { culture: "sourdough", share: 0.1 }, factor: 1 },
    actual: { leaven: { culture: "sourdough", share }, factor: 1 },
  })
  const twice = { ...log(onPlan, warm), raised: of(0.2) }

  const { hours } = bakeFacts(twice)
  expect(hours!.asMade).toBeLessThan(hours!.planned!)
  expect(bakeFacts({ ...twice, raised: of(0.1) }).hours!.asMade).toBeCloseTo(hours!.planned!, 10)
  const { verdict } = layRow(twice, stages, target, nextDay)
  expect(verdict.evidence[0]!.words).toMatch(
    /^7.3 reference hours against 7.3 planned, or \d\.\d with the leaven it had$/,
  )
  expect(verdict).toMatchObject({ over: expect.any(Number) })
  if ("over" in verdict) expect(verdict.over).toBeGreaterThan(verdict.under)
})

test("a finger test in the bulk is told apart from one in the proof", () => {
  const at = (clock: string) => bakeFacts(log(onPlan, [["finger", clock, "stays"]])).finger!.at
  expect(at("13:50")).toBe("bulk")
  expect(at("16:00")).toBe("proof")
})

test("cues that the table of cues no longer knows are left out", () => {
  expect(bakeFacts({ ...log(onPlan), cues: ["flat", "sang a song"], vessel: "hearth" })).toMatchObject({
    cues: ["flat"],
    vessel: "hearth",
  })
})

test("what was left out or worked in is told as such", () => {
  const change = (one: Partial<Change>) =>
    ({ kind: "other", old: "", outQuantity: "", instead: "", leaven: false, ...one }) as Change
  const changes = [
    change({ kind: "left-out", old: "salt" }),
    change({ kind: "left-out", old: "ripe starter", leaven: true }),
    change({ kind: "left-out", old: "salt", outQuantity: "2 g" }),
    change({ kind: "added", instead: "rye flour" }),
    change({ kind: "swapped", old: "bread flour", instead: "spelt flour" }),
  ]
  expect(bakeFacts({ ...log(onPlan), changes }).changes!.map(({ kind }) => kind)).toEqual([
    ...["salt left out", "yeast left out", "flour added", "other flour"],
  ])
})

test("the loss of the oven comes from both masses, and only where bread weighs less than dough", () => {
  const loss = (doughMassG: number, bakedMassG: number) =>
    bakeFacts({ ...log(onPlan), doughMassG, bakedMassG }).bakeLoss
  expect(loss(900, 792)).toBeCloseTo(0.12, 10)
  expect(loss(792, 900)).toBeUndefined()
})
