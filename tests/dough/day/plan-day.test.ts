import { describe, expect, test } from "vitest"
import { tinLoaf } from "../../../server/demo/tin-loaf.ts"
import { withChange } from "../../../server/dough/day/changed.ts"
import { checkDay } from "../../../server/dough/day/check-day.ts"
import type { Away, DayPlan, DayQuestion } from "../../../server/dough/day/day.ts"
import { handsOnMoments } from "../../../server/dough/day/hands-on.ts"
import { planDay } from "../../../server/dough/day/plan-day.ts"
import { coolingHours, countBack, type Stage } from "../../../server/dough/schedule.ts"
import { driven, handsOn, hoursAfter, nights, stage } from "./kitchens.ts"

const supper = new Date("2026-05-02T18:00:00Z")
const untilSupper = (hours: number) => hoursAfter(supper, -hours)

/** A plain dough: bulk five hours and proof one and a half, at 24 °C. */
const plain = [
  stage("mix", 15, 15, handsOn(15)),
  stage("bulk", 270, 330, { ...driven(24), ...handsOn(10) }),
  stage("shape", 20, 20, handsOn(20)),
  stage("proof", 80, 120, driven(24)),
  stage("bake", 45, 45, handsOn(6)),
]
const asked = (more: Partial<DayQuestion> = {}): DayQuestion => ({
  ...{ stages: plain, culture: "sourdough", places: { room: 24 }, mixedC: { value: 24, known: "assumed" } },
  ...{ onTableBy: supper, away: [], loads: 1 },
  ...more,
})
const fitted = (more: Partial<DayQuestion> = {}): DayPlan => {
  const answer = planDay(asked(more))
  if (!answer.fits) throw new Error(JSON.stringify(answer.broken))
  return answer.plan
}
const unfit = (more: Partial<DayQuestion>) => {
  const answer = planDay(asked(more))
  if (answer.fits) throw new Error("it fits")
  return answer
}
const of = ({ stages }: DayPlan, key: string) => stages.find((one) => one.stage.key === key)!
const minutesOf = (plan: DayPlan, key: string) => (+of(plan, key).endsAt - +of(plan, key).startsAt) / 60_000
const busy = (fromHours: number, toHours: number): Away => ({
  from: untilSupper(fromHours),
  to: untilSupper(toHours),
  why: "busy",
})

describe("a day in a kitchen as warm as the formula's", () => {
  test("is the instructor's: every stage at its middle, on the table on time", () => {
    const counted = countBack(plain, supper)
    const times = (stages: { startsAt: Date; endsAt: Date }[]) =>
      stages.map(({ startsAt, endsAt }) => [startsAt, endsAt])
    expect(times(fitted().stages)).toEqual(times(counted))
    expect(fitted()).toMatchObject({ onTableAt: supper, startsAt: counted[0]!.startsAt })
  })

  test("may begin and end each stage as much sooner and later as the rest allows", () => {
    expect(of(fitted(), "proof")).toMatchObject({
      earliestStart: untilSupper(165 / 60),
      latestStart: untilSupper(125 / 60),
      earliestEnd: untilSupper(45 / 60),
      latestEnd: untilSupper(45 / 60),
    })
  })
})

