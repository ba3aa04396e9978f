import fc from "fast-check"
import { describe, expect, test } from "vitest"
import type { CauseKey, Causes } from "../../../server/dough/causes/bake-causes.ts"
import { type Led, standApart } from "../../../server/dough/class-picture/apart.ts"
import { explainedSpread } from "../../../server/dough/class-picture/explained.ts"
import { lineThrough } from "../../../server/dough/class-picture/line.ts"
import { type Against, proposalsFor } from "../../../server/dough/class-picture/proposals.ts"
import { isShared, sharedDifference } from "../../../server/dough/class-picture/shared.ts"
import { rate } from "../../../server/dough/fermentation/growth.ts"
import { gasMade } from "../../../server/dough/fermentation/leaven.ts"
import { plannedReferenceHours } from "../../../server/dough/schedule.ts"
import { tinLoaf } from "../../class-day.ts"
import { told } from "../statistics/values.ts"

type Minutes = Partial<Record<CauseKey, number>>
const keys: CauseKey[] = ["time", "temperature", "leaven", "activity"]

/** A bake with these minutes of its causes; a cause that is left out is not known. */
function bake(key: number, minutes: Minutes, flour = "strong white flour"): Led & { flour: string } {
  const known = keys.filter((one) => minutes[one] !== undefined)
  const leadMin = known.reduce((sum, one) => sum + minutes[one]!, 0)
  const causes: Extract<Causes, { enough: true }> = {
    ...{ enough: true, leadMin, leadLowMin: leadMin, leadHighMin: leadMin, differed: { min: 0 } },
    shares: known.map((one) => ({ key: one, min: minutes[one]!, lowMin: 0, highMin: 0, percent: undefined })),
    leftAtPlan: keys.filter((one) => !known.includes(one)).map((one) => ({ key: one, why: "not measured" })),
  }
  return { key: String(key), causes, flour }
}
const minutes = fc.record(
  Object.fromEntries(keys.map((key) => [key, fc.integer({ min: -90, max: 90 })])) as Record<
    CauseKey,
    fc.Arbitrary<number>
  >,
)

describe("explainedSpread", () => {
  test("shares add up to one, with flour among them and without", () => {
    fc.assert(
      fc.property(fc.array(minutes, { minLength: 8, maxLength: 14 }), (all) => {
        for (const flours of [["white"], ["white", "rye"]]) {
          const answer = explainedSpread(all.map((one, at) => bake(at, one, flours[at % flours.length]!)))
          if (!answer.enough) return
          const { parts } = answer.value
          expect(parts.some(({ key }) => key === "flour")).toBe(flours.length > 1)
          expect(parts.reduce((sum, { share }) => sum + share, 0)).toBeCloseTo(1, 9)
          for (const { share, low, high } of parts) expect(low <= share && share <= high).toBe(true)
        }
      }),
    )
  })

  test("what bakes with one flour have in common is the flour's, and not the starter's", () => {
    const class10 = Array.from({ length: 10 }, (_, at) => {
      const rye = at % 2 === 0
      return bake(at, { time: 0, temperature: 0, leaven: 0, activity: rye ? 40 : -40 }, rye ? "rye" : "white")
    })
    const { parts, flours } = told(explainedSpread(class10))
    expect(parts[0]).toMatchObject({ key: "flour", share: expect.closeTo(1, 9) })
    expect(flours).toEqual([
      { name: "rye", bakes: 5 },
      { name: "white", bakes: 5 },
    ])
  })

  test("where few jars were read, leaven is only how much of it there was", () => {
    const noJar = Array.from({ length: 9 }, (_, at) => bake(at, { time: at * 10, temperature: -at, leaven: 0 }))
    expect(told(explainedSpread(noJar))).toMatchObject({ livelinessCounted: false, counted: expect.any(Array) })
  })

  test("a bake that stands apart is left out, where eight others remain", () => {
    const even = Array.from({ length: 9 }, (_, at) =>
      bake(at, { time: at * 3, temperature: -at, leaven: 0, activity: 0 }),
    )
    const wild = bake(99, { time: 900, temperature: 0, leaven: 0, activity: 0 })
    expect(told(explainedSpread([...even, wild]))).toMatchObject({ leftOut: ["99"] })
    expect(told(explainedSpread([...even.slice(0, 7), wild])).leftOut).toEqual([])
  })

  test("nothing of seven bakes with a temperature, nor of eight that are all alike", () => {
    const seven = Array.from({ length: 7 }, (_, at) => bake(at, { time: at, temperature: at, leaven: 0 }))
    const unmeasured = Array.from({ length: 5 }, (_, at) => bake(10 + at, { time: at, leaven: 0 }))
    expect(explainedSpread([...seven, ...unmeasured])).toMatchObject({ enough: false })
    const alike = Array.from({ length: 8 }, (_, at) => bake(at, { time: 5, temperature: 5, leaven: 0 }))
    expect(explainedSpread(alike)).toEqual({ enough: false, why: "All of them came to the oven equally far on." })
  })
})

describe("standApart", () => {
  const even = [0, 4, -6, 8, -3, 5].map((time, at) => bake(at, { time, temperature: 0 }))

  test("names the cause that set a bake apart, against what the class has in common", () => {
    const hot = bake(50, { time: 5, temperature: 140 })
    const { apart } = told(standApart([...even, hot]))
    expect(apart).toHaveLength(1)
    expect(apart[0]).toMatchObject({ key: "50", reason: { key: "temperature", min: 140 } })
  })

  test("finds no reason where none carries even half of the distance", () => {
    const odd = bake(50, { time: 50, temperature: 50, leaven: 50, activity: 50 })
    expect(told(standApart([...even, odd])).apart[0]).not.toHaveProperty("reason")
  })

  test("has no verdict of four bakes, nor where more than half are the same", () => {
    expect(standApart(even.slice(0, 4))).toMatchObject({ enough: false })
    const same = [0, 0, 0, 0, 90].map((time, at) => bake(at, { time }))
    expect(standApart(same)).toMatchObject({ enough: false, why: expect.stringContaining("More than half") })
  })
})

