import { describe, expect, test } from "vitest"
import { asInstant } from "../../server/dough/fermentation/bakers-yeast.ts"
import { hourMs } from "../../server/dough/fermentation/temperature-curve.ts"
import { alike, buildsFrom, type Levain } from "../../server/dough/levain/builds.ts"
import { feedingIn, feedingOf, massesOf, massesOfBuilds } from "../../server/dough/levain/feeding.ts"
import { inTime } from "../../server/dough/levain/in-time.ts"
import { hoursAt, hoursToRipe, yeastedHoursToRipe } from "../../server/dough/levain/ripening.ts"

type Fed = [starter: number, flour: number, water: number]
/** Hours to double with their 80 % range, fed so many parts of starter, flour and water. */
const doublesAt = (atC: number, ...[starter, flour, water]: Fed) =>
  hoursAt(atC, hoursToRipe(feedingIn({ starter, flour, water }, 1).share, 1))!
const nothingStays = { keepG: 0, sticks: { share: 0 } }

describe("common practice, no published source, as our own model gives it", () => {
  test("a 1 : 1 : 1 levain doubles in 5–7 h at room temperature: 6.7 h at 21 °C, 4.8 h at 24 °C", () => {
    expect(doublesAt(21, 1, 1, 1).hours).toBeCloseTo(6.7, 1)
    expect(doublesAt(24, 1, 1, 1).hours).toBeCloseTo(4.8, 1)
  })

  test("a 1 : 5 : 5 levain doubles in 10–11 h at 21–22 °C", () => {
    expect(Math.round(doublesAt(21, 1, 5, 5).hours)).toBe(11)
    expect(Math.round(doublesAt(22, 1, 5, 5).hours)).toBe(10)
  })
})

describe("levains whose bakers told how long they stood in a room whose temperature they did not tell: at 20–21 °C they ripen in that time", () => {
  test.each([
    {
      what: "154 g flour, 190 g water and 16 g starter, 14–16 h: marlenesfood.com, a rye sourdough (seen as notes from the page)",
      fed: [16, 154, 190] as Fed,
      told: [14, 16],
    },
    {
      what: "10 g starter, 50 g flour and 50 g water, about 13 h: hundredloaves.com/eight (seen as notes from the page)",
      fed: [10, 50, 50] as Fed,
      told: [13, 13],
    },
  ])("$what", ({ fed, told: [from, to] }) => {
    const [cool, warm] = [doublesAt(20, ...fed), doublesAt(21, ...fed)]
    expect(warm.low).toBeLessThanOrEqual(from!)
    expect(cool.high).toBeGreaterThanOrEqual(to!)
    expect((cool.hours + warm.hours) / 2).toBeGreaterThan(from! - 1.5)
    expect((cool.hours + warm.hours) / 2).toBeLessThan(to! + 1.5)
  })
})

