import { expect, test } from "vitest"
import { draftWith } from "../../server/class-picture/drafting.ts"
import type { Proposal } from "../../server/dough/class-picture/proposals.ts"
import { workOut } from "../../server/dough/formula/formula.ts"
import { raisedBy } from "../../server/estimate/leaven.ts"
import type { FormulaContent } from "../../server/formulas/content.ts"
import { tinLoaf } from "../class-day.ts"

const shareIn = (content: FormulaContent) => {
  const raised = raisedBy(content, [])
  if ("why" in raised) throw new Error(raised.why)
  return raised.leaven.share
}
const grams = (content: FormulaContent, part: number) => content.parts[part]!.lines.map(({ quantity }) => quantity)
const was = shareIn(tinLoaf)
const less = { kind: "leaven", was, now: 0.08, ratio: 1.4 } as const

test("less levain takes the same share of all that goes into it, and gives the dough its flour and water back", () => {
  const { content, done, left } = draftWith(tinLoaf, [less], [])

  expect(left).toEqual([])
  expect(done).toEqual([less])
  expect(Math.abs(shareIn(content) - 0.08)).toBeLessThan(0.001)
  const [before, after] = [tinLoaf, content].map((one) => workOut(one, { measures: "metric" }))
  expect(Math.abs(after!.flour!.low - before!.flour!.low)).toBeLessThan(4)
  expect(Math.abs(after!.hydration!.low - before!.hydration!.low)).toBeLessThan(0.004)
  expect(grams(content, 0)).toEqual(["73 g", "73 g", "14.6 g"])
  expect(grams(content, 1)).toEqual(["917 g", "617 g", "20 g"])
})

test("a range of water keeps both its ends, and what stays in the jar is not given back", () => {
  const parts = structuredClone(tinLoaf.parts)
  parts[0]!.staysPercent = "10"
  parts[1]!.lines[1]!.quantity = "590–620 g"
  const content = { ...tinLoaf, parts }
  const { content: changed } = draftWith(content, [{ ...less, was: shareIn(content) }], [])

  expect(grams(changed, 1)[1]).toMatch(/^\d+–\d+ g$/)
  const moreG = Number.parseInt(grams(changed, 1)[0]!, 10) - 890
  const lessG = 100 - Number.parseInt(grams(changed, 0)[0]!, 10)
  expect(Math.abs(moreG - 0.9 * lessG)).toBeLessThanOrEqual(1)
})

test("amounts that are not in plain grams are left to the writer, and so is another levain", () => {
  const parts = structuredClone(tinLoaf.parts)
  parts[0]!.lines[0]!.quantity = "1 cup"
  const inCups = { ...tinLoaf, parts }
  expect(draftWith(inCups, [{ ...less, was: shareIn(inCups) }], []).left[0]!.why).toContain("not all in grams")
  expect(draftWith(tinLoaf, [{ ...less, was: 0.3 }], []).left[0]!.why).toContain("another figure")
  expect(draftWith(tinLoaf, [{ ...less, was: 0.3, now: was }], []).left[0]!.why).toContain("already")
})

test("a stage that is gone, or has the figure already, is left; lengths for another warmth go with that warmth", () => {
  const length = { kind: "length", stageKey: "bulk", because: "warmth" } as const
  const bulk = { ...length, was: { lowMin: 240, highMin: 360 }, now: { lowMin: 210, highMin: 320 } }
  const reference: Proposal = { kind: "reference", stageKeys: ["bulk", "proof"], wasC: 24, nowC: 26 }
  const stages = tinLoaf.stages.map((stage) => (stage.key === "bulk" ? { ...stage, ...bulk.now } : stage))

  expect(draftWith({ ...tinLoaf, stages }, [bulk], []).left[0]!.why).toContain("already")
  expect(draftWith({ ...tinLoaf, stages: [] }, [bulk], []).left[0]!.why).toContain("no longer")
  const cooler = tinLoaf.stages.map((stage) => (stage.key === "proof" ? { ...stage, referenceC: 22 } : stage))
  expect(draftWith({ ...tinLoaf, stages: cooler }, [reference, bulk], []).left).toHaveLength(2)
  const { content, done } = draftWith(tinLoaf, [reference, bulk], [])
  expect(done).toHaveLength(2)
  expect(content.stages.filter(({ referenceC }) => referenceC === 26)).toHaveLength(2)
})

test("a target is the bake day's: the draft is left as it was", () => {
  const { content, left } = draftWith(tinLoaf, [{ kind: "target rise", was: 0.5, now: 0.6 }], [])
  expect(content).toBe(tinLoaf)
  expect(left).toHaveLength(1)
})
