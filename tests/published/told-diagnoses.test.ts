import { expect, test } from "vitest"
import { cues } from "../../server/dough/verdict/cues.ts"
import { type ExplanationKey, explanations } from "../../server/dough/verdict/explanations.ts"
import { namedIn, type Verdict, verdictOf } from "../../server/dough/verdict/verdict.ts"
import { toldDiagnoses } from "./told-diagnoses.ts"

/** Bakes with what was agreed on. There is enough to say where the verdict says so, not where we think so. */
const judged = toldDiagnoses.flatMap(({ agreed, facts, ...told }) =>
  agreed ? [{ ...told, agreed, facts, verdict: verdictOf(facts) }] : [],
)
const enough = judged.filter(({ verdict }) => namedIn(verdict))
const isRight = ({ agreed, verdict }: (typeof judged)[number]) => agreed.includes(verdict.suspects[0]!.key)
const isAmongThree = ({ agreed, verdict }: (typeof judged)[number]) =>
  verdict.suspects.slice(0, 3).some(({ key }) => agreed.includes(key))
const shareOf = <One>(all: One[], holds: (one: One) => boolean) => all.filter(holds).length / all.length

test("the explanation named first agrees in at least 80 %, the right one is among three in at least 95 %", () => {
  console.log(confusion())
  expect(enough.length).toBeGreaterThanOrEqual(30)
  expect(shareOf(enough, isRight)).toBeGreaterThanOrEqual(0.8)
  expect(shareOf(enough, isAmongThree)).toBeGreaterThanOrEqual(0.95)
})

test("it agrees as often among all of them, were it made to name something every time", () => {
  expect(shareOf(judged, isRight)).toBeGreaterThanOrEqual(0.8)
  expect(shareOf(judged, isAmongThree)).toBeGreaterThanOrEqual(0.95)
})

test("none is wrong while sure: not the explanation it names, and not which way the dough was off", () => {
  const surelyWrong = judged.filter((one) => !isRight(one) && one.verdict.suspects[0]!.chance > 0.8)
  expect(surelyWrong.map(({ id, name }) => `${id} ${name ?? ""}`)).toEqual([])

  const away = judged.filter(({ agreed, verdict }) => sureOfAnother(verdict, agreed))
  expect(away.map(({ id, name }) => `${id} ${name ?? ""}`)).toEqual([])
})

test("what cannot be told gets a question", () => {
  const open = toldDiagnoses.map(({ facts }) => verdictOf(facts)).filter((verdict) => !namedIn(verdict))
  expect(open.length).toBeGreaterThan(0)
  for (const { wouldHelp } of open) expect(wouldHelp).toMatch(/would help most\.$/)
})

test("without any one cue the first-named explanation mostly stays, and is hardly ever wrong while sure", () => {
  const dropped = enough.flatMap((one) =>
    one.facts.cues.map((cue) => {
      const left = { ...one.facts, cues: one.facts.cues.filter((other) => other !== cue) }
      return { one, verdict: verdictOf(left) }
    }),
  )
  const stays = dropped.filter(({ one, verdict }) => verdict.suspects[0]!.key === one.verdict.suspects[0]!.key)
  const surelyWrong = dropped.filter(
    ({ one, verdict }) => verdict.suspects[0]!.chance > 0.8 && !one.agreed.includes(verdict.suspects[0]!.key),
  )
  console.log(`One cue left out: the first-named stays in ${stays.length} of ${dropped.length}.`)
  expect(stays.length / dropped.length).toBeGreaterThanOrEqual(0.8)
  expect(surelyWrong).toHaveLength(0)
})

test("the order in which things are told changes nothing", () => {
  for (const { facts, verdict } of judged) {
    const turned = verdictOf({ ...facts, cues: facts.cues.toReversed() })
    expect(turned.suspects[0]!.key).toBe(verdict.suspects[0]!.key)
    expect(turned.suspects[0]!.chance).toBeCloseTo(verdict.suspects[0]!.chance, 8)
  }
})

test("every entry has a source, and speaks of cues that its vessel can show", () => {
  for (const { id, source, facts } of toldDiagnoses) {
    expect(source, id).toMatch(/^https?:\/\//)
    for (const key of facts.cues) if (facts.vessel) expect(cues[key].vessels ?? [facts.vessel]).toContain(facts.vessel)
  }
})

/** Certain of one side of the line while the dough was agreed to be on another. */
function sureOfAnother(verdict: Verdict, agreed: ExplanationKey[]) {
  if (verdict.call === "not enough to say") return false
  const side = { underproofed: verdict.under, "nothing wrong": verdict.well, overproofed: verdict.over }
  const theirs = (Object.keys(side) as (keyof typeof side)[]).filter((key) => agreed.includes(key))
  return theirs.length > 0 && theirs.every((key) => side[key] < 0.2) && Math.max(...Object.values(side)) > 0.8
}

/** Rows: what was agreed on; columns: what is named first. */
function confusion() {
  const rows = [...new Set(enough.map(({ agreed }) => agreed.join(" or ")))]
  const named = (Object.keys(explanations) as ExplanationKey[]).filter((key) =>
    enough.some(({ verdict }) => verdict.suspects[0]!.key === key),
  )
  const width = Math.max(...rows.map(({ length }) => length)) + 2
  const lines = rows.map((row) => {
    const theirs = enough.filter(({ agreed }) => agreed.join(" or ") === row)
    const counts = named.map((key) => theirs.filter(({ verdict }) => verdict.suspects[0]!.key === key).length)
    return row.padEnd(width) + counts.map((count, at) => String(count || "·").padStart(named[at]!.length + 2)).join("")
  })
  const of = (holds: (typeof judged)[number][]) => `${holds.length} of ${enough.length}`
  return [
    `Agreed (down) and named first (across), ${enough.length} bakes with enough to say of ${judged.length}:`,
    " ".repeat(width) + named.map((key) => `  ${key}`).join(""),
    ...lines,
    `First-named agrees: ${of(enough.filter(isRight))}; among three: ${of(enough.filter(isAmongThree))}.`,
    `Made to name one every time: ${judged.filter(isRight).length} of ${judged.length}, among three ${judged.filter(isAmongThree).length}.`,
  ].join("\n")
}