test("a line needs five points, not all at one temperature, and its limits turn about the middle", () => {
  const points = [20, 22, 23, 25, 26, 28].map((x, at) => ({ x, y: 12 - 0.3 * x + [0.1, -0.1, 0.2, -0.2, 0.1, 0][at]! }))
  expect(lineThrough(points.slice(0, 4))).toEqual({ enough: false, why: "Four such bakes; it takes five." })
  expect(lineThrough(points.map(({ y }) => ({ x: 24, y })))).toMatchObject({ enough: false })

  const line = told(lineThrough(points))
  expect(line.slope).toBeCloseTo(-0.3, 1)
  const width = (x: number) => line.limitsAt(x)!.high - line.limitsAt(x)!.low
  expect(width(24)).toBeCloseTo(0, 9)
  expect(width(28)).toBeGreaterThan(0)
  expect(line.limitsAt(20)!.low).toBeLessThanOrEqual(line.at(20))
})

const shared = (values: number[]) => told(sharedDifference(values))

test("a difference is shared where nearly all lie on one side, by enough to matter", () => {
  expect(isShared(shared([12, 20, 15, 9, 30, 18]), 10)).toBe(true)
  expect(isShared(shared([12, 20, 15, -9, 30, 18]), 10)).toBe(false)
  expect(isShared(shared([2, 3, 1, 2, 4, 2]), 10)).toBe(false)
  expect(sharedDifference([12, 20, 15, 9, 30])).toMatchObject({ enough: false })
})

describe("proposalsFor", () => {
  const leaven = { culture: "sourdough", share: 0.1 } as const
  const planned = { stages: tinLoaf.stages, leaven, targetRise: 0.5, wellRises: [] }
  const long = shared([40, 50, 45, 42, 48, 46])
  const nothing: Against = { stages: [] }

  test("a class on plan proposes nothing", () => {
    const little = shared([1, -2, 3, 2, -1, 0])
    const against = { stages: [{ key: "bulk", difference: little }], temperature: little, lead: little }
    expect(proposalsFor(against, planned)).toEqual([])
  })

  test("a bulk that all left longer gets that length, unless they came to the oven too far on with it", () => {
    const stages = [{ key: "bulk", difference: long }]
    expect(proposalsFor({ stages }, planned)).toEqual([
      {
        ...{ kind: "length", stageKey: "bulk", because: "taken" },
        ...{ was: { lowMin: 240, highMin: 360 }, now: { lowMin: 285, highMin: 405 } },
      },
    ])
    expect(proposalsFor({ stages, lead: long }, planned)).toEqual([])
  })

  test("shaping that took all of them longer is longer, whatever became of the dough", () => {
    const stages = [{ key: "shape", difference: shared([12, 15, 14, 16, 13, 15]) }]
    const [proposal] = proposalsFor({ stages, lead: long }, planned)
    // shaping lies between stages that temperature drives, so a class that strayed there strayed
    expect(proposal).toBeUndefined()
    const [mixing] = proposalsFor({ stages: [{ ...stages[0]!, key: "mix" }], lead: long }, planned)
    expect(mixing).toMatchObject({ kind: "length", stageKey: "mix", now: { lowMin: 35, highMin: 35 } })
  })

  test("doughs that were all warmer get the temperature, and lengths in which they ferment as much", () => {
    const warm = shared([2, 2.2, 1.9, 2.1, 2, 1.8])
    const proposals = proposalsFor(
      { ...nothing, temperature: warm, stages: [{ key: "bulk", difference: long }] },
      planned,
    )
    expect(proposals[0]).toEqual({ kind: "reference", stageKeys: ["bulk", "proof"], wasC: 24, nowC: 26 })
    const changed = tinLoaf.stages.map((stage) => {
      const length = proposals.find((one) => one.kind === "length" && one.stageKey === stage.key)
      const now = length?.kind === "length" ? length.now : {}
      return { ...stage, ...now, ...(stage.referenceC === undefined ? {} : { referenceC: 26 }) }
    })
    // shaping, which is not driven, is warmer too: 20 minutes at the new rate
    const before = plannedReferenceHours(tinLoaf.stages)! + (rate(26) - 1) / 3
    expect(Math.abs(plannedReferenceHours(changed)! - before)).toBeLessThan(0.12)
  })

  test("leavens that were all livelier get less, so that the planned time makes the planned gas", () => {
    const lively = shared([0.25, 0.3, 0.28, 0.26, 0.27, 0.29])
    const [proposal] = proposalsFor({ ...nothing, liveliness: lively }, planned)
    if (proposal?.kind !== "leaven") throw new Error("no leaven was proposed")
    const hours = plannedReferenceHours(tinLoaf.stages)!
    const gas = proposal.ratio * gasMade({ ...leaven, share: proposal.now }, hours)
    expect(Math.abs(gas / gasMade(leaven, hours) - 1)).toBeLessThan(0.03)
    expect(proposal.now).toBeLessThan(leaven.share)
  })

  test("the target becomes that of the bakes that came out well", () => {
    const wellRises = [0.62, 0.65, 0.66, 0.7, 0.64, 0.68]
    expect(proposalsFor(nothing, { ...planned, wellRises })).toEqual([{ kind: "target rise", was: 0.5, now: 0.65 }])
    expect(proposalsFor(nothing, { ...planned, wellRises: wellRises.slice(0, 5) })).toEqual([])
  })
})
