import type { Liveliness } from "../dough/causes/bake-causes.ts"
import { startClock } from "../dough/fermentation/clock.ts"
import {
  type DoughPrior,
  type FittedDough,
  fitDough,
  hoursToRise,
  usualPrior,
} from "../dough/fermentation/dough-fit.ts"
import { risesByClock } from "../dough/fermentation/prediction.ts"
import { heldOver, meanDoughC } from "../dough/fermentation/temperature-curve.ts"
import { countBack, type Stage } from "../dough/schedule.ts"
import { type Answer, enough, notEnough } from "../dough/statistics/answer.ts"
import type { Raised } from "../estimate/leaven.ts"
import { type Asked, type Dough, questionOf } from "../estimate/question.ts"
import { plannedActivity } from "./planned-rise.ts"
import type { Log } from "./spans.ts"

/** How long the dough took to its target rise, in minutes since its bulk began, and how warm it or its room was until then. */
export type ToTarget = { min: number; meanC: number; of: "dough" | "room"; rises: number }

/** What the jar says of a bake: how lively its leaven was, and when it reached the target. */
export type Risen = { liveliness: Answer<Liveliness>; toTarget: Answer<ToTarget> }

type Targets = { targetRise: number | null; targetDoughC?: number | null }

/** Fits a bake's rises once, for both. */
export function risenOf(log: Log, stages: Stage[], targets: Targets, now: Date): Risen {
  const no = (why: string): Risen => ({ liveliness: notEnough(why), toTarget: notEnough(why) })
  if (!log.raised) return no("What raises it is not known.")
  const { planned, actual } = log.raised
  if ("why" in actual) return no(actual.why)
  const believed = asPlanned(log, stages, targets, planned, actual)
  const asked = questionOf(loggedFrom(log, stages, targets), actual, now, believed)
  if (!asked) return no("The rise has no start, or no temperature at all.")
  if (!asked.question.rises.length) return no("No rise was read before it was shaped.")
  const readings = risesByClock(asked.question)
  const fitted = fitDough(asked.question.leaven, readings, asked.question.prior!, readings[0]?.doubts?.length)
  return { liveliness: livelinessOf(fitted, planned, believed), toTarget: toTargetOf(fitted, asked, targets) }
}

function loggedFrom({ marks, readings }: Log, stages: Stage[], { targetRise, targetDoughC = null }: Targets) {
  return {
    stages,
    marks: marks.map((mark) => ({ ...mark, startedAboutMin: mark.startedAboutMin ?? null, pauses: mark.pauses ?? [] })),
    readings: readings
      // a rise that nobody looked at says nothing of the leaven
      .filter(({ kind, known }) => !(kind === "rise" && known === "assumed"))
      .map((reading) => ({
        ...reading,
        ...{ known: reading.known ?? "measured", of: reading.of ?? "", typed: reading.typed ?? "" },
        takenAboutMin: reading.takenAboutMin ?? null,
      })),
    targetDoughC,
    targetRise,
  }
}

/** What is believed of a dough before its jar is read: as lively as its plan takes it to be. */
function asPlanned(log: Log, stages: Stage[], { targetRise }: Targets, planned: Raised, actual: Dough): DoughPrior {
  const usual = usualPrior(actual.leaven.culture, targetRise ?? 0)
  // with another culture than the plan's, the plan says nothing of it
  if ("why" in planned || planned.leaven.culture !== actual.leaven.culture) return usual
  const activity = plannedActivity(countBack(stages, log.onTableAt), planned, usual, targetRise)
  return { ...usual, activity: activity / planned.factor }
}

/** Against the leaven that the plan counts on, in the dough as planned, so that salt and sugar that were changed count here too. */
function livelinessOf({ dough, covariance }: FittedDough, planned: Raised, { activity }: DoughPrior) {
  const counted = activity * ("why" in planned ? 1 : planned.factor)
  return enough({ ratio: dough.activity / counted, sd: Math.sqrt(covariance[0]![0]!) })
}

/**
 * When the fitted curve comes to the target. It must lie among the readings, or nearly: the model may draw the line between
 * them, but not go on alone. How near is our own judgement.
 */
function toTargetOf({ dough }: FittedDough, { question, warmth }: Asked, { targetRise }: Targets): Answer<ToTarget> {
  if (!targetRise) return notEnough("The bake day names no target.")
  if (warmth.from === "plan") return notEnough("Nobody measured dough or room.")
  const { leaven, startsAt, now, curve, rises } = question
  const last = rises.at(-1)!
  const untilMs = +startsAt + (+last.at - +startsAt) * (1 + farthestBeyond)
  const endsAt = new Date(Math.max(untilMs, +now))
  const hours = hoursToRise(leaven, dough, targetRise)
  const at = hours && startClock(heldOver(curve, startsAt, endsAt), startsAt, endsAt, leaven.culture).reachedAt(hours)
  if (!at || +at > untilMs) return notEnough("Its jar was last read before the target.")
  const near = rises.some(({ rise }) => rise >= targetRise * nearLow && rise <= targetRise * nearHigh)
  if (!near) return notEnough("No rise was read near the target.")
  const meanC = meanDoughC(heldOver(curve, startsAt, endsAt), startsAt, at)
  if (meanC === undefined) return notEnough("It was at its target from the start.")
  return enough({ min: (+at - +startsAt) / 60_000, meanC, of: warmth.from, rises: rises.length })
}
const farthestBeyond = 0.15
const nearLow = 0.5
const nearHigh = 1.6