describe("two builds over a day: ¾ oz of liquid rye starter (100 %) built to 7 oz of stiff levain (about 50 %) in two feedings over 24 h: web.thefreshloaf.com/blog/mag314 (seen as notes from the page)", () => {
  const oz = 28.349523125
  const levain: Levain = {
    need: { neededG: 7 * oz, ...nothingStays },
    starter: { g: 0.75 * oz, hydration: 1 },
    ...{ hydration: 0.5, other: 0, rise: 1, atC: 19 },
  }
  const feedAt = new Date("2026-11-13T08:00:00Z")
  const inHours = (hours: number) => new Date(+feedAt + hours * hourMs)

  test("two equal feedings from that starter make that levain, and are ripe within the day at a room's 18–24 °C", () => {
    const share = alike(0.2834, 2, levain)
    const [first, second] = massesOfBuilds(share, levain.need)
    expect(first!.starterG / oz).toBeCloseTo(0.75, 2)
    expect(first!.goesOnG).toBeCloseTo(second!.starterG, 9)
    expect(second!.madeG / oz).toBeCloseTo(7, 9)
    // flour 4 2/3 oz with 3/8 oz of it in the starter, water 2 1/3 oz with as much
    expect((first!.flourG + second!.flourG) / oz).toBeCloseTo(14 / 3 - 0.375, 2)
    expect((first!.waterG + second!.waterG) / oz).toBeCloseTo(7 / 3 - 0.375, 2)
    const takes = (atC: number) => +buildsFrom(share, { ...levain, atC }, feedAt).at(-1)!.ripe.at - +feedAt
    expect(takes(18) / hourMs).toBeLessThan(24)
    expect(takes(24) / hourMs).toBeGreaterThan(8)
  })

  test("asked for two builds over 24 h, each has 12 h, and that starter is enough", () => {
    const answer = inTime(levain, { feedAt, ripeAt: inHours(24) }, 2)
    expect(answer.kind).toBe("in time")
    const builds = "builds" in answer ? answer.builds : []
    expect(builds.map(({ feedAt: at }) => (+at - +feedAt) / hourMs)).toEqual([0, expect.closeTo(12, 3)])
    expect(builds[0]!.starterG).toBeLessThanOrEqual(0.75 * oz)
    expect(builds.map(({ feeding }) => feeding.hydration)).toEqual([0.5, 0.5])
  })
})

describe("amounts", () => {
  test("a class's starter by hand: 1.32 kg of a 2 : 1 water-to-flour starter and 440 g flour, 1,760 g in all, shared out at about 170 g: thefreshloaf.com/print/33417 (seen as notes from the page)", () => {
    const feeding = feedingIn({ starter: 1320, flour: 440, water: 0 }, 2)
    const [masses] = massesOfBuilds([feeding], { neededG: 1760, ...nothingStays })
    expect(masses!.starterG).toBeCloseTo(1320, 9)
    expect(masses!.flourG).toBeCloseTo(440, 9)
    expect(feeding.hydration).toBeCloseTo(1, 12)
    const [shared] = massesOfBuilds([feeding], { neededG: 10 * 170, keepG: 0, sticks: { g: 60 } })
    expect(shared!.madeG).toBeCloseTo(1760, 9)
  })

  test("20 g starter + 40 + 40 make 100 g: bakinggreatbread.blog, 2026 (seen as notes from the page)", () => {
    const [masses] = massesOfBuilds([feedingOf(0.2, { starterHydration: 1, hydration: 1 })], {
      neededG: 100,
      ...nothingStays,
    })
    expect(masses).toMatchObject({
      starterG: expect.closeTo(20, 9),
      flourG: expect.closeTo(40, 9),
      waterG: expect.closeTo(40, 9),
    })
  })

  test("4.5 kg flour with 55 % water and 0.25 % malt is 6.98625 kg, the starter that is taken out again not counted: a trade baker on sourdough.com, Determining hydration (primary)", () => {
    const fed = feedingOf(1e-12, { starterHydration: 0.55, hydration: 0.55, other: 0.0025 })
    const masses = massesOf(6.98625, 6.98625, fed)
    expect(masses.flourG).toBeCloseTo(4.5, 6)
    expect(masses.waterG).toBeCloseTo(2.475, 6)
    expect(masses.otherG).toBeCloseTo(0.01125, 6)
  })
})

test("of a poolish, 0.3 g yeast on 468 g flour, our model says no time: Wild Yeast, baker's percentage part 4 (primary)", () => {
  expect(yeastedHoursToRipe(asInstant(0.3 / 468, "instant"), 1)).toBeUndefined()
})

test("of a sponge with 1 % instant yeast it says the 1–2 h at 24–27 °C of common practice, no published source", () => {
  const reference = yeastedHoursToRipe(0.01, 1)!
  for (const atC of [24, 27]) {
    const { hours } = hoursAt(atC, reference, "baker's yeast")!
    expect(hours).toBeGreaterThan(1)
    expect(hours).toBeLessThan(2)
  }
})
