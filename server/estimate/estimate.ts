import { againstPlan, type Planned, type Running } from "../dough/fermentation/elsewhere.ts"
import type { Culture } from "../dough/fermentation/growth.ts"
import {
  type Likely,
  type Prediction,
  predictReady,
  type Question,
  type Time,
  type TimedRise,
} from "../dough/fermentation/prediction.ts"
import { type Sharper, sharpestReading } from "../dough/fermentation/sharpen.ts"
import { doubtsOf, measuredSdC } from "../dough/fermentation/temperature-doubt.ts"
import type { Stage } from "../dough/schedule.ts"
import { type ByPlan, type Proof, proofOf, timesByPlan } from "./by-plan.ts"
import { type Course, courseOf } from "./fan.ts"
import { type Belief, beliefOf, type Lessons } from "./learned.ts"
import type { Raised } from "./leaven.ts"
import { type Option, optionsFor } from "./options.ts"
import { type Asked, type Logged, questionOf } from "./question.ts"
import { type Rising, risingOf, risingStages } from "./rising.ts"
import type { Warmth } from "./warmth.ts"

/** A bake as it stands, and what it was meant to be. */
export type Bench = Logged & {
  onTableAt: Date
  skipped: string[]
  raised: Raised
  lessons: Lessons
  now: Date
}

/** What an estimate rests on: temperatures, rises, and what is believed of the leaven. */
export type Rests = Belief & {
  culture: Culture
  warmth: Pick<Warmth, "from" | "given" | "measured" | "inFridge">
  rises: number
}
type Rose = { since: Date; rise: Likely; hours: number; targetRise: number | null }

/** What can be said of a dough on its way to its target; what cannot, and what it would take; or of one that is past it. */
export type Estimate =
  | { kind: "cannot"; why: string; wants: string; soFar?: Rose; byPlan?: ByPlan }
  | (Rose & {
      kind: "rising"
      targetRise: number
      time: Time
      hoursAtTarget?: number
      running: Running
      options: Option[]
      tableAt?: Date
      sharper?: Sharper<"dough" | "rise">
      course: Course
      riseAt: Prediction["riseAt"]
      rests: Rests
    })
  | (Rose & { kind: "shaped"; shapedAt: Date; proof: Proof; rests: Rests })

/** The estimate of one bake; undefined while nothing has begun, and for a shaped dough of which nothing can be said. */
export function estimateOf(bench: Bench): Estimate | undefined {
  const { raised, now } = bench
  const rising = risingOf(bench.stages, bench.marks)
  if (!rising || rising.zeroAt > now) return begunWithout(bench)
  const shaped = rising.endedAt !== undefined && rising.endedAt <= now
  const cannot = (why: string, wants: string): Estimate | undefined =>
    shaped ? undefined : { kind: "cannot", why, wants }
  if ("why" in raised) return cannot(raised.why, raised.wants)
  if (isQuiet(bench)) return cannot("Nothing has been logged for a long time.", "what happened meanwhile")
  const belief = beliefOf(bench.lessons, raised.leaven.culture, bench.targetRise ?? 0)
  const asked = questionOf(bench, raised, now, belief.prior)
  if (!asked) {
    const why = "Nobody has said how warm the dough is, nor the room, and the plan names no temperature."
    return cannot(why, "a dough temperature; the room’s will do")
  }
  return shaped ? shapedFrom(bench, asked, belief) : risingFrom(bench, asked, belief)
}

/** Without a target the rise is told just the same. */
function predictionFor({ targetRise }: Bench, { rising, question: asked }: Asked) {
  const question: Question = { ...asked, targetRise: targetRise ?? 0.5 }
  const prediction = predictReady(question)
  const { riseNow: rise, hoursAt } = prediction
  return { question, prediction, soFar: { since: rising.zeroAt, rise, hours: hoursAt(question.now), targetRise } }
}
const restsOn = (belief: Belief, { warmth, question }: Asked): Rests => ({
  ...belief,
  warmth,
  rises: question.rises.length,
  culture: question.leaven.culture,
})

function shapedFrom(bench: Bench, asked: Asked, belief: Belief): Estimate {
  const { question, soFar } = predictionFor(bench, asked)
  const proof = proofOf(bench, question.now, question.leaven.culture)
  return { kind: "shaped", ...soFar, shapedAt: question.now, proof, rests: restsOn(belief, asked) }
}

