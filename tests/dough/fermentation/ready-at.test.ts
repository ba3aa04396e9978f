import fc from "fast-check"
import { describe, expect, test } from "vitest"
import { usualPrior } from "../../../server/dough/fermentation/dough-fit.ts"
import type { Culture } from "../../../server/dough/fermentation/growth.ts"
import type { Leaven } from "../../../server/dough/fermentation/leaven.ts"
import { predictReady } from "../../../server/dough/fermentation/prediction.ts"
import {
  ratioReadyAt,
  shareReadyAt,
  temperatureReadyAt,
  type Wish,
} from "../../../server/dough/fermentation/ready-at.ts"
import { shareOfRatio } from "../../../server/dough/fermentation/sourdough-rise.ts"
import type { CurvePoint } from "../../../server/dough/fermentation/temperature-curve.ts"

const start = Date.UTC(2025, 2, 8, 8)
const clock = (hours: number) => new Date(start + hours * 3_600_000)
const steady = (doughC: number): CurvePoint[] => [0, 100].map((h) => ({ at: clock(h), doughC, known: "assumed" }))

function found<Value>(wish: Wish<Value>) {
  if (wish.kind === "none") throw new Error(wish.why)
  return wish
}
const hoursPredicted = (leaven: Leaven, doughC: number, targetRise: number) => {
  const answer = predictReady({
    leaven,
    startsAt: clock(0),
    now: clock(0),
    curve: steady(doughC),
    rises: [],
    targetRise,
  })
  if (answer.kind !== "ready") throw new Error(answer.why)
  return (+answer.readyAt - start) / 3_600_000
}

const cultures: [Culture, number][] = [
  ["sourdough", 0.5],
  ["baker's yeast", 1],
]
const hours = fc.double({ min: 4, max: 14, noNaN: true })
const warmth = fc.double({ min: 20, max: 28, noNaN: true })

describe.each(cultures)("for %s", (culture, targetRise) => {
  test("the share that is found is ready at the time it was wished for", () => {
    fc.assert(
      fc.property(hours, warmth, (wished, doughC) => {
        const times = { startsAt: clock(0), readyAt: clock(wished), targetRise }
        const wish = shareReadyAt({ ...times, culture, curve: steady(doughC) })
        if (wish.kind === "none") return
        expect(hoursPredicted({ culture, share: wish.value }, doughC, targetRise)).toBeCloseTo(wished, 3)
        expect(wish.lively!).toBeLessThan(wish.value)
        expect(wish.tired ?? Number.POSITIVE_INFINITY).toBeGreaterThan(wish.value)
      }),
    )
  })

  test("so is the temperature", () => {
    const leaven: Leaven = { culture, share: culture === "sourdough" ? 0.12 : 0.004 }
    const wish = found(temperatureReadyAt({ leaven, startsAt: clock(0), readyAt: clock(7), targetRise }))
    expect(hoursPredicted(leaven, wish.value, targetRise)).toBeCloseTo(7, 3)
    expect(wish.lively!).toBeLessThan(wish.value)
    expect(wish.tired ?? 60).toBeGreaterThan(wish.value)
  })

  test("a target that is none is refused, and a time before the start", () => {
    const leaven: Leaven = { culture, share: 0.01 }
    expect(() => temperatureReadyAt({ leaven, startsAt: clock(0), readyAt: clock(0), targetRise })).toThrow(RangeError)
    expect(() => temperatureReadyAt({ leaven, startsAt: clock(0), readyAt: clock(5), targetRise: 0 })).toThrow(
      RangeError,
    )
    const backwards = { culture, curve: steady(24), startsAt: clock(2), readyAt: clock(1), targetRise }
    expect(() => shareReadyAt(backwards)).toThrow(RangeError)
  })
})

describe("a levain in its jar", () => {
  const jar = { curve: steady(21), starterHydration: 1, hydration: 1, targetRise: 1, startsAt: clock(0) }

  test("is fed about 1 : 1 : 1 to be doubled after 6.7 h at 21 °C, and 1 : 5 : 5 for 11 h", () => {
    const short = found(ratioReadyAt({ ...jar, readyAt: clock(6.7) })).value
    expect(short.flour).toBeCloseTo(1, 1)
    expect(short.water).toBeCloseTo(1, 1)
    expect(found(ratioReadyAt({ ...jar, readyAt: clock(11.2) })).value.flour).toBeCloseTo(5, 0)
  })

  test("is fed more when it is lively, less when it is tired", () => {
    const wish = found(ratioReadyAt({ ...jar, readyAt: clock(9) }))
    expect(wish.lively!.flour).toBeGreaterThan(wish.value.flour)
    expect(wish.tired!.flour).toBeLessThan(wish.value.flour)
    expect(shareOfRatio(wish.lively!, 1)).toBeLessThan(shareOfRatio(wish.value, 1))
  })
})

describe("nothing is made up", () => {
  const times = { startsAt: clock(0), readyAt: clock(1), targetRise: 0.5 }

  test("when the time is too short for any share", () => {
    const wish = shareReadyAt({ ...times, culture: "sourdough", curve: steady(24) })
    expect(wish).toMatchObject({ kind: "none", why: expect.stringContaining("too little time") })
    const cold = shareReadyAt({ ...times, readyAt: clock(9), culture: "baker's yeast", curve: steady(2) })
    expect(cold).toMatchObject({ kind: "none", why: expect.stringContaining("too cold") })
  })

  test("when a tired leaven would not do it at any share", () => {
    expect(
      found(shareReadyAt({ ...times, readyAt: clock(3.2), culture: "sourdough", curve: steady(25), targetRise: 0.6 }))
        .tired,
    ).toBeUndefined()
  })

  test("when the dough cannot hold the target", () => {
    const tooMuch = { ...times, readyAt: clock(9), targetRise: 0.9, prior: usualPrior("sourdough") }
    const above = { kind: "none", why: expect.stringContaining("above what this dough can hold") }
    expect(shareReadyAt({ ...tooMuch, culture: "sourdough", curve: steady(24) })).toMatchObject(above)
    expect(temperatureReadyAt({ ...tooMuch, leaven: { culture: "sourdough", share: 0.2 } })).toMatchObject(above)
    expect(
      temperatureReadyAt({ ...tooMuch, prior: undefined, leaven: { culture: "sourdough", share: 0.2 } }),
    ).toMatchObject({ kind: "found" })
  })

  test("when no temperature is warm or cold enough", () => {
    const leaven: Leaven = { culture: "sourdough", share: 0.1 }
    expect(temperatureReadyAt({ ...times, leaven })).toMatchObject({ why: "Even at its best, 27 °C, it takes longer." })
    const weeks = { ...times, readyAt: clock(2000), leaven }
    expect(temperatureReadyAt(weeks)).toMatchObject({ why: "Even at 3 °C it is ready sooner." })
  })
})
