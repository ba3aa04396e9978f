import fc from "fast-check"
import { describe, expect, test } from "vitest"
import { rate } from "../../../server/dough/fermentation/growth.ts"
import { ratioReadyAt, temperatureReadyAt } from "../../../server/dough/fermentation/ready-at.ts"
import { hourMs } from "../../../server/dough/fermentation/temperature-curve.ts"
import {
  type Build,
  buildsFrom,
  type Count,
  counts,
  feedingsOf,
  type Levain,
} from "../../../server/dough/levain/builds.ts"
import { feedingIn, massesOfBuilds } from "../../../server/dough/levain/feeding.ts"
import { inTime } from "../../../server/dough/levain/in-time.ts"
import { hoursAt, hoursToRipe, jarPrior, ripeningTable, shareRipeAfter } from "../../../server/dough/levain/ripening.ts"
import { type Food, weighedBuilds } from "../../../server/dough/levain/weighed.ts"

const feedAt = new Date("2026-11-14T20:00:00Z")
const inHours = (hours: number) => new Date(+feedAt + hours * hourMs)
const levain: Levain = {
  need: { neededG: 220, keepG: 20, sticks: { share: 0.05 } },
  starter: { hydration: 1 },
  ...{ hydration: 1, other: 0, rise: 1, atC: 22 },
}
const withStarter = (g: number, changes: Partial<Levain> = {}): Levain => ({
  ...levain,
  ...changes,
  starter: { g, hydration: 1 },
})
const buildsOf = (answer: ReturnType<typeof inTime>): Build[] => ("builds" in answer ? answer.builds : [])
const hoursBetween = (from: Date, to: Date) => (+to - +from) / hourMs

const levains = fc.record({
  neededG: fc.double({ min: 5, max: 5000, noNaN: true }),
  keepG: fc.double({ min: 0, max: 200, noNaN: true }),
  sticks: fc.oneof(
    fc.double({ min: 0, max: 0.3, noNaN: true }).map((share) => ({ share })),
    fc.double({ min: 0, max: 30, noNaN: true }).map((g) => ({ g })),
  ),
  g: fc.option(fc.double({ min: 1, max: 500, noNaN: true }), { nil: undefined }),
  starterHydration: fc.double({ min: 0.45, max: 2, noNaN: true }),
  hydration: fc.double({ min: 0.45, max: 1.3, noNaN: true }),
  other: fc.constantFrom(0, 0.01),
  rise: fc.double({ min: 0.5, max: 2, noNaN: true }),
  atC: fc.double({ min: 10, max: 34, noNaN: true }),
  hours: fc.double({ min: 0.5, max: 120, noNaN: true }),
  count: fc.option(fc.constantFrom<Count[]>(...counts), { nil: undefined }),
})
const wished = ({
  neededG,
  keepG,
  sticks,
  g,
  starterHydration,
  ...rest
}: typeof levains extends fc.Arbitrary<infer One> ? One : never) => ({
  ...rest,
  ...{ need: { neededG, keepG, sticks }, starter: { ...(g === undefined ? {} : { g }), hydration: starterHydration } },
})