function risingFrom(bench: Bench, asked: Asked, belief: Belief): Estimate {
  const { question, prediction, soFar } = predictionFor(bench, asked)
  const { riseNow: _, riseAt, hoursAt, ...time } = prediction
  const { targetRise } = bench
  if (targetRise === null) {
    const byPlan = timesByPlan(asked.rising.stages, question)
    const wants = "a target, such as +50 %, from the instructor"
    return {
      kind: "cannot",
      why: "The bake day names no rise to stop at.",
      wants,
      soFar,
      ...(byPlan ? { byPlan } : {}),
    }
  }
  const told = {
    ...{ kind: "rising" as const, ...soFar, targetRise, time, riseAt },
    ...{ rests: restsOn(belief, asked), course: courseOf(prediction, question, question.rises.map(asRead)) },
  }
  if (time.kind !== "ready") return { ...told, running: { kind: "on plan" }, options: [] }
  const running = againstPlan(time, plannedFor(asked.rising, bench))
  return {
    ...{ ...told, running, hoursAtTarget: hoursAt(time.readyAt), tableAt: tableAtFor(time.readyAt, bench) },
    options: time.readyAt > bench.now ? optionsFor(running, question, time) : [],
    ...sharperOf(question, asked, prediction, time),
  }
}

/** A rise with the whole of its error. */
const asRead = ({ at, rise, sd, startMark }: TimedRise) => ({
  at,
  rise,
  sd: Math.hypot(sd, (1 + rise) * (startMark?.sd ?? 0)),
})

/** Something is marked, but not what an estimate starts from. */
function begunWithout({ stages, marks, now }: Bench): Estimate | undefined {
  if (!marks.some(({ startedAt }) => startedAt <= now)) return undefined
  const [first] = risingStages(stages)
  const later = stages.slice(first ? stages.indexOf(first) + 1 : 0)
  const isMarked = (stage: Stage) => marks.some(({ stageKey }) => stageKey === stage.key)
  if (first && !isMarked(first) && !later.some(isMarked)) return undefined
  if (!first)
    return { kind: "cannot", why: "The formula has no bulk in which a dough rises to a target.", wants: "a bulk stage" }
  return {
    kind: "cannot",
    why: `When ${first.name.toLowerCase()} began is not marked, or is marked out of order.`,
    wants: `the start of ${first.name.toLowerCase()}`,
  }
}

/** The last that was logged is longer ago than a night, and no fridge says why. */
function isQuiet({ marks, readings, stages, now }: Bench): boolean {
  const open = marks.findLast(({ endedAt }) => endedAt === null)
  if (stages.some(({ key, kind }) => key === open?.stageKey && kind === "retard")) return false
  const last = Math.max(
    ...marks.flatMap(({ startedAt, endedAt }) => [+startedAt, +(endedAt ?? startedAt)]),
    ...readings.map(({ takenAt }) => +takenAt),
  )
  return +now - last > quietMs
}
// As on the table: longer than a night. Our own choice.
const quietMs = 16 * 3_600_000

const minutes = (stages: Stage[], of: (stage: Stage) => number) => stages.reduce((sum, stage) => sum + of(stage), 0)
const after = (at: Date, min: number) => new Date(+at + min * 60_000)

/** The plan's own range of the rising, from when this dough began. */
function plannedFor({ stages, zeroAt }: Rising, { skipped }: Bench): Planned {
  const done = stages.filter(({ key }) => !skipped.includes(key))
  return {
    from: after(
      zeroAt,
      minutes(done, ({ lowMin }) => lowMin),
    ),
    to: after(
      zeroAt,
      minutes(done, ({ highMin }) => highMin),
    ),
  }
}

/** When the bread would be on the table, with the rest as planned. */
function tableAtFor(readyAt: Date, { stages, skipped, now }: Bench): Date {
  const last = risingStages(stages).at(-1)!
  const later = stages.slice(stages.indexOf(last) + 1).filter(({ key }) => !skipped.includes(key))
  return after(
    readyAt > now ? readyAt : now,
    minutes(later, ({ lowMin, highMin }) => (lowMin + highMin) / 2),
  )
}

/** Which reading now would narrow the range most, each as it is expected to come out. */
function sharperOf(question: Question, { warmth }: Asked, { riseNow }: Prediction, time: Time) {
  const { now, startsAt, curve, rises } = question
  if (time.kind !== "ready" || time.readyAt <= now) return {}
  const measured = { at: now, doughC: curve.at(-1)!.doughC, known: "measured" as const }
  const given = [...warmth.errors, { at: now, sdC: measuredSdC }]
  const dough: Question = { ...question, curve: [...curve, measured], doubts: doubtsOf(curve, startsAt, given) }
  const rise = riseNow.value
  const mark = rises.findLast(({ startMark }) => startMark)
  const error = mark ? { sd: mark.sd, startMark: mark.startMark! } : { sd: usualMarkSd * Math.hypot(1, 1 + rise) }
  const jar: Question = { ...question, rises: [...rises, { at: now, rise, ...error }] }
  const sharper = sharpestReading(time, [
    { kind: "dough", question: dough },
    { kind: "rise", question: jar },
  ])
  return sharper ? { sharper } : {}
}
// 3 mm on a sample that stands 60 mm high, see jar.ts.
const usualMarkSd = 3 / 60