describe("a day in another kitchen", () => {
  test("is longer in the cold and shorter in the warm, for as many hours of fermentation", () => {
    const plans = [18, 21, 24, 27].map((room) => fitted({ places: { room } }))
    const bulks = plans.map((plan) => minutesOf(plan, "bulk"))
    expect(bulks).toEqual(bulks.toSorted((a, b) => b - a))
    for (const plan of plans) expect(of(plan, "bulk").hours).toBeCloseTo(of(plan, "bulk").wantedHours!, 1)
    for (const plan of plans) expect(minutesOf(plan, "shape")).toBe(20)
  })

  test("starts as warm as the dough was mixed, and moves toward the room", () => {
    const { stages, curve } = fitted({ places: { room: 20 }, mixedC: { value: 26, known: "measured" } })
    expect(stages[0]).toMatchObject({ startC: 26, endC: 26 })
    expect(curve[0]).toMatchObject({ doughC: 26, known: "measured" })
    expect(stages[1]!.endC).toBeGreaterThan(20)
    expect(stages[1]!.endC).toBeLessThan(22)
    expect(curve.at(-1)!.at).toEqual(stages[4]!.startsAt)
  })

  test("puts a stage where the person wants it", () => {
    const plan = fitted({ places: { room: 18, proofer: 28 }, placeOf: { bulk: "proofer" } })
    expect(of(plan, "bulk")).toMatchObject({ place: "proofer" })
    expect(minutesOf(plan, "bulk")).toBeLessThan(minutesOf(fitted({ places: { room: 18 } }), "bulk"))
    expect(of(plan, "bulk").handsOn[0]!.from).toEqual(of(plan, "bulk").startsAt)
  })

  test("does not stand in a place that the kitchen does not have", () => {
    expect(of(fitted({ placeOf: { bulk: "proofer" } }), "bulk").place).toBe("room")
  })
})

describe("hands on the dough", () => {
  test("are asked for at the start of a stage, in the first half of a bulk, and at both ends of a bake", () => {
    const plan = fitted()
    const [bulk, shape, bake] = ["bulk", "shape", "bake"].map((key) => of(plan, key))
    expect(shape!.handsOn).toEqual([{ from: shape!.startsAt, to: shape!.endsAt }])
    expect(bulk!.handsOn.map(({ from, to }) => [(+from - +bulk!.startsAt) / 60_000, (+to - +from) / 60_000])).toEqual([
      [45, 5],
      [90, 5],
    ])
    expect(bake!.handsOn.map(({ from, to }) => [from, to])).toEqual([
      [bake!.startsAt, hoursAfter(bake!.startsAt, 3 / 60)],
      [hoursAfter(bake!.endsAt, -3 / 60), bake!.endsAt],
    ])
    expect(handsOnMoments(plan).map((one) => one.stage.stage.key)).toEqual([
      ...["mix", "bulk", "bulk", "shape", "bake", "bake"],
    ])
  })

  test("wait until somebody is there, and the dough meanwhile", () => {
    const plan = fitted({ away: [busy(2.6, 2.3)] })
    expect(+of(plan, "shape").endsAt).toBeLessThanOrEqual(+untilSupper(2.6))
    expect(plan.onTableAt).toEqual(supper)
    expect(minutesOf(plan, "proof")).toBeGreaterThan(100)
  })

  test("fold a little sooner or later than usual rather than never", () => {
    const usual = fitted()
    const fold = of(usual, "bulk").handsOn[0]!
    const away: Away[] = [{ from: fold.from, to: hoursAfter(fold.to, 0.1), why: "busy" }]
    const plan = fitted({ away })
    expect(plan.startsAt).toEqual(usual.startsAt)
    expect(of(plan, "bulk").handsOn[0]).not.toEqual(fold)
  })

  test("are free in the night, over which a levain ripens", () => {
    const { stages } = tinLoaf
    const plan = fitted({ stages, places: { room: 21 }, away: nights(supper) })
    expect(+of(plan, "feed").endsAt).toBeLessThanOrEqual(+new Date("2026-05-01T22:30Z"))
    expect(+of(plan, "mix").startsAt).toBeGreaterThanOrEqual(+new Date("2026-05-02T06:30Z"))
    expect(of(plan, "ripen")).toMatchObject({ startC: 21, endC: 21 })
    expect(of(plan, "mix")).toMatchObject({ startC: 24, endC: 24 })
  })
})