describe("for any levain, starter, place and time", () => {
  test("what one build makes is what the next is fed with and what stays, and no more starter is used than there is", () => {
    fc.assert(
      fc.property(levains, (one) => {
        const wish = wished(one)
        const builds = buildsOf(inTime(wish, { feedAt, ripeAt: inHours(one.hours) }, one.count))
        for (const [index, build] of builds.entries()) {
          const { starterG, flourG, otherG, waterG, madeG, goesOnG, staysG } = build
          expect(starterG + flourG + otherG + waterG).toBeCloseTo(madeG, 6)
          expect(goesOnG + staysG).toBeCloseTo(madeG, 6)
          expect(goesOnG).toBeCloseTo(builds[index + 1]?.starterG ?? one.neededG, 6)
          expect(Math.min(flourG, waterG + 1e-9, staysG + 1e-9)).toBeGreaterThanOrEqual(0)
        }
        if (one.g !== undefined && builds[0]) expect(builds[0].starterG).toBeLessThanOrEqual(one.g * (1 + 1e-6))
      }),
      { numRuns: 1000 },
    )
  })

  test("builds in time are ripe on the minute, each fed when the one before is ripe", () => {
    fc.assert(
      fc.property(levains, (one) => {
        const answer = inTime(wished(one), { feedAt, ripeAt: inHours(one.hours) }, one.count)
        const builds = buildsOf(answer)
        const [first, last] = [builds[0], builds.at(-1)]
        for (const [index, { ripe }] of builds.entries()) {
          if (builds[index + 1]) expect(+builds[index + 1]!.feedAt).toBe(+ripe.at)
          expect(ripe.earliest < ripe.at && ripe.at < ripe.latest).toBe(true)
        }
        if (answer.kind === "in time") {
          expect(+first!.feedAt).toBe(+feedAt)
          expect(hoursBetween(inHours(one.hours), last!.ripe.at)).toBeCloseTo(0, 4)
        }
        if (answer.kind === "late") expect(last!.ripe.at > inHours(one.hours - 1e-6)).toBe(true)
        if (answer.kind === "early") expect(first!.feedAt > feedAt).toBe(true)
        if (answer.kind === "too little") expect(answer.makesG).toBeLessThan(one.neededG)
      }),
      { numRuns: 1000 },
    )
  })

  test("what is late is in time once it is fed as early as is said", () => {
    fc.assert(
      fc.property(levains, (one) => {
        const [wish, ripeAt] = [wished(one), inHours(one.hours)]
        const answer = inTime(wish, { feedAt, ripeAt }, one.count)
        if (answer.kind !== "late") return
        const builds = buildsFrom(
          answer.builds.map(({ feeding }) => feeding),
          wish,
          answer.feedBy,
        )
        expect(hoursBetween(ripeAt, builds.at(-1)!.ripe.at)).toBeCloseTo(0, 4)
      }),
      { numRuns: 300 },
    )
  })

  test("weighed, a build's things add up to what it makes, and still take no more starter than there is", () => {
    const food: Food[] = [
      { name: "white", share: 0.82, kind: "flour" },
      { name: "wholemeal", share: 0.18, kind: "flour" },
      { name: "malt", share: 1, kind: "other" },
    ]
    fc.assert(
      fc.property(levains, fc.constantFrom(0.1, 0.5, 1, 2, 5, 2.8349523125), (one, stepG) => {
        const wish = wished(one)
        const builds = buildsOf(inTime(wish, { feedAt, ripeAt: inHours(one.hours) }, one.count))
        const weighed = weighedBuilds(builds, { need: wish.need, food, stepG, mostStarterG: one.g })
        for (const [index, { things, madeG, goesOnG, staysG }] of weighed.entries()) {
          expect(things.reduce((sum, { g }) => sum + g, 0)).toBeCloseTo(madeG, 6)
          expect(goesOnG).toBeCloseTo(weighed[index + 1]?.things[0]?.g ?? one.neededG, 6)
          expect(staysG).toBeGreaterThan(-1e-6)
          for (const { g } of things) expect(g / stepG).toBeCloseTo(Math.round(g / stepG), 6)
        }
        if (one.g !== undefined && weighed[0]) expect(weighed[0].things[0]!.g).toBeLessThanOrEqual(one.g + 1e-9)
      }),
      { numRuns: 500 },
    )
  })
})

test("one feeding where one fills the time, with the amounts of its ratio", () => {
  const answer = inTime(levain, { feedAt, ripeAt: inHours(8) })
  expect(answer.kind).toBe("in time")
  const [build, ...more] = buildsOf(answer)
  expect(more).toEqual([])
  expect(build!.flourG).toBeCloseTo(build!.waterG, 9)
  expect(build!.madeG).toBeCloseTo(240 / 0.95, 9)
  expect(hoursAt(22, hoursToRipe(build!.feeding.share, 1))!.hours).toBeCloseTo(8, 9)
})

test("two builds where one feeding would be ripe long before, and when one alone would do", () => {
  const answer = inTime(levain, { feedAt, ripeAt: inHours(22) })
  const builds = buildsOf(answer)
  expect(builds).toHaveLength(2)
  expect(builds[1]!.feedAt).toEqual(inHours(11))
  expect(answer.kind === "in time" && answer.once! > feedAt && answer.once! < inHours(11)).toBe(true)
})

test("two builds where the starter at hand would have to be fed more thinly than anybody does", () => {
  const builds = buildsOf(inTime(withStarter(3), { feedAt, ripeAt: inHours(22) }))
  expect(builds).toHaveLength(2)
  expect(builds[0]!.starterG).toBeLessThanOrEqual(3 + 1e-9)
})

test("as many builds as somebody asks for", () => {
  expect(buildsOf(inTime(levain, { feedAt, ripeAt: inHours(14) }, 2))).toHaveLength(2)
  expect(buildsOf(inTime(levain, { feedAt, ripeAt: inHours(24) }, 3))).toHaveLength(3)
})

test("nothing is fed in the night where it can be helped", () => {
  const night = { from: inHours(2), to: inHours(11) }
  const answer = inTime(levain, { feedAt, ripeAt: inHours(21), away: [night] }, 2)
  expect(answer.kind === "in time" && answer.atNight).toBe(false)
  expect(buildsOf(answer)[1]!.feedAt).toEqual(inHours(11))
  const whole = inTime(levain, { feedAt, ripeAt: inHours(21), away: [{ from: inHours(0), to: inHours(21) }] }, 2)
  expect(whole.kind === "in time" && whole.atNight).toBe(true)
})

