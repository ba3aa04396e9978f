import { describe, expect, test } from "vitest"
import { type CueKey, cues } from "../../server/dough/verdict/cues.ts"
import { type ExplanationKey, explanations } from "../../server/dough/verdict/explanations.ts"
import type { BakeFacts, Finger } from "../../server/dough/verdict/facts.ts"
import { namedIn, verdictOf } from "../../server/dough/verdict/verdict.ts"

const bake = (facts: Partial<BakeFacts>): BakeFacts => ({ stages: [], cues: [], ...facts })
const judge = (facts: Partial<BakeFacts>) => verdictOf(bake(facts))
const hours = (done: number, assumedShare = 0) => ({ hours: { done, planned: 6.8, assumedShare } })
const rise = (share: number, known: "measured" | "felt" = "measured") => ({ rise: { share, known, target: 0.6 } })
const finger = (found: Finger, at: "bulk" | "proof" = "proof") => ({ finger: { found, at } })
const named = (facts: Partial<BakeFacts>) => judge(facts).suspects[0]!.key
const weighed = (facts: Partial<BakeFacts>) => {
  const verdict = judge(facts)
  if (verdict.call === "not enough to say") throw new Error("expected a verdict")
  return verdict
}

describe("from measurements", () => {
  test.each([
    ["under", hours(4)],
    ["well", hours(6.8)],
    ["over", hours(10.5)],
    ["under", rise(0.2)],
    ["over", rise(1.3)],
    ["well", { ...hours(6.8), ...rise(0.6), ...finger("slowly-partly") }],
    ["over", { ...hours(10.5), ...finger("stays") }],
    ["between", hours(8.3)],
  ] as const)("is %s for %o", (call, facts) => {
    expect(judge(facts).call).toBe(call)
  })

  test("its three chances make a whole, and so does its hill", () => {
    const { under, well, over, hill, mean } = weighed({ ...hours(7.5), ...rise(0.5), ...finger("stays") })
    expect(under + well + over).toBeCloseTo(1, 10)
    const step = hill[1]!.progress - hill[0]!.progress
    expect(hill.reduce((sum, { density }) => sum + density * step, 0)).toBeCloseTo(1, 10)
    expect(hill.reduce((sum, { progress, density }) => sum + progress * density * step, 0)).toBeCloseTo(mean, 10)
  })

  test("the same hours say less when the temperature was assumed, and a rise less when it was felt", () => {
    expect(judge(hours(10.5, 1)).call).toBe("between")
    expect(weighed(hours(10.5, 1)).sd).toBeGreaterThan(weighed(hours(10.5)).sd)
    const [felt, measured] = [
      { ...hours(6.8), ...rise(0.5, "felt") },
      { ...hours(6.8), ...rise(0.5) },
    ]
    expect(weighed(felt).sd).toBeGreaterThan(weighed(measured).sd)
  })

  test("a rise that nobody looked at is no evidence", () => {
    expect(judge({ rise: { share: 0.1, known: "assumed", target: 0.6 } }).evidence).toEqual([])
  })

  test("a dough that did not rise at all, or stood no time, has a finite verdict", () => {
    expect(Number.isFinite(weighed(rise(0)).mean)).toBe(true)
    expect(weighed(hours(0)).call).toBe("under")
  })

  test("hours on plan with little rise point to the leaven, and never look sure", () => {
    const verdict = weighed({ ...hours(6.8), ...rise(0.2) })
    expect(verdict.suspects.slice(0, 2).map(({ key }) => key)).toContain("levain weak")
    expect(verdict.suspects[0]!.chance).toBeLessThan(0.6)
    expect(verdict.sd).toBeGreaterThan(weighed(hours(6.8)).sd)
  })

  test("a dent that stays pulls over in the proof, and hardly at all in the first rise", () => {
    const shift = (at: "bulk" | "proof") =>
      judge({ ...hours(6.8), ...finger("stays", at) }).evidence.find(({ key }) => key === "finger")!.logShift
    expect(shift("proof")).toBeGreaterThan(0.03)
    expect(Math.abs(shift("bulk"))).toBeLessThan(shift("proof") / 2)
  })

  test("an inside that was not hot enough points to underbaking, and speaks against it when it was", () => {
    expect(named({ insideC: 85, cues: ["gummy-crumb"] })).toBe("underbaked")
    const hot = judge({ insideC: 98, cues: ["gummy-crumb", "dense"] }).suspects.find(({ key }) => key === "underbaked")!
    expect(hot.against).toContain("The inside was hot enough")
    expect(hot.chance).toBeLessThan(0.05)
  })
})

