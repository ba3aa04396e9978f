import { startClock } from "../dough/fermentation/clock.ts"
import { type Culture, rate } from "../dough/fermentation/growth.ts"
import type { Question } from "../dough/fermentation/prediction.ts"
import { heldOver, hourMs, movingToward } from "../dough/fermentation/temperature-curve.ts"
import type { Stage } from "../dough/schedule.ts"
import type { Logged } from "./question.ts"
import type { Rising } from "./rising.ts"
import { warmthOf } from "./warmth.ts"

/** What a plan's range of times at one temperature comes to by a dough's own clock. */
export type ByPlan = { plannedC: number; from: Date; to: Date }

type Course = Pick<Question, "startsAt" | "now" | "curve" | "surroundings"> & { culture: Culture }

function byClock(stages: Stage[], { startsAt, now, curve, surroundings, culture }: Course): ByPlan | undefined {
  const plannedC = stages[0]?.referenceC
  if (plannedC === undefined || stages.some(({ referenceC }) => referenceC !== plannedC)) return undefined
  const endsAt = new Date(+now + longestHours * hourMs)
  const ahead = surroundings ? movingToward(curve.at(-1)!, surroundings, endsAt).slice(1) : []
  const clock = startClock(heldOver([...curve, ...ahead], startsAt, endsAt), startsAt, endsAt, culture)
  const reached = (min: (stage: Stage) => number) =>
    clock.reachedAt((stages.reduce((sum, stage) => sum + min(stage), 0) / 60) * rate(plannedC, culture))
  const [from, to] = [reached(({ lowMin }) => lowMin), reached(({ highMin }) => highMin)]
  return from && to && { plannedC, from, to }
}
const longestHours = 24

/** For a dough that nobody gave a target: its plan's times, where all of its stages are meant for one temperature. */
export const timesByPlan = (stages: Stage[], question: Question) =>
  byClock(stages, { ...question, culture: question.leaven.culture })

/**
 * What can be said of the proof. No rise is measured in it and nobody gave it a target, so nothing is estimated: where the
 * plan gives it a time at a temperature, that much fermentation is told by the dough's own clock.
 */
export type Proof = ({ kind: "by the plan"; name: string } & ByPlan) | { kind: "none"; why: string }

/** The proof of a dough that has been shaped. */
export function proofOf(logged: Logged & { now: Date }, shapedAt: Date, culture: Culture): Proof {
  const { stages, marks, now } = logged
  const proof = stages.find(({ kind }) => kind === "proof")
  const startOf = (stage: Stage | undefined) => marks.find(({ stageKey }) => stageKey === stage?.key)?.startedAt
  const retarded = stages.some((stage) => stage.kind === "retard" && +(startOf(stage) ?? 0) >= +shapedAt)
  if (retarded) return none("A proof through the fridge has no time to reckon by: go by the finger test.")
  const startsAt = startOf(proof)
  if (!proof || !startsAt) return none("It has not been set to proof yet.")
  if (marks.some(({ stageKey, endedAt }) => stageKey === proof.key && endedAt)) return none("Its proof is over.")
  if (proof.referenceC === undefined)
    return none("The plan gives its proof no temperature, so no time follows from it: go by the finger test.")
  const rising: Rising = { stages: [proof], metAt: shapedAt, zeroAt: startsAt, zeroAboutMin: 0 }
  const warmth = warmthOf({ ...logged, rising, until: now })
  if (!warmth || warmth.from === "plan")
    return none("Nobody has measured dough or room since it was shaped: go by the finger test.")
  const { curve, surroundings } = warmth
  const times = byClock([proof], { startsAt, now, curve, culture, ...(surroundings ? { surroundings } : {}) })
  return times
    ? { kind: "by the plan", name: proof.name, ...times }
    : none("At this temperature it would take over a day.")
}

const none = (why: string): Proof => ({ kind: "none", why })
