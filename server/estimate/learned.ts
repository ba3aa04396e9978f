import { activityOf, type Bake, classPrior, nextPrior } from "../dough/fermentation/activity.ts"
import { type DoughPrior, usualPrior } from "../dough/fermentation/dough-fit.ts"
import type { Culture } from "../dough/fermentation/growth.ts"
import { risesByClock } from "../dough/fermentation/prediction.ts"
import { type Dough, type Logged, questionOf } from "./question.ts"

/** What the readings of one bake say of its leaven. */
export type Lesson = { culture: Culture; bake: Bake }

/** What one bake teaches; undefined where its rises say nothing, for want of a start, a temperature or a rise. */
export function lessonOf(logged: Logged, dough: Dough, now: Date): Lesson | undefined {
  const asked = questionOf(logged, dough, now)
  if (!asked?.question.rises.length) return undefined
  const { leaven, prior } = asked.question
  const readings = risesByClock(asked.question)
  return { culture: leaven.culture, bake: { leaven, readings, factor: dough.factor, mostRise: prior!.mostRise } }
}

/** What an estimate believes of a leaven, and on what that rests; `ratio` is its activity against the usual. */
export type Belief = { prior: DoughPrior; ownBakes: number; classLeavens: number; ratio: number }

/** Who baked what, for the same class; `own` is of the baker whose dough is to be estimated. */
export type Lessons = { own: Lesson[]; others: Lesson[][] }

/**
 * What is believed of this baker's leaven before today's readings: the usual, or what the class's leavens show where they
 * are enough, moved by this baker's earlier bakes. Only bakes with the same culture count.
 */
export function beliefOf({ own, others }: Lessons, culture: Culture, targetRise: number): Belief {
  const usual = usualPrior(culture, targetRise)
  const same = (lessons: Lesson[]) => lessons.filter((lesson) => lesson.culture === culture).map(({ bake }) => bake)
  const leavens = others.map(same).filter(({ length }) => length > 0)
  const learnt = classPrior(
    leavens.map((bakes) => activityOf(bakes, usual)),
    usual,
  )
  const ofClass = learnt.enough ? learnt.value : usual
  const bakes = same(own)
  const prior = bakes.length ? nextPrior(activityOf(bakes, ofClass), ofClass) : ofClass
  return {
    prior,
    ownBakes: bakes.length,
    classLeavens: learnt.enough ? leavens.length : 0,
    ratio: prior.activity / usual.activity,
  }
}