describe("a levain", () => {
  const ratio = (flour: number) => ({ starter: 1, flour, water: flour })
  const levain = (fed: number) => ({ stageKey: "ripen", written: ratio(5), fed: ratio(fed), starterHydration: 1 })
  const ripens = (fed: number) => minutesOf(fitted({ stages: tinLoaf.stages, levain: levain(fed) }), "ripen")

  test("as written takes the hours that are written, with more starter fewer, with less more", () => {
    expect(ripens(5)).toBe(600)
    expect(ripens(1)).toBeLessThan(420)
    expect(ripens(10)).toBeGreaterThan(690)
  })

  test("fed otherwise is among the changes that make a day fit", () => {
    const { stages } = tinLoaf
    const { suggestions } = unfit({ stages, levain: levain(5), notBefore: untilSupper(18) })
    const fed = suggestions.find(({ kind }) => kind === "levain")!
    expect(fed.change.fed!.flour).toBeLessThan(5)
    expect(+fed.plan.startsAt).toBeGreaterThanOrEqual(+untilSupper(18))
  })
})

describe("the fridge", () => {
  const retarded = [...plain.slice(0, 3), stage("retard", 480, 720, driven(4)), plain[4]!]
  const overnight = { proof: { stageKey: "proof", min: { low: 480, high: 960 } } }

  test("cools a retard by Newton's law, for as long as its stage says", () => {
    const plan = fitted({ stages: retarded, places: { room: 24, fridge: 5 } })
    const retard = of(plan, "retard")
    expect(retard.place).toBe("fridge")
    expect(minutesOf(plan, "retard")).toBe(600)
    expect(retard.hours).toBeCloseTo(coolingHours(24, 5, 10, "sourdough"), 2)
    expect(retard.wantedHours).toBeCloseTo(coolingHours(24, 4, 10, "sourdough"), 2)
    expect(retard.endC).toBeLessThan(7)
  })

  test("takes a proof overnight, if it still comes to its hours", () => {
    const plan = fitted({ places: { room: 21, fridge: 4 }, cold: overnight.proof })
    const { place, hours, wantedRange } = of(plan, "proof")
    expect(place).toBe("fridge")
    expect(minutesOf(plan, "proof")).toBeGreaterThanOrEqual(480)
    expect(hours).toBeGreaterThanOrEqual(wantedRange!.low)
    expect(hours).toBeLessThanOrEqual(wantedRange!.high)
  })

  test("is told to be no help for a dough that comes to it too warm", () => {
    const places = { room: 28, fridge: 7 }
    const { broken, plan } = unfit({ places, mixedC: { value: 28, known: "assumed" }, cold: overnight.proof })
    expect(broken).toEqual([{ what: "stage", stageKey: "proof", place: "fridge", placeC: 7, why: "too warm" }])
    expect(minutesOf(plan!, "proof")).toBe(480)
  })
})

describe("an oven that is filled more than once", () => {
  const stages = [...plain.slice(0, 4), stage("bake", 30, 30, handsOn(6))]

  test("bakes load after load, and the first is loaded early so that the last is not late", () => {
    const one = fitted({ stages })
    const two = fitted({ stages, loads: 2 })
    expect(two.loads.map(({ waitedMin }) => waitedMin)).toEqual([0, 30])
    expect(two.loads[1]!.startsAt).toEqual(two.loads[0]!.endsAt)
    expect(two.loads[1]!.endsAt).toEqual(supper)
    expect(minutesOf(two, "proof")).toBeLessThan(minutesOf(one, "proof"))
    const { hours, wantedRange } = of(two, "proof")
    expect(two.loads[1]!.addedHours).toBeCloseTo(0.5, 2)
    expect(hours + two.loads[1]!.addedHours).toBeLessThanOrEqual(wantedRange!.high + 0.02)
    expect(of(two, "bake").handsOn).toHaveLength(4)
  })

  test("is too small when the last pieces wait longer than they may", () => {
    const { broken, plan, suggestions } = unfit({ stages, loads: 3, places: { room: 24, fridge: 4, cool: 14 } })
    expect(broken).toEqual([{ what: "oven", load: 3, byMin: 20 }])
    expect(plan!.loads).toHaveLength(3)
    expect(suggestions.map(({ kind }) => kind).sort()).toEqual(["cold", "oven", "place"])
  })
})

