import { startClock } from "../dough/fermentation/clock.ts"
import type { Culture } from "../dough/fermentation/growth.ts"
import { rate } from "../dough/fermentation/growth.ts"
import { heldOver } from "../dough/fermentation/temperature-curve.ts"
import type { Logged } from "./question.ts"
import type { Rising } from "./rising.ts"
import { warmthOf } from "./warmth.ts"

/**
 * What can be said of the proof. No rise is measured in it and nobody gave it a target, so nothing is estimated: where the
 * plan gives it a time at a temperature, that much fermentation is told by the dough's own clock, `from` to `to`.
 */
export type Proof =
  | { kind: "by the plan"; name: string; plannedC: number; from: Date; to: Date }
  | { kind: "none"; why: string }

/** The proof of a dough that has been shaped. */
export function proofOf(logged: Logged & { now: Date }, shapedAt: Date, culture: Culture): Proof {
  const { stages, marks, now } = logged
  const proof = stages.find(({ kind }) => kind === "proof")
  const retard = stages.find(({ key, kind }) => kind === "retard" && startOf(marks, key) >= +shapedAt)
  const mark = marks.find(({ stageKey }) => stageKey === proof?.key)
  if (!proof || !mark) return none("It has not been set to proof yet.")
  if (retard) return none("A proof through the fridge has no time to reckon by: go by the finger test.")
  if (mark.endedAt) return none("Its proof is over.")
  if (proof.referenceC === undefined)
    return none("The plan gives its proof no temperature, so no time follows from it: go by the finger test.")
  const rising: Rising = { stages: [proof], metAt: shapedAt, zeroAt: mark.startedAt, zeroAboutMin: 0 }
  const warmth = warmthOf({ ...logged, rising, until: now })
  if (!warmth || warmth.from === "plan")
    return none("Nobody has measured dough or room since it was shaped: go by the finger test.")
  const endsAt = new Date(+now + 24 * 3_600_000)
  const clock = startClock(heldOver(warmth.curve, mark.startedAt, endsAt), mark.startedAt, endsAt, culture)
  const [from, to] = [proof.lowMin, proof.highMin].map((min) =>
    clock.reachedAt((min / 60) * rate(proof.referenceC!, culture)),
  )
  return from && to
    ? { kind: "by the plan", name: proof.name, plannedC: proof.referenceC, from, to }
    : none("At this temperature it would take more than a day.")
}

const startOf = (marks: Logged["marks"], key: string) =>
  +(marks.find(({ stageKey }) => stageKey === key)?.startedAt ?? Number.NEGATIVE_INFINITY)
const none = (why: string): Proof => ({ kind: "none", why })
