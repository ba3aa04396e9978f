import { describe, expect, test } from "vitest"
import type { Change } from "../../../server/dough/heat/changes.ts"
import { mixedDoughC, neededWaterC } from "../../../server/dough/heat/heat-balance.ts"
import { iceOnTopG, iceShare, waterWithIceC } from "../../../server/dough/heat/ice.ts"
import { specificHeats } from "../../../server/dough/heat/specific-heat.ts"
import { type Wish, waterFor } from "../../../server/dough/heat/water-for.ts"

const at = (tempC: number) => [
  { name: "flour", mass: 500, kJPerKgK: specificHeats.flour, tempC },
  { name: "levain", mass: 100, kJPerKgK: 3, tempC },
]
const wish = (differing: Partial<Wish> = {}): Wish => ({
  waterMass: 325,
  additions: at(20),
  riseC: 1,
  doughC: 24,
  tapC: 15,
  iceC: -18,
  ...differing,
})
const told = <Kind extends ReturnType<typeof waterFor>["kind"]>(answer: ReturnType<typeof waterFor>, kind: Kind) => {
  expect(answer.kind).toBe(kind)
  return answer as Extract<ReturnType<typeof waterFor>, { kind: Kind }>
}
/** The wish with one change made. */
const heeding = (one: Wish, change: Change): Wish => {
  if (change.what === "dough") return { ...one, doughC: change.toC }
  if (change.what === "kneading") return { ...one, riseC: change.toC }
  const all = change.what === "all"
  const additions = one.additions.map((a) => (all || a.name === change.name ? { ...a, tempC: change.toC } : a))
  return { ...one, additions }
}

test("an ordinary wish is answered with a temperature", () => {
  const { waterC } = told(waterFor(wish()), "water")
  expect(mixedDoughC(wish(), waterC)).toBeCloseTo(24, 10)
})

test("what is as good as the tap's own temperature needs no ice", () => {
  const tapC = neededWaterC(wish(), 24) + 0.4
  expect(waterFor(wish({ tapC })).kind).toBe("water")
})

describe("colder than the tap", () => {
  const warm = wish({ additions: at(30), doughC: 23, tapC: 22 })
  const answer = waterFor(warm)

  test("the ice and the water are all the water there is, and make the dough what was wished", () => {
    const { iceMass, waterMass, waterC } = told(answer, "ice")
    expect(iceMass + waterMass).toBeCloseTo(325, 10)
    expect(mixedDoughC(warm, waterC)).toBeCloseTo(23, 10)
    // heat given by all that cools against heat taken up by the ice, kJ per 1000
    const mixedC = 23 - warm.riseC
    const given = warm.additions.reduce((sum, one) => sum + one.mass * one.kJPerKgK * (one.tempC - mixedC), 0)
    const byWater = waterMass * specificHeats.water * (22 - mixedC)
    const takenPerG = 335 + 18 * 2.0361 + specificHeats.water * mixedC
    expect(iceMass * takenPerG).toBeCloseTo(given + byWater, 0)
  })

  test("ice on top of all the tap water makes a heavier dough of the same temperature", () => {
    const { onTopMass } = told(answer, "ice")
    const ice = {
      name: "ice",
      mass: onTopMass,
      kJPerKgK: specificHeats.water,
      tempC: waterWithIceC({ tapC: 0, iceC: -18, share: 1 }),
    }
    expect(mixedDoughC({ ...warm, additions: [...warm.additions, ice] }, 22)).toBeCloseTo(23, 9)
  })

  test("where the tap is warmer than the dough, ice in place of its water is the lesser amount", () => {
    const { iceMass, onTopMass } = told(waterFor({ ...warm, tapC: 28 }), "ice")
    expect(onTopMass).toBeGreaterThan(iceMass)
  })

  test("each change that is enough makes ice needless", () => {
    const enough = told(answer, "ice").changes.filter((change) => change.enough)
    expect(enough.length).toBeGreaterThan(0)
    for (const change of enough) expect(waterFor(heeding(warm, change)).kind).toBe("water")
  })

  test("water below freezing is a wish that ice can grant", () => {
    const { waterC } = told(waterFor(wish({ additions: at(34), doughC: 17, tapC: 22 })), "ice")
    expect(waterC).toBeLessThan(0)
  })
})