describe("not enough to say", () => {
  test.each([
    {},
    finger("stays"),
    { hours: { done: 7, assumedShare: 0 } },
    { rise: { share: -0.1, known: "measured", target: 0.6 } },
  ] as Partial<BakeFacts>[])("with only %o, and then it asks for the one thing that would help most", (facts) => {
    const verdict = judge(facts)
    expect(verdict.call).toBe("not enough to say")
    expect(verdict.wouldHelp).toMatch(/^[A-Z].*would help most\.$/)
  })

  test.each(Object.keys(cues) as CueKey[])("on %s alone", (key) => {
    expect(judge({ cues: [key] }).call).toBe("not enough to say")
  })

  test("on all the cues that contradict each other together", () => {
    const contradicting = (Object.keys(cues) as CueKey[]).filter((key) => cues[key].alone === false)
    expect(contradicting).toEqual(expect.arrayContaining(["flat", "pale", "dark", "wrinkled", "doubled", "flying-top"]))
    expect(judge({ cues: contradicting, ...finger("stays") }).call).toBe("not enough to say")
  })

  test("asks for what is missing: not for what is known", () => {
    expect(judge({}).wouldHelp).toMatch(/temperature/)
    expect(judge(hours(10.5)).wouldHelp).not.toMatch(/temperature, with the times/)
    expect(judge({ ...hours(6.8), ...rise(0.6) }).wouldHelp).not.toMatch(/How far it had risen/)
  })

  test("asks for the check that would separate two suspects", () => {
    const torn = judge({
      ...hours(6.8),
      ...rise(0.6),
      ...finger("slowly-partly"),
      cues: ["gummy-crumb"],
      vessel: "tin",
    })
    expect(torn.wouldHelp).toMatch(/inside|cooled|crumb/)
  })
})