describe("a day that does not fit", () => {
  const short = { places: { room: 20, proofer: 27 }, notBefore: untilSupper(7.5) }

  test("is told by how much the table would be late, and how much sooner to begin, the least first", () => {
    const { broken } = unfit(short)
    const [late, early] = ["on the table by", "not before"].map((what) => broken.find((one) => one.what === what))
    expect(late).toMatchObject({ byMin: expect.any(Number) })
    expect(early).toMatchObject({ byMin: (late as { byMin: number }).byMin })
    const byMin = broken.flatMap((one) => ("byMin" in one ? [one.byMin] : []))
    expect(byMin).toEqual(byMin.toSorted((a, b) => a - b))
  })

  test("shows the nearest plan, which breaks the first of that and nothing else", () => {
    const { plan, broken } = unfit(short)
    expect(checkDay(asked(short), plan!)).toEqual([broken[0]])
  })

  test("gets the smallest changes with which it fits, each with its plan", () => {
    const { suggestions } = unfit(short)
    const kinds = suggestions.map(({ kind }) => kind)
    expect(kinds).toContain("place")
    expect(kinds).toContain("later")
    expect(suggestions.find(({ kind }) => kind === "place")).toMatchObject({
      change: { placeOf: { bulk: "proofer" } },
      moves: [{ stageKey: "bulk", from: "room", to: "proofer" }],
    })
    for (const { change, plan } of suggestions) expect(checkDay(withChange(asked(short), change), plan)).toEqual([])
  })

  test("is told which time away is in the way, and how much less of it would do", () => {
    const away = [busy(3.4, 0.5)]
    const { broken } = unfit({ stages: plain.map(exactly), away, notBefore: untilSupper(8) })
    const [late, inTheWay] = broken
    expect(late).toEqual({ what: "on the table by", byMin: expect.any(Number) })
    expect(inTheWay).toMatchObject({ what: "busy", stageKey: "shape", to: untilSupper(0.5), byMin: expect.any(Number) })
    const freed = inTheWay?.what === "busy" ? inTheWay : undefined
    const lessBusy = (min: number) => [{ ...away[0]!, to: hoursAfter(untilSupper(0.5), -min / 60) }]
    const fits = (min: number) =>
      planDay(asked({ stages: plain.map(exactly), notBefore: untilSupper(8), away: lessBusy(min) })).fits
    expect([fits(freed!.byMin), fits(freed!.byMin - 1)]).toEqual([true, false])
  })

  test("is told what has to give way together where no one thing is enough", () => {
    const stages = [...plain.slice(0, 4), stage("bake", 30, 30, handsOn(6))]
    const { broken, together } = unfit({ stages, loads: 3, notBefore: untilSupper(7) })
    expect(together).toBe(true)
    expect(broken.map(({ what }) => what).sort()).toEqual(["on the table by", "oven"])
  })

  test("begins no sooner than now, whatever is suggested", () => {
    const { broken, suggestions } = unfit({ ...short, now: untilSupper(7.6) })
    expect(broken.map(({ what }) => what)).not.toContain("not before")
    expect(suggestions.map(({ kind }) => kind)).not.toContain("start earlier")
    for (const { plan } of suggestions) expect(+plan.startsAt).toBeGreaterThanOrEqual(+untilSupper(7.6))
  })

  test("gets two changes together where none alone does", () => {
    const { broken, suggestions } = unfit({ places: { room: 4, proofer: 26 }, notBefore: untilSupper(6) })
    expect(broken.map(({ what }) => what)).toEqual(["stage", "stage"])
    expect(suggestions[0]).toMatchObject({ kind: "place", also: expect.stringMatching(/later|start earlier/) })
  })

  test("is told when it is too cold for the dough anywhere, and then gets no suggestion", () => {
    const { plan, broken, suggestions } = unfit({ places: { room: 2 } })
    expect(broken[0]).toEqual({ what: "stage", stageKey: "bulk", place: "room", placeC: 2, why: "too cold" })
    expect(plan).toBeUndefined()
    expect(suggestions).toEqual([])
  })

  test("is told when nobody is ever there, and then gets no suggestion", () => {
    const { broken, suggestions, plan } = unfit({ away: [busy(200, -200)] })
    expect(new Set(broken.map(({ what }) => what))).toEqual(new Set(["busy"]))
    expect(plan).toBeDefined()
    expect(suggestions).toEqual([])
  })
})
const exactly = (one: Stage): Stage => ({ ...one, highMin: one.lowMin })

