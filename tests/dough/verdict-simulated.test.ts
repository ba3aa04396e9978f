import { beforeAll, describe, expect, test } from "vitest"
import type { Confidence, Cue } from "../../server/dough/verdict/cue.ts"
import { type CueKey, cues } from "../../server/dough/verdict/cues.ts"
import { type ExplanationKey, type FaultKey, faultKeys } from "../../server/dough/verdict/explanations.ts"
import type { BakeFacts, Finger } from "../../server/dough/verdict/facts.ts"
import { namedIn, type Pull, type Verdict, verdictOf } from "../../server/dough/verdict/verdict.ts"

/**
 * Bakes whose truth is known, made by code of their own: how far each dough had come and what else was wrong with it, what
 * clock, jar and finger say of that, a few of the things that would be seen, some of them twice in other words; and one
 * account in twelve is of another bake altogether.
 */
type Truth = { progress: number; byClock: number; fault?: FaultKey }
type Simulated = Truth & { verdict: Verdict }

type Called = Extract<Verdict, { mean: number }>
const pulls: Pull[] = ["under", "well", "over"]
const sideOf = ({ progress }: Truth): Pull => (progress < -0.2 ? "under" : progress > 0.2 ? "over" : "well")
let said: (Truth & { verdict: Called })[] = []
beforeAll(() => {
  said = simulate(5000).filter(({ verdict }) => verdict.call !== "not enough to say") as typeof said
})

describe("over 5 000 simulated bakes", () => {
  test("what is said to be so likely is so that often, to within 5 points", () => {
    const all = pulls.flatMap((pull) =>
      said.map((bake) => ({ pull, stated: bake.verdict[pull], held: sideOf(bake) === pull })),
    )
    console.log(table(all))
    const bins = binned(all).filter(({ count }) => count >= 100)
    expect(bins).toHaveLength(5)
    for (const { stated, held } of bins) expect(Math.abs(stated - held)).toBeLessThan(0.05)
  })

  test.each(pulls)("so is each of the three by itself: %s", (pull) => {
    const bins = binned(said.map((bake) => ({ stated: bake.verdict[pull], held: sideOf(bake) === pull })))
    for (const { stated, held, count } of bins) {
      expect(count).toBeGreaterThan(200)
      expect(Math.abs(stated - held), `${count} said ${stated.toFixed(2)}`).toBeLessThan(0.05)
    }
  })

  test("what is named first is right at least as often as is said", () => {
    const named = said.map((bake) => {
      const { key, chance } = namedIn(bake.verdict)!
      return { stated: chance, held: isSo(key, bake) }
    })
    for (const { stated, held, count } of binned(named).filter(({ count }) => count >= 100))
      expect(held, `${count} said ${stated.toFixed(2)}`).toBeGreaterThan(stated - 0.05)
  })

  test("there is enough to say of most, and never more than some 95 % is claimed", () => {
    expect(said.length).toBeGreaterThan(3500)
    expect(Math.max(...said.flatMap(({ verdict }) => pulls.map((pull) => verdict[pull])))).toBeLessThan(0.96)
  })
})

function isSo(key: ExplanationKey, bake: Truth) {
  if (key === "underproofed") return sideOf(bake) === "under"
  if (key === "overproofed") return sideOf(bake) === "over"
  return key === "nothing wrong" ? !bake.fault && sideOf(bake) === "well" : bake.fault === key
}

function simulate(count: number): Simulated[] {
  const { random, gauss, pick } = chanceFrom(20260)
  return Array.from({ length: count }, () => {
    const bake = truth()
    const told = random() < 1 / 12 ? truth() : bake
    return { ...bake, verdict: verdictOf(factsOf(told)) }
  })

  function truth(): Truth {
    const fault = random() < 18 / 57 ? pick(faultKeys, (key) => (key === "levain weak" ? 4 : 1)) : undefined
    const [pace, differs] = (fault && paces[fault]) ?? [0, 0]
    const byClock = gauss() * (fault ? 0.4 : 0.5)
    return { byClock, progress: byClock + pace + differs * gauss(), ...(fault ? { fault } : {}) }
  }

  function factsOf(bake: Truth): BakeFacts {
    const facts: BakeFacts = { stages: [], cues: told(bake) }
    // one value in fifty is not what it seems
    const seen = (value: number) => (random() < 0.02 ? random() * 3.2 - 1.6 : value)
    if (random() < 0.6) {
      const assumedShare = random() < 0.5 ? 0 : random()
      const done = 7 * Math.exp(seen(bake.byClock + gauss() * (0.15 + 0.25 * assumedShare)))
      facts.hours = { done, planned: 7, assumedShare }
    }
    if (random() < 0.5) {
      const known = random() < 0.4 ? ("felt" as const) : ("measured" as const)
      const share = 0.5 * Math.exp(1.3 * seen(bake.progress + gauss() * (known === "felt" ? 0.35 : 0.25)))
      facts.rise = { share, target: 0.5, known }
    }
    if (random() < 0.4) facts.finger = { at: "proof", found: fingerOf(bake.progress + gauss() * 0.32) }
    return facts
  }

  /** Up to four things, each by how likely it would be seen; some again in other words. */
  function told(bake: Truth): CueKey[] {
    const all = Object.keys(cues) as CueKey[]
    const first = Array.from({ length: Math.floor(random() * 5) }, () =>
      pick(all, (key) => chanceToSee(cues[key], bake)),
    )
    const again = first.flatMap((key) => {
      const others = all.filter((other) => other !== key && cues[other].group === cues[key].group)
      return others.length && random() < 0.4 ? [pick(others, () => 1)] : []
    })
    return [...new Set([...first, ...again])]
  }
}