describe("what was seen", () => {
  test.each([
    ["overproofed", { cues: ["deflated", "cuts-stayed-shut"] }],
    ["overproofed", { cues: ["many-tiny-holes", "sharply-sour", "stuck-to-the-basket"] }],
    ["overproofed", { cues: ["sunken-top", "coarse"], vessel: "tin" }],
    ["underproofed", { cues: ["tight-and-wet", "burst"] }],
    ["underproofed", { cues: ["caverns", "dense", "good-ear"] }],
    ["underproofed", { cues: ["split-side", "dense"], vessel: "tin" }],
    ["nothing wrong", { cues: ["open-and-even", "good-ear"] }],
    ["nothing wrong", { cues: ["shrank-a-little", "fine-and-even"], vessel: "tin" }],
    ["underbaked", { cues: ["gummy-line", "cut-warm"] }],
    ["levain over-ripe", { culture: "sourdough", cues: ["levain-sunken", "slack-at-the-end"] }],
    ["levain weak", { culture: "sourdough", cues: ["levain-young", "little-rise"] }],
    ["too wet", { cues: ["wet-from-the-mix", "spread-when-turned-out"] }],
    ["weak gluten", { cues: ["hardly-kneaded", "tears"] }],
    ["overworked gluten", { cues: ["kneaded-very-long", "tears"] }],
    ["salt short", { cues: ["bland", "rose-hugely"] }],
    ["salt too much", { cues: ["too-salty", "little-rise"] }],
    ["yeast missing", { cues: ["no-rise", "yeast-flat"] }],
    ["cold oven", { cues: ["oven-not-hot", "no-spring"] }],
    ["flour by cup", { cues: ["stiff-dough", "dry-crumb"] }],
    ["too rich", { cues: ["rich-dough", "sides-pulled-in"], vessel: "tin" }],
    ["handling", { cues: ["torn-at-the-bench", "lumpy"] }],
    ["sprouted or spoilt", { cues: ["ropy-crumb", "gummy-crumb"] }],
  ] as [ExplanationKey, Partial<BakeFacts>][])("%s is named for %o", (key, facts) => {
    expect(named(facts)).toBe(key)
  })

  test("the same thing in other words counts little more than once", () => {
    const once = judge({ cues: ["spread-when-turned-out", "sticky-dough"] }).suspects[0]!.chance
    const thrice = judge({ cues: ["spread-when-turned-out", "flat", "ran-over-the-edge", "sticky-dough"] }).suspects[0]!
    const apart = judge({ cues: ["spread-when-turned-out", "sharply-sour", "many-tiny-holes", "sticky-dough"] })
    expect(thrice.chance - once).toBeLessThan((apart.suspects[0]!.chance - once) / 2)
  })

  test("signs of opposite faults leave it between them", () => {
    const torn = weighed({ ...hours(6.8, 1), cues: ["deflated", "burst"] })
    const sure = weighed({ ...hours(6.8, 1), cues: ["deflated", "cuts-stayed-shut"] })
    expect(torn.call).toBe("between")
    expect(torn.sd).toBeGreaterThan(sure.sd)
    expect(judge({ cues: ["deflated", "burst"] }).call).toBe("not enough to say")
  })

  test("a tin holds up what runs without one: what cannot be seen there is not weighed", () => {
    const facts = { ...hours(9), cues: ["spread-when-turned-out", "split-side"] } satisfies Partial<BakeFacts>
    const keys = (vessel: BakeFacts["vessel"]) => judge({ ...facts, vessel }).evidence.map(({ key }) => key)
    expect(keys("tin")).toEqual(["hours", "split-side"])
    expect(keys("hearth")).toEqual(["hours", "spread-when-turned-out"])
  })

  test("a tall loaf speaks more for a dough without a tin", () => {
    const well = (vessel: BakeFacts["vessel"]) => weighed({ ...hours(6.8, 0.5), cues: ["tall"], vessel }).well
    expect(well("hearth")).toBeGreaterThan(well("tin"))
  })

  test("a fault that explains the bread takes the blame from the dough's progress", () => {
    const dense = judge({ cues: ["dense", "no-spring"] })
    const cold = judge({ cues: ["dense", "no-spring", "oven-not-hot"] })
    const under = (verdict: typeof dense) => verdict.suspects.find(({ key }) => key === "underproofed")!.chance
    expect(cold.suspects[0]!.key).toBe("cold oven")
    expect(under(cold)).toBeLessThan(under(dense))
  })

  test("a leaven that was left out is named, not the dough that is short without it", () => {
    const change = { kind: "yeast left out" as const, words: "The leaven was left out" }
    const verdict = weighed({ changes: [change], cues: ["no-rise"] })
    expect(verdict.suspects[0]!.key).toBe("yeast missing")
    expect(verdict.under).toBeGreaterThan(0.8)
  })
})

