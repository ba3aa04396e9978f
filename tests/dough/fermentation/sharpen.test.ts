import { expect, test } from "vitest"
import { usualPrior } from "../../../server/dough/fermentation/dough-fit.ts"
import { predictReady, type Question } from "../../../server/dough/fermentation/prediction.ts"
import { sharpestReading } from "../../../server/dough/fermentation/sharpen.ts"

const start = Date.UTC(2025, 2, 8, 8)
const clock = (hours: number) => new Date(start + hours * 3_600_000)
const question: Question = {
  leaven: { culture: "sourdough", share: 0.1 },
  startsAt: clock(0),
  now: clock(4),
  curve: [0, 4].map((hours) => ({ at: clock(hours), doughC: 25, known: "assumed" })),
  rises: [],
  targetRise: 0.5,
}
const riseNow = { at: clock(4), rise: predictReady(question).riseNow.value, sd: 0.05 }
const withDough: Question = { ...question, curve: question.curve.map((point) => ({ ...point, known: "measured" })) }
const withRise: Question = { ...question, rises: [riseNow] }
const asked = (from: Question, dough: Question, rise: Question) =>
  sharpestReading(predictReady(from), [
    { kind: "dough", question: dough },
    { kind: "rise", question: rise },
  ])

test("of a dough nobody measured, the reading that narrows its range most is named, with how wide it gets", () => {
  const best = asked(question, withDough, withRise)!
  expect(best.kind).toBe("rise")
  expect(best.toMin).toBeLessThan(0.8 * best.fromMin)
})

test("the dough's temperature is, where the leaven is well known and its jar is not read well", () => {
  const prior = { ...usualPrior("sourdough"), activitySd: 0.08, mostRiseSd: 0.08 }
  const poorly = { ...withRise, rises: [{ ...riseNow, sd: 0.15 }] }
  expect(asked({ ...question, prior }, { ...withDough, prior }, { ...poorly, prior })?.kind).toBe("dough")
})

test("none is, where none helps by much or there is no range", () => {
  expect(asked(withRise, withRise, withRise)).toBeUndefined()
  const never = {
    ...question,
    targetRise: 0.9,
    prior: { activity: 1, mostRise: 0.5, activitySd: 0.1, mostRiseSd: 0.1, lagSd: 0.2 },
  }
  expect(asked(never, never, never)).toBeUndefined()
})
