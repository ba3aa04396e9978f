import { type DoughPrior, usualPrior } from "../dough/fermentation/dough-fit.ts"
import { leavenAfter } from "../dough/fermentation/leaven.ts"
import type { Question } from "../dough/fermentation/prediction.ts"
import { referenceHours } from "../dough/fermentation/reference-hours.ts"
import type { Stage } from "../dough/schedule.ts"
import type { Raised } from "./leaven.ts"
import { risesOf } from "./rises.ts"
import { type Marked, type Rising, risingOf } from "./rising.ts"
import { type Read, type Warmth, warmthOf } from "./warmth.ts"

/** What of a bake an estimate rests on. */
export type Logged = {
  stages: Stage[]
  marks: Marked[]
  readings: Read[]
  targetDoughC: number | null
  targetRise: number | null
}
export type Dough = Extract<Raised, { factor: number }>
/** Everything that predictReady asks, but the target when the bake day names none. */
export type Asked = { rising: Rising; warmth: Warmth; question: Omit<Question, "targetRise"> }

/**
 * A bake as a question to the model, as it stands at `now` or stood when its dough was shaped. The volume is counted from
 * the start of the bulk, when the jar is filled; by then the leaven has grown since it met the flour. undefined where
 * nothing has begun or nobody named a temperature.
 */
export function questionOf(
  logged: Logged,
  { leaven, factor }: Dough,
  now: Date,
  believed?: DoughPrior,
): Asked | undefined {
  const rising = risingOf(logged.stages, logged.marks)
  if (!rising || rising.zeroAt > now) return undefined
  const until = rising.endedAt && rising.endedAt < now ? rising.endedAt : now
  const warmth = warmthOf({ ...logged, rising, until })
  if (!warmth) return undefined
  const { curve, doubts, surroundings } = warmth
  const grown = leavenAfter(leaven, referenceHours(curve, rising.metAt, rising.zeroAt, leaven.culture))
  const prior = believed ?? usualPrior(leaven.culture, logged.targetRise ?? 0)
  const startSdHours = rising.zeroAboutMin / Math.sqrt(3) / 60 // of times that are all as likely, one standard deviation
  return {
    ...{ rising, warmth },
    question: {
      ...{ leaven: grown, startsAt: rising.zeroAt, now: until, curve, doubts },
      ...(surroundings ? { surroundings } : {}),
      rises: risesOf(logged.readings, rising.zeroAt, until),
      prior: { ...prior, activity: prior.activity * factor, lagSd: Math.hypot(prior.lagSd, startSdHours) },
    },
  }
}