describe("how it says it", () => {
  const facts = { ...hours(10.5), ...rise(0.9), ...finger("stays"), cues: ["deflated", "sharply-sour"] as CueKey[] }

  test("every piece of evidence with its words, its pull and its source", () => {
    const { evidence } = judge({ ...hours(7.9, 0.4), ...rise(0.3), ...finger("stays") })
    expect(evidence.map(({ words, pull }) => [words, pull])).toEqual([
      ["7.9 reference hours against 6.8 planned; for 40 % of that time the dough temperature is assumed", "well"],
      ["Risen by 30 % against a target of 60 %", "under"],
      ["The finger test stayed in", "over"],
    ])
    for (const { source } of evidence) expect(source).not.toBe("")
  })

  test("each piece pulls the way it would put the dough alone, and together they point where the verdict does", () => {
    const whole = weighed(facts)
    for (const { pull, logShift, alone } of whole.evidence) {
      expect(pull).toBe("over")
      expect(logShift).toBeGreaterThan(0)
      expect(alone.sd).toBeGreaterThan(whole.sd)
    }
    expect(whole.mean).toBeGreaterThan(0.25)
  })

  test("a piece left out no longer pulls", () => {
    const less = weighed({ ...facts, cues: ["sharply-sour"] })
    expect(less.over).toBeLessThan(weighed(facts).over)
  })

  test("what may never decide says so", () => {
    const { evidence } = judge({ ...finger("stays"), cues: ["flat", "deflated"] })
    expect(Object.fromEntries(evidence.map(({ key, decides }) => [key, decides]))).toEqual({
      ...{ finger: false, flat: false, deflated: true },
    })
  })

  test("every explanation is a suspect once, likeliest first, with what speaks for and against it and a check", () => {
    const { suspects } = judge(facts)
    expect(suspects.map(({ key }) => key).toSorted()).toEqual(Object.keys(explanations).toSorted())
    expect(suspects.map(({ chance }) => chance)).toEqual(suspects.map(({ chance }) => chance).toSorted((a, b) => b - a))
    expect(suspects[0]).toMatchObject({
      key: "overproofed",
      for: expect.arrayContaining(["The finger test stayed in"]),
    })
    expect(suspects.find(({ key }) => key === "underproofed")!.against).toContain("The finger test stayed in")
    for (const { check } of suspects) expect(check).toMatch(/\.$/)
  })

  test("it is never sure, whatever agrees", () => {
    const cuesFor = ["deflated", "cuts-stayed-shut", "sharply-sour", "many-tiny-holes", "stood-too-long"] as CueKey[]
    const { over } = weighed({ ...facts, cues: cuesFor })
    expect(over).toBeGreaterThan(0.85)
    expect(over).toBeLessThan(0.96)
  })

  test("names nothing where there is not enough to say", () => {
    expect(namedIn(judge({ cues: ["flat"] }))).toBeUndefined()
    expect(namedIn(judge(facts))!.key).toBe("overproofed")
  })
})

describe("from the stages that were told, without a plan", () => {
  const room = (kind: "bulk" | "proof", min: number, c: number) =>
    ({ kind, min: { low: min, high: min }, c: { low: c, high: c }, of: "room", known: "measured" }) as const
  const sourdough = { culture: "sourdough", leavenShare: 0.1 } as const

  test.each([
    ["under", { ...sourdough, stages: [room("bulk", 180, 19), room("proof", 60, 19)], cues: ["caverns"] }],
    ["over", { ...sourdough, stages: [room("bulk", 720, 27)], cues: ["sticky-dough"] }],
    ["well", { ...sourdough, stages: [room("bulk", 290, 24), room("proof", 120, 24)], cues: ["open-and-even"] }],
  ] as [string, Partial<BakeFacts>][])("%s for %o", (call, facts) => {
    expect(judge(facts).call).toBe(call)
  })

  test("alone they are not enough", () => {
    expect(judge({ ...sourdough, stages: [room("bulk", 180, 19), room("proof", 60, 19)] }).call).toBe(
      "not enough to say",
    )
  })

  test("a dough that goes warm into the fridge goes on there", () => {
    const words = (min: number) =>
      judge({
        ...sourdough,
        stages: [room("bulk", 240, 27), { kind: "retard", of: "fridge", min: { low: min, high: min } }],
      }).evidence[0]!.words
    const hoursIn = (said: string) => Number(/About ([\d.]+) reference/.exec(said)![1])
    expect(hoursIn(words(720)) - hoursIn(words(0.01))).toBeGreaterThan(1.5)
  })

  test("a levain that stood a day speaks for itself, not for the dough", () => {
    const old = { kind: "levain", min: { low: 1380, high: 1380 }, c: { low: 26.7, high: 26.7 } } as const
    expect(named({ ...sourdough, stages: [old], cues: ["levain-runny", "spread-when-turned-out"] })).toBe(
      "levain over-ripe",
    )
  })
})