const paces: { [key in FaultKey]?: [number, number] } = {
  "salt short": [0.18, 0.1],
  "salt too much": [-0.22, 0.1],
  "levain weak": [-0.5, 0.25],
  "yeast missing": [-1.5, 0.4],
}

const fingerOf = (value: number): Finger => (value < -0.2 ? "straight-back" : value > 0.2 ? "stays" : "slowly-partly")

const shown: Record<Confidence, number> = { certain: 0.95, high: 0.6, medium: 0.3, low: 0.1 }

function chanceToSee({ points, against = {}, cause, far }: Cue, bake: Truth) {
  const entries = (of: Cue["points"]) => Object.entries(of) as [ExplanationKey, Confidence][]
  const left = entries(points).reduce((all, [key, how]) => all * (1 - shown[how] * isThere(key, bake, far)), 1)
  const kept = entries(against).reduce((all, [key, how]) => all * (1 - shown[how] * isThere(key, bake)), 1)
  return (1 - (1 - (cause ? 0.02 : 0.05)) * left) * kept
}

/** In steps, where the verdict's own code has a curve. */
function isThere(key: ExplanationKey, { progress, fault }: Truth, far = false) {
  const beyond = key === "overproofed" ? progress : -progress
  if (key === "underproofed" && far) return progress < -0.8 ? 1 : 0
  if (key === "underproofed" || key === "overproofed")
    return beyond > 0.28 ? 1 : beyond > 0.2 ? 0.6 : beyond > 0.12 ? 0.2 : 0
  if (key !== "nothing wrong") return key === fault ? 1 : 0
  const off = Math.abs(progress)
  return fault ? 0 : off < 0.2 ? 0.85 : off < 0.35 ? 0.3 : 0.05
}

type Stated = { stated: number; held: boolean }

function binned(all: Stated[]) {
  return [0, 0.2, 0.4, 0.6, 0.8].map((from) => {
    const inIt = all.filter(({ stated }) => stated >= from && (stated < from + 0.2 || from === 0.8))
    const mean = (value: (one: Stated) => number) => inIt.reduce((sum, one) => sum + value(one), 0) / (inIt.length || 1)
    return { count: inIt.length, stated: mean(({ stated }) => stated), held: mean(({ held }) => (held ? 1 : 0)) }
  })
}

function table(all: (Stated & { pull: Pull })[]) {
  const row = (name: string, rows: Stated[]) =>
    name.padEnd(8) +
    binned(rows)
      .map(({ count, stated, held }) => `${percent(stated)} → ${percent(held)} (${count})`.padStart(22))
      .join("")
  const rows = pulls.map((pull) =>
    row(
      pull,
      all.filter((one) => one.pull === pull),
    ),
  )
  return [`Stated → held (how often), of ${said.length} bakes with enough to say:`, ...rows, row("all", all)].join("\n")
}
const percent = (share: number) => `${Math.round(share * 100)} %`

/** The same numbers every time: mulberry32, a public-domain generator. */
function chanceFrom(seed: number) {
  let state = seed
  const random = () => {
    state = (state + 0x6d2b79f5) | 0
    let mixed = Math.imul(state ^ (state >>> 15), 1 | state)
    mixed = (mixed + Math.imul(mixed ^ (mixed >>> 7), 61 | mixed)) ^ mixed
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 4294967296
  }
  const gauss = () => Math.sqrt(-2 * Math.log(1 - random())) * Math.cos(2 * Math.PI * random())
  function pick<One>(from: readonly One[], weightOf: (one: One) => number): One {
    const weights = from.map(weightOf)
    let left = random() * weights.reduce((sum, one) => sum + one, 0)
    const at = weights.findIndex((weight) => {
      left -= weight
      return left < 0
    })
    return from[Math.max(at, 0)]!
  }
  return { random, gauss, pick }
}