describe("the checker", () => {
  const plan = fitted()
  const moved = (key: string, minutes: number): DayPlan => {
    const at = plan.stages.findIndex((one) => one.stage.key === key)
    const stages = plan.stages.map((one, index) => {
      const [start, end] = [index > at, index >= at].map((isLater) => (isLater ? minutes / 60 : 0))
      const later = (date: Date) => hoursAfter(date, start!)
      const hands = one.handsOn.map(({ from, to }) => ({ from: later(from), to: later(to) }))
      return { ...one, startsAt: later(one.startsAt), endsAt: hoursAfter(one.endsAt, end!), handsOn: hands }
    })
    const loads = plan.loads.map((load) => ({
      ...load,
      startsAt: hoursAfter(load.startsAt, minutes / 60),
      endsAt: hoursAfter(load.endsAt, minutes / 60),
    }))
    return { ...plan, stages, loads, onTableAt: stages.at(-1)!.endsAt }
  }

  test.each([
    ["bulk", 40, "too warm"],
    ["bulk", -40, "too cold"],
    ["shape", 10, "too long"],
    ["shape", -5, "too short"],
  ])("sees that a %s is %d min off: %s", (key, minutes, why) => {
    expect(checkDay(asked({ onTableBy: hoursAfter(supper, 1) }), moved(key, minutes))).toContainEqual(
      expect.objectContaining({ what: "stage", stageKey: key, why }),
    )
  })

  test("sees that bread is late, that a day begins early, and that somebody is away", () => {
    expect(checkDay(asked({ onTableBy: untilSupper(0.5) }), plan)).toEqual([{ what: "on the table by", byMin: 30 }])
    expect(checkDay(asked({ notBefore: hoursAfter(plan.startsAt, 1) }), plan)).toEqual([
      { what: "not before", byMin: 60 },
    ])
    const { startsAt, endsAt } = of(plan, "shape")
    const away: Away[] = [{ from: hoursAfter(startsAt, 0.25), to: hoursAfter(endsAt, 1), why: "asleep" }]
    expect(checkDay(asked({ away }), plan)).toEqual([
      { what: "asleep", stageKey: "shape", from: hoursAfter(startsAt, 0.25), to: endsAt, byMin: 5 },
    ])
  })

  test("sees that nobody is asked to shape, and that the oven is filled too seldom", () => {
    const forgotten = {
      ...plan,
      stages: plan.stages.map((one) => (one.stage.key === "shape" ? { ...one, handsOn: [] } : one)),
    }
    expect(checkDay(asked(), forgotten)).toMatchObject([{ what: "stage", stageKey: "shape", why: "nobody there" }])
    expect(checkDay(asked({ loads: 2 }), plan)).toMatchObject([{ what: "stage", stageKey: "bake" }])
  })

  test("refuses a plan of other stages", () => {
    expect(() => checkDay(asked({ stages: plain.slice(1) }), plan)).toThrow(RangeError)
  })
})

test.each([
  ["minutes that are no duration", { stages: [stage("bulk", 60, 30)] }],
  ["a room that no dough stands in", { places: { room: 80 } }],
])("refuses %s", (_, more) => {
  expect(() => planDay(asked(more))).toThrow(RangeError)
})

test("a day of no stages is over at once", () => {
  expect(planDay(asked({ stages: [] }))).toMatchObject({ fits: true, plan: { stages: [], onTableAt: supper } })
})