describe("above 45 °C", () => {
  const cold = wish({ additions: at(4), doughC: 30 })
  const answer = told(waterFor(cold), "too hot")

  test("it says what water it would need, and what 45 °C would make of the dough", () => {
    expect(answer.wouldNeedC).toBeGreaterThan(45)
    expect(mixedDoughC(cold, 45)).toBeCloseTo(answer.bestDoughC, 10)
  })

  test("every change is true, and those that are enough bring the water below 45 °C", () => {
    expect(answer.changes.map(({ what }) => what)).toContain("addition")
    for (const change of answer.changes) {
      const changed = heeding(cold, change)
      expect(neededWaterC(changed, changed.doughC)).toBeCloseTo(change.waterC, 9)
      expect(waterFor(changed).kind === "water").toBe(change.waterC <= 45)
    }
    expect(answer.changes.some(({ enough }) => enough)).toBe(true)
  })

  test("a part that cannot be warmed enough says so, and how far it helps", () => {
    const levain = answer.changes.find((change) => change.what === "addition" && change.name === "levain")!
    expect(levain).toMatchObject({ enough: false, toC: 30 })
    expect(levain.waterC).toBeLessThan(answer.wouldNeedC)
    expect(answer.changes.findIndex((change) => !change.enough)).toBeGreaterThan(0)
  })

  test("everything together needs less than flour alone", () => {
    const [flour, all] = ["addition", "all"].map((what) => answer.changes.find((change) => change.what === what)!)
    expect(all!.toC).toBeLessThan(flour!.toC)
  })

  test("what is enough comes first, and then what helps most", () => {
    const lacking = answer.changes.filter(({ enough }) => !enough).map(({ waterC }) => waterC)
    expect(lacking).toEqual(lacking.toSorted((a, b) => a - b))
  })

  test("kneading longer has its minutes, the quicker mixer's first", () => {
    const kneading = answer.changes.find((change) => change.what === "kneading")!
    const { low, high } = kneading.what === "kneading" ? kneading.minutes : { low: 0, high: 0 }
    expect(low).toBeCloseTo((kneading.toC - 1) / 0.5, 9)
    expect(high).toBeCloseTo((kneading.toC - 1) / 0.3, 9)
  })
})

test("colder than all the water as ice could make it is told as frozen, with what to change", () => {
  const hot = wish({ additions: at(38), doughC: 2, tapC: 25, waterMass: 100 })
  const answer = told(waterFor(hot), "frozen")
  expect(answer.wouldNeedC).toBeLessThan(waterWithIceC({ tapC: 25, iceC: -18, share: 1 }))
  expect(answer.bestDoughC).toBeGreaterThan(2)
  for (const change of answer.changes.filter(({ enough }) => enough))
    expect(waterFor(heeding(hot, change)).kind).toBe("ice")
})

test("water that acts like ice for a share of it asks for that share", () => {
  for (const share of [0, 0.2, 0.7, 1]) {
    const wantedC = waterWithIceC({ tapC: 18, iceC: -10, share })
    expect(iceShare({ tapC: 18, wantedC, iceC: -10 })).toBeCloseTo(share, 12)
  }
})

test("colder ice is less ice", () => {
  const share = (iceC: number) => iceShare({ tapC: 20, wantedC: 5, iceC })
  expect(share(-18)).toBeLessThan(share(0))
})

test("ice that is not frozen, or that nothing asks for, is refused", () => {
  expect(() => iceShare({ tapC: 20, wantedC: 5, iceC: 1 })).toThrow(RangeError)
  expect(() => iceShare({ tapC: 5, wantedC: 20, iceC: 0 })).toThrow(RangeError)
  const pail = { massG: 1000, kJPerKgK: specificHeats.water, iceC: 0 }
  expect(() => iceOnTopG({ ...pail, fromC: 5, toC: 20 })).toThrow(RangeError)
  expect(() => iceOnTopG({ ...pail, fromC: 20, toC: -90 })).toThrow(RangeError)
  expect(() => waterWithIceC({ tapC: 20, iceC: 0, share: 1.2 })).toThrow(RangeError)
})
