import { describe, expect, test } from "vitest"
import { firstVerdict, type Verdict, type VerdictFacts } from "../../server/dough/verdict/first.ts"

const onPlan = { referenceHours: 6.8, plannedReferenceHours: 6.8, assumedShare: 0 }
const hours = (referenceHours: number, assumedShare = 0) => ({ ...onPlan, referenceHours, assumedShare })
const words = (facts: VerdictFacts) => firstVerdict(facts).reasons.map((reason) => reason.words)
const weighed = (facts: VerdictFacts) => {
  const verdict = firstVerdict(facts)
  if (verdict.call === "not enough to say") throw new Error("expected a verdict")
  return verdict as Extract<Verdict, { mean: number }>
}

test.each([
  ["under", hours(4)],
  ["well", onPlan],
  ["over", hours(10.5)],
  ["under", { rise: 0.2, targetRise: 0.6 }],
  ["over", { rise: 1.2, targetRise: 0.6 }],
  ["well", { ...onPlan, rise: 0.6, targetRise: 0.6, finger: "slowly-partly" }],
  ["over", { ...hours(10.5), finger: "stays" }],
  ["between", hours(8.3)],
] as const)("is %s for %o", (call, facts) => {
  expect(firstVerdict(facts).call).toBe(call)
})

test("its three chances make a whole", () => {
  const { under, well, over } = weighed({ ...hours(7.5), rise: 0.5, targetRise: 0.6, finger: "stays" })
  expect(under + well + over).toBeCloseTo(1, 6)
  expect(Math.min(under, well, over)).toBeGreaterThan(0)
})

test("hours alone pull the prior by the weights of normal evidence", () => {
  const { mean, sd } = weighed(hours(6.8 * Math.exp(0.3)))
  const weight = 1 / 0.15 ** 2
  expect(mean).toBeCloseTo((0.3 * weight) / (weight + 4), 10)
  expect(sd).toBeCloseTo(1 / Math.sqrt(weight + 4), 10)
})

test("the same hours say less when the temperature was assumed", () => {
  expect(firstVerdict(hours(10.5, 1)).call).toBe("between")
  expect(weighed(hours(10.5, 1)).sd).toBeGreaterThan(weighed(hours(10.5)).sd)
  expect(words(hours(10.5, 0.4))[0]).toBe(
    "10.5 reference hours against 6.8 planned; for 40 % of that time the dough temperature is assumed",
  )
})

test("every reason is in plain words with its pull", () => {
  expect(firstVerdict({ ...hours(7.9), rise: 0.3, targetRise: 0.6, finger: "stays" }).reasons.slice(0, 3)).toEqual([
    { words: "7.9 reference hours against 6.8 planned", pull: "well" },
    { words: "Risen by 30 % against a target of 60 %", pull: "under" },
    { words: "The finger test stayed in", pull: "over" },
  ])
})

describe("not enough to say", () => {
  test.each([{}, { finger: "stays" as const }, { referenceHours: 7 }, { rise: 0.5 }, { rise: -0.1, targetRise: 0.6 }])(
    "with only %o",
    (facts) => {
      expect(firstVerdict(facts).call).toBe("not enough to say")
    },
  )

  test.each([
    [{ plannedReferenceHours: 6.8, targetRise: 0.6 }, /temperature/],
    [{ targetRise: 0.6, finger: "stays" as const }, /straight-sided jar/],
    [{ referenceHours: 7 }, /plan gives no/],
  ])("given %o, names what would help", (facts, help) => {
    expect(firstVerdict(facts)).toMatchObject({ wouldHelp: expect.stringMatching(help) })
  })
})

describe("contradictions", () => {
  const weakLevain = { ...onPlan, rise: 0.15, targetRise: 0.6 }

  test("hours on plan with little rise are said to be one", () => {
    expect(words(weakLevain)).toContain("Hours on plan but little rise: a weak or young levain is one explanation")
  })

  test("few hours with a full rise are one too", () => {
    expect(words({ ...hours(3.4), rise: 0.6, targetRise: 0.6 }).at(-1)).toMatch(/^Few hours but much rise/)
  })

  test("never look sure", () => {
    expect(firstVerdict(weakLevain).call).toBe("between")
    expect(weighed(weakLevain).sd).toBeGreaterThan(weighed(onPlan).sd)
  })

  test("a finger test against the hours is pointed out", () => {
    expect(words({ ...hours(10.5), finger: "straight-back" }).at(-1)).toMatch(/^The finger test points the other way/)
  })

  test("evidence that agrees is not called one", () => {
    expect(words({ ...hours(4), rise: 0.3, targetRise: 0.6, finger: "straight-back" })).toHaveLength(3)
  })
})

test("a dough that did not rise at all has a finite verdict", () => {
  expect(weighed({ rise: 0, targetRise: 0.6 })).toMatchObject({ call: "under", mean: expect.any(Number) })
  expect(Number.isFinite(weighed(hours(0)).mean)).toBe(true)
})

test("a fallen dough is told as such and counts a little toward over", () => {
  const fallen = { ...onPlan, rise: -0.1, targetRise: 0.6 }
  expect(words(fallen)[1]).toMatch(/^The dough stands 10 % lower than it started/)
  expect(weighed(fallen).mean).toBeGreaterThan(weighed(onPlan).mean)
})
