import { expect, test } from "vitest"
import { verdictOf } from "../server/dough/verdict/verdict.ts"
import { account, readAccount } from "./told-accounts.ts"

const read = (told: object) => readAccount(account.parse({ id: "one", ...told }))

test("an account in words becomes the facts of a bake, and no more than that", () => {
  const { facts, suggested } = read({
    bread: "sourdough boule",
    formula_lines: ["levain 20 %", "72 % hydration", "salt 2.5 %"],
    stages: [
      { name: "levain", minutes: 300, temp_c: 24, temp_kind: "room" },
      { name: "bulk", minutes: [240, 270], temp_c: 25, temp_kind: "dough, measured" },
      { name: "retard", minutes: null, minutes_as_written: "overnight", temp_kind: "fridge" },
      { name: "bake lid on", minutes: 20, temp_c: 240, temp_kind: "oven" },
    ],
    observations: ["deflated when scored", "core 205 F"],
    rise: { increase_pct: 60, basis: "marks on the jar" },
    derived_by_us: { prefermented_flour_pct: 10 },
    consensus_diagnosis: "nobody looks at this",
  })

  expect(facts).toEqual({
    culture: "sourdough",
    leavenShare: 0.1,
    hydration: { low: 0.72, high: 0.72 },
    salt: { low: 0.025, high: 0.025 },
    vessel: "pot",
    stages: [
      { kind: "levain", min: { low: 300, high: 300 }, c: { low: 24, high: 24 }, of: "room", known: "measured" },
      { kind: "bulk", min: { low: 240, high: 270 }, c: { low: 25, high: 25 }, of: "dough", known: "measured" },
      { kind: "retard", of: "fridge" },
    ],
    rise: { share: 0.6, known: "measured" },
    insideC: expect.closeTo(96.1, 1),
    cues: ["deflated"],
  })
  expect(suggested).toEqual([{ key: "deflated", words: "deflated when scored" }])
})

test("lengths that somebody estimated are left out", () => {
  const [stage] = read({ stages: [{ name: "proof", minutes: [480, 720], minutes_estimated_by_us: true }] }).facts.stages
  expect(stage).toEqual({ kind: "proof" })
})

test("what was left out, and flour from a dipped cup, are told as changes", () => {
  const { facts } = read({ formula_lines: ["salt: forgotten", "dip and level the cup"] })
  expect(facts.changes?.map(({ kind }) => kind)).toEqual(["salt left out", "flour by cup"])
})

test("an account with nothing in it gets a question", () => {
  const verdict = verdictOf(read({ bread: "bread" }).facts)
  expect(verdict).toMatchObject({ call: "not enough to say", wouldHelp: expect.stringContaining("would help most") })
})
