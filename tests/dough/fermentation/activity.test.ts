import { describe, expect, test } from "vitest"
import { type Activity, activityOf, type Bake, classPrior } from "../../../server/dough/fermentation/activity.ts"
import { riseAfter, usualPrior } from "../../../server/dough/fermentation/dough-fit.ts"
import type { Leaven } from "../../../server/dough/fermentation/leaven.ts"
import { scatter } from "./scatter.ts"

const prior = usualPrior("sourdough")
const leaven: Leaven = { culture: "sourdough", share: 0.1 }

/** A bake with readings of a dough that is so active, each hour up to five, as a jar shows them. */
const bakeOf = (activity: number, count: number, noise = () => 0) => ({
  leaven,
  readings: Array.from({ length: count }, (_, index) => {
    const hours = (5 * (index + 1)) / count
    const rise = riseAfter(leaven, { activity, mostRise: prior.mostRise, lagHours: 0 }, hours)
    return { hours, rise: rise + 0.03 * noise(), sd: 0.03 }
  }),
})

describe("a leaven's activity", () => {
  test("without readings is the prior's, about ± 30 %", () => {
    const { activity, low, high, sd } = activityOf([], prior)
    expect(activity).toBeCloseTo(1.06, 12)
    expect(sd).toBeCloseTo(Math.log(1.3), 12)
    expect(low).toBeLessThan(0.8)
    expect(high).toBeGreaterThan(1.4)
  })

  test("moves toward what was read, further and surer with more readings and more bakes", () => {
    const one = activityOf([bakeOf(1.5, 1)], prior)
    const five = activityOf([bakeOf(1.5, 5)], prior)
    const threeBakes = activityOf([bakeOf(1.5, 5), bakeOf(1.5, 5), bakeOf(1.5, 5)], prior)
    expect(one.activity).toBeGreaterThan(1.1)
    expect(five.activity).toBeGreaterThan(one.activity)
    expect(Math.abs(threeBakes.activity - 1.5)).toBeLessThan(Math.abs(five.activity - 1.5))
    expect(threeBakes.sd).toBeLessThan(five.sd)
    expect(five.sd).toBeLessThan(one.sd)
  })

  test("is less sure when its readings contradict each other", () => {
    const { readings } = bakeOf(1.06, 6)
    const contradicting = readings.map((one, index) => ({ ...one, rise: one.rise + (index % 2 ? 0.2 : -0.05) }))
    const agreeing = activityOf([bakeOf(1.06, 6)], prior)
    expect(activityOf([{ leaven, readings: contradicting }], prior).sd).toBeGreaterThan(1.5 * agreeing.sd)
  })
})

describe("a class", () => {
  test("of four leavens, or of leavens nobody read, is too small to compare by", () => {
    const read = activityOf([bakeOf(1.2, 4)], prior)
    const unread = activityOf([], prior)
    expect(classPrior([read, read, read, read], prior)).toMatchObject({
      enough: false,
      why: expect.stringContaining("there are 4"),
    })
    expect(classPrior(Array<Activity>(12).fill(unread), prior)).toMatchObject({ enough: false })
  })

  test("of livelier leavens than usual becomes what is believed of each", () => {
    const lively = [1.4, 1.5, 1.6, 1.45, 1.55, 1.5].map((activity) => activityOf([bakeOf(activity, 10)], prior))
    const learnt = classPrior(lively, prior)
    expect(learnt.enough && learnt.value.activity).toBeGreaterThan(1.35)
    expect(learnt.enough && learnt.value.activitySd).toBeLessThan(prior.activitySd)
  })

  test("draws a poorly known leaven toward itself and leaves a well known one", () => {
    const learnt = classPrior(
      [1.4, 1.5, 1.6, 1.45, 1.55, 1.5].map((activity) => activityOf([bakeOf(activity, 10)], prior)),
      prior,
    )
    if (!learnt.enough) throw new Error(learnt.why)
    const pulled = (bakes: Bake[]) => activityOf(bakes, learnt.value).activity - activityOf(bakes, prior).activity
    const oneReading = [bakeOf(0.9, 1)]
    const sixBakes = Array<Bake>(6).fill(bakeOf(0.9, 8))
    expect(pulled(oneReading)).toBeGreaterThan(0.2)
    expect(pulled(sixBakes)).toBeLessThan(pulled(oneReading) / 3)
    expect(pulled(sixBakes)).toBeGreaterThan(0)
  })

  test("knows its leavens better together than each alone", () => {
    // Two hundred classes of eight lively leavens, each read twice with an ordinary error.
    const normal = scatter(3)
    const errors = Array.from({ length: 200 }, () => {
      const true8 = Array.from({ length: 8 }, () => 1.3 * Math.exp(0.15 * normal()))
      const bakes = true8.map((activity) => bakeOf(activity, 2, normal))
      const alone = bakes.map((bake) => activityOf([bake], prior))
      const learnt = classPrior(alone, prior)
      const together = bakes.map((bake) => activityOf([bake], learnt.enough ? learnt.value : prior))
      const off = (found: Activity[]) => found.reduce((sum, one, i) => sum + Math.log(one.activity / true8[i]!) ** 2, 0)
      return { alone: off(alone), together: off(together) }
    })
    const mean = (of: "alone" | "together") => errors.reduce((sum, one) => sum + one[of], 0) / errors.length
    expect(mean("together")).toBeLessThan(0.95 * mean("alone"))
  })
})
