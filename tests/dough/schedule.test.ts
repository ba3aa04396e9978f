import { describe, expect, test } from "vitest"
import { rate } from "../../server/dough/fermentation/growth.ts"
import { countBack, fermentingStages, plannedReferenceHours, type Stage } from "../../server/dough/schedule.ts"

const stage = (kind: Stage["kind"], lowMin: number, highMin: number, more: Partial<Stage> = {}): Stage => ({
  ...{ key: kind, kind, name: kind, lowMin, highMin, drivenByTemperature: false, handsOnMin: 0, cue: "", tip: "" },
  ...more,
})
const driven = (referenceC?: number) => ({ drivenByTemperature: true, referenceC })
const supper = new Date("2025-03-08T18:00:00Z")
const minutesBefore = (minutes: number) => new Date(+supper - minutes * 60_000)

describe("counting back", () => {
  const [bulk, bake] = countBack([stage("bulk", 240, 300), stage("bake", 40, 50)], supper)

  test("ends on the table and takes the middle of each range", () => {
    expect(bake).toMatchObject({ startsAt: minutesBefore(45), endsAt: supper })
    expect(bulk).toMatchObject({ startsAt: minutesBefore(315), endsAt: minutesBefore(45) })
  })

  test("starts earliest when everything takes its longest, latest when its shortest", () => {
    expect(bulk).toMatchObject({ earliestStart: minutesBefore(350), latestStart: minutesBefore(280) })
    expect(bulk).toMatchObject({ earliestEnd: minutesBefore(50), latestEnd: minutesBefore(40) })
    expect(bake).toMatchObject({ earliestEnd: supper, latestEnd: supper })
  })

  test("of nothing is nothing", () => {
    expect(countBack([], supper)).toEqual([])
  })

  test.each([
    [60, 30],
    [-5, 10],
    [Number.NaN, 10],
    [0, Number.POSITIVE_INFINITY],
  ])("refuses %d to %d min", (lowMin, highMin) => {
    expect(() => countBack([stage("bulk", lowMin, highMin)], supper)).toThrow(RangeError)
  })
})

describe("fermentation in the plan", () => {
  const day = [
    stage("mix", 10, 10),
    stage("bulk", 240, 300, driven(25)),
    stage("shape", 20, 20),
    stage("proof", 60, 90, driven(22)),
    stage("bake", 40, 50),
  ]

  test("runs from the first to the last stage that temperature drives", () => {
    expect(fermentingStages(day).map(({ kind }) => kind)).toEqual(["bulk", "shape", "proof"])
    expect(fermentingStages([stage("bake", 40, 40)])).toEqual([])
  })

  test("counts what lies between at the temperature before it", () => {
    expect(plannedReferenceHours(day)).toBeCloseTo(((270 + 20) / 60) * rate(25) + (75 / 60) * rate(22), 10)
  })

  test("lets a retarded dough cool down instead of being cold at once", () => {
    const retarded = [stage("bulk", 240, 240, driven(24)), stage("retard", 720, 720, driven(4))]
    const cold = plannedReferenceHours(retarded)! - 4
    expect(cold).toBeGreaterThan(12 * rate(4) + 1)
    expect(cold).toBeLessThan(4)
  })

  test("is unknown without a driven stage or its reference temperature", () => {
    expect(plannedReferenceHours([stage("bake", 40, 40)])).toBeUndefined()
    expect(plannedReferenceHours([stage("bulk", 240, 240, driven())])).toBeUndefined()
  })
})

test("a plan for baker's yeast counts the hours of baker's yeast", () => {
  const proof = [stage("proof", 60, 60, driven(32))]
  expect(plannedReferenceHours(proof, "baker's yeast")).toBeCloseTo(rate(32, "baker's yeast"), 10)
})