test("too little time is answered with the quickest feeding, and with when it would have had to be fed", () => {
  const answer = inTime(levain, { feedAt, ripeAt: inHours(3) })
  expect(answer).toMatchObject({ kind: "late", because: "time" })
  expect(buildsOf(answer)[0]!.feeding.share).toBe(0.5)
})

test("too little starter is answered with what it does at its quickest", () => {
  const answer = inTime(withStarter(10), { feedAt, ripeAt: inHours(7) })
  expect(answer).toMatchObject({ kind: "late", because: "starter" })
  expect(buildsOf(answer)[0]!.starterG).toBeCloseTo(10, 3)
})

test("starter that no three builds make enough of is said, with what it makes", () => {
  const need = { neededG: 50_000, keepG: 0, sticks: { share: 0 } }
  const answer = inTime(withStarter(1, { need }), { feedAt, ripeAt: inHours(40) })
  expect(answer.kind).toBe("too little")
  expect(answer.kind === "too little" && answer.makesG).toBeCloseTo(25 ** 3, 0)
})

test("a time far ahead is answered with a later feeding", () => {
  const answer = inTime(levain, { feedAt, ripeAt: inHours(90) })
  expect(answer.kind).toBe("early")
  expect(buildsOf(answer)[0]!.feedAt > inHours(70)).toBe(true)
})

test("a wet starter makes a stiff levain without a drop of water beside", () => {
  const [build] = buildsOf(
    inTime({ ...levain, starter: { hydration: 2 }, hydration: 0.5 }, { feedAt, ripeAt: inHours(4) }),
  )
  expect(build!.waterG).toBeCloseTo(0, 6)
  expect(build!.feeding.share).toBeCloseTo(0.25, 6)
})

test.each([Number.NaN, 0, -2])("a time of %d h is refused", (hours) => {
  expect(() => inTime(levain, { feedAt, ripeAt: inHours(hours) })).toThrow(RangeError)
})

describe("the table and its inverses agree", () => {
  const shares = [1, 2, 3, 5, 10].map((flour) => feedingIn({ starter: 1, flour, water: flour }, 1).share)
  const temperatures = [18, 21, 24, 27, 30]
  const table = ripeningTable(shares, temperatures, 1)

  test("the ratio for a cell's hours is its row's", () => {
    for (const { share, at } of table)
      for (const [column, cell] of at.entries()) {
        const atC = temperatures[column]!
        expect(shareRipeAfter(cell!.hours * rate(atC), 1)).toBeCloseTo(share, 9)
        const curve = [0, 1].map((end) => ({ at: inHours(end * 100), doughC: atC, known: "assumed" as const }))
        const wish = { startsAt: feedAt, readyAt: inHours(cell!.hours), targetRise: 1 }
        const ratio = ratioReadyAt({ ...wish, curve, starterHydration: 1, hydration: 1 })
        expect(ratio.kind === "found" && feedingIn(ratio.value, 1).share).toBeCloseTo(share, 4)
      }
  })

  test("the temperature for a cell's hours is its column's, up to where warmer is no quicker", () => {
    for (const { share, at } of table)
      for (const [column, cell] of at.entries()) {
        if (temperatures[column]! > 26) continue
        const wish = { startsAt: feedAt, readyAt: inHours(cell!.hours), targetRise: 1, prior: jarPrior(1) }
        const temperature = temperatureReadyAt({ ...wish, leaven: { culture: "sourdough", share } })
        expect(temperature.kind === "found" && temperature.value).toBeCloseTo(temperatures[column]!, 2)
      }
  })

  test("less starter takes longer, a warmer place up to its best less long, and the range holds the time", () => {
    for (const [index, { at }] of table.entries())
      for (const [column, cell] of at.entries()) {
        if (table[index + 1]) expect(table[index + 1]!.at[column]!.hours).toBeGreaterThan(cell!.hours)
        if (column < 3) expect(at[column + 1]!.hours).toBeLessThan(cell!.hours)
        expect(cell!.low < cell!.hours && cell!.hours < cell!.high).toBe(true)
      }
  })

  test("a feeding says its own hydration, whatever its water", () => {
    const thin = feedingIn({ starter: 1, flour: 1, water: 2 }, 1)
    expect(thin.hydration).toBeCloseTo(2.5 / 1.5, 12)
    const [masses] = massesOfBuilds([thin], { neededG: 100, keepG: 0, sticks: { g: 10 } })
    expect(masses).toMatchObject({ madeG: 110, staysG: 10 })
    expect(feedingsOf([0.2, 0.2], levain)[1]!.starterHydration).toBe(1)
  })
})
