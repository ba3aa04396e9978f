import { describe, expect, test } from "vitest"
import { againstPlan, readyElsewhere } from "../../../server/dough/fermentation/elsewhere.ts"
import { culturePerHour, referenceC } from "../../../server/dough/fermentation/growth.ts"
import { leavenAfter } from "../../../server/dough/fermentation/leaven.ts"
import type { Question } from "../../../server/dough/fermentation/prediction.ts"
import { levainGas } from "../../../server/dough/fermentation/sourdough-rise.ts"

const start = Date.UTC(2025, 2, 8, 8)
const clock = (hours: number) => new Date(start + hours * 3_600_000)
const question: Question = {
  leaven: { culture: "sourdough", share: 0.1 },
  startsAt: clock(0),
  now: clock(3),
  curve: [0, 3].map((hours) => ({ at: clock(hours), doughC: 25, known: "measured" })),
  rises: [],
  targetRise: 0.5,
}
const time = (readyH: number, [fromH, toH]: [number, number]) => ({
  kind: "ready" as const,
  ...{ readyAt: clock(readyH), earliest: clock(fromH), latest: clock(toH) },
})
const planned = { from: clock(4), to: clock(6) }

describe("against a plan of 4 to 6 h, a dough", () => {
  test("that is likely ready within it is on plan", () => {
    expect(againstPlan(time(4.1, [3.5, 4.6]), planned)).toEqual({ kind: "on plan" })
  })

  test("that is likely ready after it, but may be sooner than its middle, is on plan as far as anybody can say", () => {
    expect(againstPlan(time(7, [4.8, 11]), planned)).toEqual({ kind: "on plan" })
    expect(againstPlan({ ...time(3, [2, 4]), latest: undefined }, planned)).toEqual({ kind: "on plan" })
  })

  test("whose range does not reach the middle runs ahead or behind, by so much against the middle", () => {
    expect(againstPlan(time(3.5, [3, 4.5]), planned)).toEqual({ kind: "ahead", min: 90 })
    expect(againstPlan(time(7, [5.5, 9]), planned)).toEqual({ kind: "behind", min: 120 })
  })
})

test("a dough is ready sooner in a warmer place, later in a cooler one, and in the fridge last or never", () => {
  const readyIn = (surroundingsC: number) => {
    const answer = readyElsewhere(question, { surroundingsC, tauHours: 4 })
    return answer.kind === "ready" ? (+answer.readyAt - start) / 3_600_000 : Number.POSITIVE_INFINITY
  }
  const [warm, here, cool, fridge] = [29, 25, 19, 4].map(readyIn)
  expect(warm).toBeLessThan(here!)
  expect(here).toBeLessThan(cool!)
  expect(cool).toBeLessThan(fridge!)
})

describe("a leaven that worked for a while before the volume was taken as 0", () => {
  test("has grown into a larger share, from which the gas goes on as it would have", () => {
    const { share } = leavenAfter({ culture: "sourdough", share: 0.1 }, 2)
    const gas = (from: number, hours: number) => levainGas(from, hours * culturePerHour(referenceC))
    expect(share).toBeGreaterThan(0.1)
    expect(gas(share, 3)).toBeCloseTo(gas(0.1, 5) - gas(0.1, 2), 12)
  })

  test("is as much as it was when it is baker's yeast", () => {
    expect(leavenAfter({ culture: "baker's yeast", share: 0.01 }, 2).share).toBe(0.01)
  })
})
