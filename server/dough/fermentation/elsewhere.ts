import { predictReady, type Question, type Time } from "./prediction.ts"
import type { Surroundings } from "./temperature-curve.ts"

/** When a dough is planned to be at its target: somewhere between the two. */
export type Planned = { from: Date; to: Date }

/** By how many minutes a dough runs ahead of the middle of its plan or behind it, if it does. */
export type Running = { kind: "ahead" | "behind"; min: number } | { kind: "on plan" }

/**
 * Whether a dough runs ahead of its plan or behind it: its likeliest time lies outside the planned one, and even the other
 * end of its 80 % range on that side of the plan's middle. Everything else is on plan, as far as anybody can say.
 */
export function againstPlan(time: Extract<Time, { kind: "ready" }>, { from, to }: Planned): Running {
  const middle = (+from + +to) / 2
  const min = Math.abs(+time.readyAt - middle) / 60_000
  if (time.readyAt < from && time.latest && +time.latest < middle) return { kind: "ahead", min }
  if (time.readyAt > to && +time.earliest > middle) return { kind: "behind", min }
  return { kind: "on plan" }
}

/** When the dough would be ready if it stood somewhere else from now on; its curve reaches to now. Throws like predictReady. */
export const readyElsewhere = (question: Question, surroundings: Surroundings): Time =>
  predictReady({ ...question, surroundings })
